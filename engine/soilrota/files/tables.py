"""Reads CSV files (RFC 4180) against a table schema: each cell typed, each problem with its line and column."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from soilrota.files.cells import Cell, split_rows
from soilrota.files.columns import Column, columns_of
from soilrota.files.other_form import OtherForm, Slot, slots_of
from soilrota.files.schemas import SchemaSet, shipped_schemas
from soilrota.files.text import read_text
from soilrota.problems import Place, Problem, error, has_errors, in_order

LARGEST_TABLE = 20_000_000
MOST_ROWS = 200_000
_MOST_REPORTED = 200


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table.

    Attributes:
        values: by column; None for an empty cell, `datetime.date` for a day.
        name: the file's name in the book.
        line: line on which the row begins, from 1.
        columns: by column, the line and column at which its cell begins.
        headings: by column, its heading in the file where that is another.
    """

    values: dict[str, Any]
    name: str
    line: int
    columns: dict[str, tuple[int, int]]
    headings: dict[str, str] = field(default_factory=dict)

    def place(self, column: str = "") -> Place:
        """Return the place of a cell, or of the row where no column is named or the file does not have it."""
        line, at = self.columns.get(column, (self.line, 1))
        return Place(self.name, line, at, self.headings.get(column, column))


@dataclass(frozen=True, slots=True)
class Table:
    """A checked table: its rows in the order of the file."""

    name: str
    rows: tuple[Row, ...]


def read_csv(
    file: Path, name: str, table: str, schemas: SchemaSet | None = None, form: OtherForm | None = None
) -> tuple[Table | None, tuple[Problem, ...]]:
    """Read a CSV file of the book.

    Args:
        file: where it lies.
        name: its name in the book, for places.
        table: name of the table schema, for instance `applications` for `applications.table.json`.
        schemas: the closed set of schemas; the shipped ones when None.
        form: another form in which it may be written; None for ours alone.

    Returns:
        The table, or None where it has an error; and all its problems in order (at most 200 of the rows).
    """
    text, found = read_text(file, name, LARGEST_TABLE)
    if text is None:
        return None, found
    columns = columns_of(schemas or shipped_schemas(), f"{table}.table.json")
    rows, problems = read_rows(text, name, columns, form)
    return None if has_errors(problems) else Table(name, rows), in_order(problems)


def read_rows(
    text: str, name: str, columns: dict[str, Column], form: OtherForm | None = None
) -> tuple[tuple[Row, ...], tuple[Problem, ...]]:
    """Return the typed rows of CSV text, and its problems."""
    lines = split_rows(text, name)
    header = next(lines, None)
    if header is None:
        mend = f"begin with the line {','.join(columns)}"
        return (), (error("empty-document", Place(name, 1, 1), "the table is empty", "a header row", mend),)
    if isinstance(header, Problem):
        return (), (header,)
    slots, problems = slots_of(header, columns, form, name)
    if has_errors(problems):
        return (), problems
    rows, found = _typed_rows(lines, slots, columns, name)
    return rows, (*problems, *found)


def _typed_rows(
    lines: Iterator[list[Cell] | Problem], slots: Sequence[Slot], columns: dict[str, Column], name: str
) -> tuple[tuple[Row, ...], list[Problem]]:
    """Return the rows below the header."""
    rows: list[Row] = []
    problems: list[Problem] = []
    for cells in lines:
        if len(problems) >= _MOST_REPORTED:
            break
        if isinstance(cells, Problem):
            problems.append(cells)
            continue
        if len(rows) >= MOST_ROWS:
            place = Place(name, cells[0].line, 1)
            problems.append(error("too-large", place, f"more than {MOST_ROWS:,} rows", "", "split the table"))
            break
        if len(cells) != len(slots):
            problems.append(_miscounted(cells, len(slots), name))
            continue
        row, found = _row(cells, slots, columns, name)
        problems += found
        rows.append(row)
    return tuple(rows), problems


def _miscounted(cells: list[Cell], wanted: int, name: str) -> Problem:
    """Return that a row has too few or too many cells."""
    extra = cells[wanted] if len(cells) > wanted else cells[-1]
    found = f"{len(cells)} {'cell' if len(cells) == 1 else 'cells'}"
    mend = "put quotes round a text that holds a comma, and keep a comma for each empty cell"
    place = Place(name, extra.line, extra.column)
    return error("wrong-count", place, found, f"{wanted}, as in the header", mend)


def _row(cells: list[Cell], slots: Sequence[Slot], columns: dict[str, Column], name: str) -> tuple[Row, list[Problem]]:
    """Return one row with typed values, and what is wrong with its cells."""
    values: dict[str, Any] = dict.fromkeys(columns)
    places: dict[str, tuple[int, int]] = {}
    headings: dict[str, str] = {}
    problems: list[Problem] = []
    for cell, slot in zip(cells, slots, strict=True):
        if slot is None:
            continue
        column, reader = slot
        places[column] = (cell.line, cell.column)
        if reader.name != column:
            headings[column] = reader.name
        value, wrong = reader.value(cell.text.strip(), Place(name, cell.line, cell.column, reader.name))
        values[column] = value
        if wrong is not None:
            problems.append(wrong)
    return Row(values, name, cells[0].line, places, headings), problems


def as_day(value: Any) -> date | None:
    """Return a cell's value where it is a day; None for an empty cell or a word such as `unknown`."""
    return value if isinstance(value, date) else None
