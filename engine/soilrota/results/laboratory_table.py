"""A laboratory's table as it came: the cells of a new file, or of one of ours that a person has mended.

A file of ours has two columns before the laboratory's own; `as_table` takes them away, keeps each row's origin, and
takes off the apostrophes that kept texts from being formulas. Whoever reads on sees the laboratory's table alone.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from soilrota.files import unguarded
from soilrota.files.grid_rows import Grid, GridRow
from soilrota.problems import Place, Problem, error

#: Headings of the two columns that stand before the laboratory's own in a table of rows set aside.
SET_ASIDE_AS = "set aside as"
BECAUSE = "because"
#: The headings are looked for in so many rows; titles and addresses above them are shorter (house default).
MOST_ROWS_ABOVE = 60

_OURS = 2
_ORIGIN = re.compile(r"[0-9a-f]{12}:[0-9]{1,9}")


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row of the laboratory's table.

    Attributes:
        source: the row of the file.
        cells: the texts of its cells, without ours.
        numeric: columns, from 0, whose cell a sheet stores as a number.
        origin: `digest:number` of the row that it is the mended form of; empty for a row of a new file.
        wrong: why nothing of it can be read; None where it can.
        is_empty: whether nothing at all stands in it, our own cells included.
    """

    source: GridRow
    cells: tuple[str, ...]
    numeric: frozenset[int] = frozenset()
    origin: str = ""
    wrong: Problem | None = None
    is_empty: bool = False

    @property
    def number(self) -> int:
        """Return its line in a CSV file or its row in a sheet, from 1."""
        return self.source.number

    @property
    def width(self) -> int:
        """Return how many cells it has up to the last one with something in it [-]."""
        return max((i for i, cell in enumerate(self.cells, start=1) if cell.strip()), default=0)

    def cell(self, column: int | None) -> str:
        """Return the text of a cell without blanks around it; empty where there is none."""
        return self.cells[column].strip() if column is not None and column < len(self.cells) else ""


@dataclass(frozen=True, slots=True)
class Table:
    """The laboratory's table.

    Attributes:
        grid: the file.
        rows: all its rows, so that an index here is an index there.
        is_ours: whether it is a file of rows set aside.
    """

    grid: Grid
    rows: tuple[TableRow, ...]
    is_ours: bool

    def place(self, row: TableRow, column: int = 0) -> Place:
        """Return the place of a cell: its row, and its column (from 0) in the laboratory's own table."""
        return self.grid.place(row.source, column + (_OURS if self.is_ours else 0))


def as_table(grid: Grid) -> Table:
    """Return the laboratory's table of a file, which may be one of ours."""
    top = next((i for i, row in enumerate(grid.rows[:MOST_ROWS_ABOVE]) if _is_our_header(row.cells)), None)
    if top is None:
        return Table(grid, tuple(_as_it_is(row) for row in grid.rows), is_ours=False)
    rows = tuple(_without_ours(grid, row, is_below=i > top) for i, row in enumerate(grid.rows))
    return Table(grid, rows, is_ours=True)


def _is_our_header(cells: Sequence[str]) -> bool:
    """Return whether a row begins with our two headings."""
    return tuple(cell.strip() for cell in cells[:_OURS]) == (SET_ASIDE_AS, BECAUSE)


def _as_it_is(row: GridRow) -> TableRow:
    """Return a row of a new file."""
    return TableRow(row, row.cells, row.numeric, "", row.wrong, _is_empty(row))


def _without_ours(grid: Grid, row: GridRow, *, is_below: bool) -> TableRow:
    """Return a row of a file of ours without our cells; its origin where it stands below the headings."""
    origin = row.cells[0].strip() if is_below and row.cells else ""
    wrong = row.wrong
    if wrong is None and origin and not _ORIGIN.fullmatch(origin):
        mend = "write it as it stood, or empty the cell where the row is a new one"
        expected = "twelve signs of a digest, a colon, a number"
        wrong = error("bad-origin", grid.place(row, 0), f"'{origin[:60]}' in '{SET_ASIDE_AS}'", expected, mend)
    numeric = frozenset(column - _OURS for column in row.numeric if column >= _OURS)
    cells = unguarded(row.cells[_OURS:])
    return TableRow(row, cells, numeric, origin if wrong is None else "", wrong, _is_empty(row))


def _is_empty(row: GridRow) -> bool:
    """Return whether nothing stands in a row."""
    return row.wrong is None and not any(cell.strip() for cell in row.cells)
