"""Reads a laboratory's table file into a grid of text cells; whatever the file holds, time and memory are bounded.

What kind of file it is, is told by its content. Sizes are checked before anything is opened: `LARGEST_CSV`,
`LARGEST_XLSX`, `zip_parts`, `MOST_ROWS`, `MOST_COLUMNS`, `MOST_CELLS` and `LONGEST_CELL`.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from soilrota.files.csv_grids import LARGEST_CSV, read_csv_grid
from soilrota.files.file_kinds import is_zip, looks_like
from soilrota.files.grid_rows import Grid, too_large
from soilrota.files.xlsx_grids import LARGEST_XLSX, read_xlsx_grid
from soilrota.files.zip_parts import not_a_table
from soilrota.model.laboratory_files import FileKind, GridForm
from soilrota.problems import Place, Problem, error, warning

#: Endings of names that are usual for each kind of file.
_ENDINGS = {FileKind.CSV: frozenset({".csv", ".txt", ".tsv", ".tab", ""}), FileKind.XLSX: frozenset({".xlsx"})}
_CALLED = {FileKind.CSV: "text (CSV)", FileKind.XLSX: "a workbook (XLSX)"}
_FOUND_OUT = GridForm()


def read_grid(file: Path, name: str, form: GridForm = _FOUND_OUT) -> tuple[Grid | None, tuple[Problem, ...]]:
    """Read a table file.

    Args:
        file: where it lies.
        name: its name, for places.
        form: what was declared of it; whatever is empty is found out.

    Returns:
        The grid; or None and the problem that keeps the whole file from being read: `cannot-read`, `too-large`,
        `empty-document`, `not-a-table`, `locked-workbook`, `damaged-workbook`, `unknown-sheet`, `unknown-encoding`,
        `not-in-encoding`, `encoding-not-told`, `delimiter-not-told`. What is wrong with a row stands in the row, and
        what a person should know in the grid's notes.
    """
    place = Place(name)
    largest = max(LARGEST_CSV, LARGEST_XLSX)
    try:
        with file.open("rb") as stream:
            raw = stream.read(largest + 1)
    except OSError as fault:
        mend = "put the file there, or make it readable"
        return None, (error("cannot-read", place, f"the file cannot be read ({fault.strerror})", "", mend),)
    if len(raw) > largest:
        return None, (too_large(place, f"the file holds more than {largest:,} bytes", f"at most {largest:,}"),)
    return grid_of(raw, name, form)


def grid_of(raw: bytes, name: str, form: GridForm = _FOUND_OUT) -> tuple[Grid | None, tuple[Problem, ...]]:
    """Return the grid of the bytes of a file, as `read_grid` does."""
    other = looks_like(raw)
    if other:
        return None, (not_a_table(Place(name), other),)
    if is_zip(raw):
        grid, problems = read_xlsx_grid(raw, name, form.sheet)
    else:
        grid, problems = read_csv_grid(raw, name, form.delimiter, form.encoding)
    if grid is None or Path(name).suffix.lower() in _ENDINGS[grid.kind]:
        return grid, problems
    found = f"the file holds {_CALLED[grid.kind]} whatever its name says, and was read as that"
    note = warning("other-ending", Place(name), found, "", f"nothing; or call it `.{grid.kind}`")
    return replace(grid, notes=(note, *grid.notes)), problems
