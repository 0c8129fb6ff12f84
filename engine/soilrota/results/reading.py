"""From the cells of a laboratory's file to rows read and rows set aside: every row below the headings is one of them.

House rules, where nothing says otherwise:

- A row is set aside whole, with all its reasons, where anything that matters in it cannot be read: so it can be mended
  and dropped again without a value being taken in twice.
- Rows in which nothing stands are no rows. A row that repeats the headings is set aside as such.
- A sheet's row may lack cells at its end: sheets do not store empty ones. A CSV row that lacks a cell under a heading
  that is read was cut short; a row with text beyond the last heading has shifted. Both are set aside.
- Of a heading, or with one value a row a name, that the form neither declares nor ignores nothing is taken in: of a
  heading that is said in a note, and a row with such a name is set aside.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from soilrota.files import heading_key
from soilrota.files.grid_rows import Grid
from soilrota.model.intake import LaboratoryFile, ReportedRow, SetAsideRow
from soilrota.model.laboratory_files import FileKind, LaboratoryForm, RowShape
from soilrota.problems import Problem, Severity, error, warning
from soilrota.results.form_finding import find_form_for, known_headings, read_headings
from soilrota.results.laboratory_table import Table, TableRow, as_table
from soilrota.results.row_facts import FactReader, fact_reader
from soilrota.results.row_shapes import RowValues, sample_rows, value_rows
from soilrota.results.row_values import kept_text

__all__ = ["find_form_for", "read_rows"]


def read_rows(grid: Grid, form: LaboratoryForm, header_row: int) -> LaboratoryFile:
    """Return what the rows below the headings say.

    Args:
        grid: the file.
        form: how it is written.
        header_row: index of the row of its headings among the rows of the file.
    """
    table = as_table(grid)
    header = table.rows[header_row]
    below = [row for row in table.rows[header_row + 1 :] if not row.is_empty]
    if form.shape is RowShape.VALUE:
        values, units = value_rows(table, form, header, below), None
    else:
        values, units = sample_rows(table, form, header, below)
    reader = _RowReader(table, form, header, fact_reader(table, form, header_row), values)
    read = [reader.read(row) for row in below if row is not units]
    return LaboratoryFile(
        name=grid.name,
        laboratory=form.laboratory,
        form=form.name,
        above=tuple(row.cells for row in table.rows[:header_row]),
        headings=header.cells,
        rows=tuple(row for row in read if isinstance(row, ReportedRow)),
        set_aside=tuple(row for row in read if isinstance(row, SetAsideRow)),
        notes=(*grid.notes, *reader.facts.notes, *_notes(table, form, header_row, below)),
        units=units.cells if units is not None else (),
    )


class _RowReader:
    """Reads the rows of one table."""

    def __init__(
        self, table: Table, form: LaboratoryForm, header: TableRow, facts: FactReader, values: RowValues
    ) -> None:
        self.table, self.form, self.facts, self.values = table, form, facts, values
        self.header = [heading_key(cell) for cell in header.cells]
        self.width = header.width
        self.read_keys = read_headings(form)

    def read(self, row: TableRow) -> ReportedRow | SetAsideRow:
        """Return the row, or why it is set aside."""
        if row.wrong is not None:
            return self._set_aside(row, (row.wrong,))
        shifted = tuple(self._shape_problems(row))
        if shifted:
            return self._set_aside(row, shifted)
        facts, wrong = self.facts.read(row)
        values, found = self.values.read(row)
        problems = tuple(dict.fromkeys((*wrong, *found)))
        if problems:
            return self._set_aside(row, problems)
        return ReportedRow(
            number=row.number,
            origin=row.origin,
            cells=self._kept(row),
            sample=facts.sample,
            report=facts.report,
            issue=facts.issue,
            sampled=facts.sampled,
            received=facts.received,
            reported=facts.reported,
            depth=facts.depth,
            values=values,
            place=self.table.place(row, self.facts.columns["sample"]),
        )

    def _shape_problems(self, row: TableRow) -> Iterator[Problem]:
        """Yield that a row repeats the headings, is cut short, or has shifted."""
        place = self.table.place(row)
        keys = [heading_key(cell) for cell in row.cells]
        if keys[: self.width] == self.header[: self.width] and not any(keys[self.width :]):
            yield error("heading-again", place, "the headings once more", "a row of results", "take the row out")
            return
        beyond = next((i for i in range(self.width, len(keys)) if keys[i]), None)
        if beyond is not None:
            found = f"'{row.cell(beyond)[:60]}' beyond the last heading"
            mend = "put cells that hold the delimiter in quotes, or take out what is too much"
            yield error("too-many-cells", self.table.place(row, beyond), found, f"{self.width} cells", mend)
        lacking = [i for i in range(len(keys), self.width) if self.header[i] in self.read_keys]
        if lacking and self.table.grid.kind is FileKind.CSV:
            found = f"{len(keys)} cells; the row ends before '{self.header[lacking[0]]}'"
            mend = "ask for the file again, because it may be cut short; or add the cells that are missing"
            yield error("too-few-cells", place, found, f"{self.width} cells", mend)

    def _set_aside(self, row: TableRow, reasons: tuple[Problem, ...]) -> SetAsideRow:
        """Return a row that is set aside."""
        return SetAsideRow(row.number, row.origin, self._kept(row), reasons)

    def _kept(self, row: TableRow) -> tuple[str, ...]:
        """Return the cells of a row as they can be set aside."""
        stored = row.numeric & self.values.columns
        return tuple(kept_text(cell, self.form, is_number=i in stored) for i, cell in enumerate(row.cells))


def _notes(table: Table, form: LaboratoryForm, header_row: int, below: Sequence[TableRow]) -> Iterator[Problem]:
    """Yield what of a file is not taken in: columns that nobody declared, rows above that could not be split."""
    for row in table.rows[:header_row]:
        if row.wrong is not None:
            yield replace(row.wrong, severity=Severity.WARNING)
    header = table.rows[header_row]
    known = known_headings(form)
    for column in range(len(header.cells)):
        heading = header.cell(column)
        if heading_key(heading) in known:
            continue
        if not heading and not any(row.cell(column) for row in below):
            continue
        name = f"the column '{heading[:80]}'" if heading else f"column {column + 1}, which has no heading"
        found = f"{name} is neither declared nor ignored; nothing of it is taken in"
        mend = f"declare what it holds, or ignore it, in the form at {form.place}"
        yield warning("unknown-heading", table.place(header, column), found, "a heading of the form", mend)
