"""The values of a row in both shapes of a table: all values of one sample, or one value with its name."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from soilrota.files import heading_key, nearest_name
from soilrota.model.intake import ReportedValue
from soilrota.model.laboratory_files import AnalysisColumn, FileKind, LaboratoryForm, Spot
from soilrota.problems import Problem, error
from soilrota.quantities import Refusal, read_unit
from soilrota.results.laboratory_table import Table, TableRow
from soilrota.results.row_values import (
    Cell,
    Numbers,
    StatedUnit,
    is_not_measured,
    numbers_of,
    read_measured,
    stated_unit,
)

_BAR = re.compile(r"\s*\|\s*")

#: The values of a row, and everything that is wrong with them.
Read = tuple[tuple[ReportedValue, ...], tuple[Problem, ...]]


class RowValues(Protocol):
    """Reads the values of the rows of one table."""

    @property
    def columns(self) -> frozenset[int]:
        """The columns that hold values, from 0."""

    def read(self, row: TableRow) -> Read:
        """Return the values of a row, and everything that is wrong with them."""


@dataclass(frozen=True, slots=True)
class _ValueColumn:
    """A column of values: where it stands, what it means, its unit or why it has none, how its numbers are written."""

    index: int
    means: AnalysisColumn
    unit: StatedUnit | Problem
    numbers: Numbers


@dataclass(frozen=True, slots=True)
class _SampleRows:
    """Reads rows that hold all values of one sample."""

    table: Table
    readers: tuple[_ValueColumn, ...]

    @property
    def columns(self) -> frozenset[int]:
        """The columns that hold values, from 0."""
        return frozenset(reader.index for reader in self.readers)

    def read(self, row: TableRow) -> Read:
        """Return the values of a row, and everything that is wrong with them."""
        values: dict[str, ReportedValue] = {}
        problems: list[Problem] = []
        for reader in self.readers:
            cell = _cell(self.table, row, reader.index)
            if is_not_measured(cell.text):
                continue
            if isinstance(reader.unit, Problem):
                problems.append(reader.unit)
                continue
            found = read_measured(cell, reader.means, reader.unit, reader.numbers)
            if isinstance(found, Problem):
                problems.append(found)
            elif found is not None and reader.means.code in values:
                earlier = values[reader.means.code].as_reported
                what = f"'{reader.means.heading}' beside {earlier}: {reader.means.code} twice"
                mend = "empty one of the two cells, or correct the form"
                problems.append(error("analysis-twice", cell.place, what, "each analysis once a row", mend))
            elif found is not None:
                values[reader.means.code] = found
        return tuple(values.values()), tuple(problems)


def sample_rows(
    table: Table, form: LaboratoryForm, header: TableRow, below: Sequence[TableRow]
) -> tuple[RowValues, TableRow | None]:
    """Return what reads rows of all values of one sample, and the row of units where there is one.

    Args:
        table: the table.
        form: how it is written.
        header: the row of its headings.
        below: the rows below that are not empty.
    """
    keys = [heading_key(cell) for cell in header.cells]
    there = [(keys.index(key), column) for column in form.columns if (key := heading_key(column.heading)) in keys]
    units = _row_of_units(table, header, there, below)
    rows = [row for row in below if row is not units and row.wrong is None]
    readers = []
    for index, column in there:
        in_row = column.unit_row and units is not None
        text = units.cell(index) if units is not None and in_row else ""
        place = table.place(units if units is not None and in_row else header, index)
        numbers = numbers_of(form, (row.cell(index) for row in rows if index not in row.numeric))
        readers.append(_ValueColumn(index, column, stated_unit(column, text, place), numbers))
    return _SampleRows(table, tuple(readers)), units


def _row_of_units(
    table: Table, header: TableRow, there: Iterable[tuple[int, AnalysisColumn]], below: Sequence[TableRow]
) -> TableRow | None:
    """Return the row below the headings where units stand in it; a row of results is never passed over.

    Nor is one that has shifted or was cut short: its units could stand under the wrong headings.
    """
    columns = [index for index, column in there if column.unit_row]
    if not columns or not below or below[0].wrong is not None or below[0].width > header.width:
        return None
    if table.grid.kind is FileKind.CSV and len(below[0].cells) < header.width:
        return None
    says = (read_unit(below[0].cell(index)) for index in columns)
    return below[0] if any(not isinstance(found, Refusal) for found in says) else None


@dataclass(frozen=True, slots=True)
class _ValueRows:
    """Reads rows that hold one value with the name of its analysis."""

    table: Table
    names: Mapping[str, AnalysisColumn]
    ignored: frozenset[str]
    analysis: int
    value: int
    unit: int | None
    method: int | None
    numbers: Numbers

    @property
    def columns(self) -> frozenset[int]:
        """The columns that hold values, from 0."""
        return frozenset({self.value})

    def read(self, row: TableRow) -> Read:
        """Return the value of a row, and everything that is wrong with it."""
        name, how = row.cell(self.analysis), row.cell(self.method)
        keys = [key for key in _name_keys(name, how) if key]
        means = next((self.names[key] for key in keys if key in self.names), None)
        if means is None:
            return (), () if self.ignored & {*keys} else (self._unknown(row, name, how),)
        cell = _cell(self.table, row, self.value)
        if is_not_measured(cell.text):
            return (), ()
        unit_column = self.value if self.unit is None else self.unit
        unit = stated_unit(means, row.cell(self.unit), self.table.place(row, unit_column))
        if isinstance(unit, Problem):
            return (), (unit,)
        found = read_measured(cell, means, unit, self.numbers)
        if isinstance(found, Problem):
            return (), (found,)
        return ((found,), ()) if found is not None else ((), ())

    def _unknown(self, row: TableRow, name: str, how: str) -> Problem:
        """Return that the name of an analysis is not known."""
        shown = f"{name} | {how}" if how else name
        near = nearest_name(shown, (column.heading for column in self.names.values()))
        mend = "declare it, or ignore it, in the laboratory's file"
        mend = f"write '{near}' if it is that; or {mend}" if near else mend
        place = self.table.place(row, self.analysis)
        return error("unknown-name", place, f"'{shown[:80]}'", "a name of an analysis that the form declares", mend)


def value_rows(table: Table, form: LaboratoryForm, header: TableRow, below: Sequence[TableRow]) -> RowValues:
    """Return what reads rows of one value; the arguments are those of `sample_rows`."""
    keys = [heading_key(cell) for cell in header.cells]

    def column(spot: Spot | None) -> int | None:
        key = heading_key(spot.heading) if spot is not None else ""
        return keys.index(key) if key and key in keys else None

    analysis, value = column(form.analysis), column(form.value)
    if analysis is None or value is None:
        raise ValueError(f"the headings are not those of {form.name}: find_form_for says which row they stand in")
    return _ValueRows(
        table=table,
        names={_name_key(means.heading): means for means in form.columns},
        ignored=frozenset(_name_key(word) for word in form.ignored),
        analysis=analysis,
        value=value,
        unit=column(form.unit),
        method=column(form.method),
        numbers=numbers_of(form, (row.cell(value) for row in below if value not in row.numeric)),
    )


def _name_keys(name: str, how: str) -> Iterator[str]:
    """Yield what a name may be declared by: with its method first."""
    if how:
        yield _name_key(f"{name} | {how}")
    yield _name_key(name)


def _name_key(name: str) -> str:
    """Return what names of analyses are compared by; blanks round the bar before a method make no difference."""
    return heading_key(_BAR.sub(" | ", name))


def _cell(table: Table, row: TableRow, index: int) -> Cell:
    """Return a cell of a value."""
    return Cell(row.cell(index), index in row.numeric, table.place(row, index))
