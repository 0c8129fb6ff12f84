"""Reads the bytes of a CSV file into a grid: encoding, delimiter, then row by row.

Sizes are checked by counting bytes, line ends and delimiters before anything is split.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from soilrota.files.csv_rows import RawRow, row_at
from soilrota.files.delimiters import CALLED, find_delimiter, usual_cells
from soilrota.files.encodings import Decoded, decode_table
from soilrota.files.grid_rows import (
    MOST_CELLS,
    MOST_COLUMNS,
    MOST_ROWS,
    Grid,
    GridRow,
    clean,
    fault_in,
    has_marks,
    marks_note,
    too_large,
)
from soilrota.model.laboratory_files import FileKind
from soilrota.problems import Place, Problem, error

#: Largest file [byte].
LARGEST_CSV = 20_000_000
#: Most lines [-], empty ones too.
_MOST_LINES = 1_000_000
_QUOTE_WORDS = {
    "open-quotes": "quotes are opened and not closed on a line of their own row",
    "text-after-quotes": "text stands behind the closing quotes",
}
_QUOTE_MEND = 'put quotes round the whole cell, and write a quote inside them twice ("")'


def read_csv_grid(
    raw: bytes, name: str, delimiter: str = "", encoding: str = ""
) -> tuple[Grid | None, tuple[Problem, ...]]:
    """Return the rows of a CSV file.

    Args:
        raw: its bytes.
        name: the file's name, for places.
        delimiter: what was declared; empty to find it out.
        encoding: as `delimiter`.

    Returns:
        The grid; or None and the problem that keeps the whole file from being read. What is wrong with a row stands in
        the row.
    """
    decoded, problems = decode_table(raw, name, encoding)
    if decoded is None:
        return None, problems
    text = decoded.text
    if not clean(text[:10_000]) and not clean(text):
        mend = "ask the laboratory for the file again"
        return None, (error("empty-document", Place(name, 1), "the file holds no text", "a table", mend),)
    lines = text.count("\n") + text.count("\r") - text.count("\r\n")
    if lines > _MOST_LINES:
        return None, (too_large(Place(name), f"the file has {lines:,} lines", f"at most {_MOST_LINES:,}"),)
    told = _delimiter(text, name, delimiter)
    if isinstance(told, Problem):
        return None, (told,)
    delimiter, usual = told
    cells = text.count(delimiter) + lines
    if cells > MOST_CELLS and len(text) > MOST_COLUMNS:
        wide = _too_wide(text, name, delimiter)
        return None, (wide or too_large(Place(name), f"the file has {cells:,} cells", f"at most {MOST_CELLS:,}"),)
    return _grid(decoded, name, delimiter, usual)


def _delimiter(text: str, name: str, declared: str) -> tuple[str, int] | Problem:
    """Return the delimiter and how many cells a row usually has by it; or that it cannot be told."""
    if declared:
        return declared, usual_cells(text, declared)
    found = find_delimiter(text)
    if found is not None:
        return found.delimiter, found.usual
    line = len(text[: len(text) - len(text.lstrip())].splitlines()) or 1
    words = "no character gives the same number of cells over most rows, or two do so equally well"
    mend = "declare the laboratory's `delimiter`"
    return error("delimiter-not-told", Place(name, line), words, f"one of {', '.join(CALLED.values())}", mend)


def _too_wide(text: str, name: str, delimiter: str) -> Problem | None:
    """Return that the first line with too many cells has them; None where there is none."""
    line, begin = 1, 0
    for match in re.finditer(r"\r\n|\n|\r|\Z", text):
        count = text.count(delimiter, begin, match.start()) + 1
        if count > MOST_COLUMNS:
            return too_large(Place(name, line), f"the row has {count:,} cells", f"at most {MOST_COLUMNS:,}")
        line, begin = line + 1, match.end()
    return None


def _raw_rows(text: str, delimiter: str, usual: int) -> Iterator[tuple[int, int, RawRow]]:
    """Yield the line and the index at which each row begins, and the row."""
    at, line = 0, 1
    while at < len(text):
        row = row_at(text, at, delimiter, usual)
        yield line, at, row
        line += row.lines
        at = row.after


def _grid(decoded: Decoded, name: str, delimiter: str, usual: int) -> tuple[Grid | None, tuple[Problem, ...]]:
    """Return the rows of a text."""
    rows: list[GridRow] = []
    notes = list(decoded.notes)
    text = decoded.text
    marked = has_marks(text)
    for line, begin, raw in _raw_rows(text, delimiter, usual):
        count = len(raw.cells)
        if count > MOST_COLUMNS:
            found = f"the row has {count:,} cells"
            return None, (too_large(Place(name, line), found, f"at most {MOST_COLUMNS:,}"),)
        row = _checked(raw, line, text[begin : raw.end], Grid(name, FileKind.CSV, (), delimiter), lossy=decoded.lossy)
        if row is None:
            continue
        if len(rows) == MOST_ROWS:
            return None, (too_large(Place(name, line), f"more than {MOST_ROWS:,} rows", f"at most {MOST_ROWS:,}"),)
        rows.append(row)
        if marked and has_marks(row.source):
            notes.append(marks_note(Place(name, line)))
            marked = False
    return Grid(name, FileKind.CSV, tuple(rows), delimiter, decoded.encoding, notes=tuple(notes)), ()


def _checked(raw: RawRow, line: int, source: str, grid: Grid, *, lossy: bool) -> GridRow | None:
    """Return a row with what is wrong with it; None where nothing stands in it."""
    cells = tuple(map(clean, raw.cells))
    if raw.wrong:
        place = Place(grid.name, line)
        return GridRow(line, cells, error(raw.wrong, place, _QUOTE_WORDS[raw.wrong], "", _QUOTE_MEND), source=source)
    fault = fault_in(raw.cells, lossy)
    if fault is None:
        return GridRow(line, cells, source=source) if any(cells) else None
    column, code, found, mend = fault
    row = GridRow(line, cells, source=source)
    return GridRow(line, cells, error(code, grid.place(row, column), found, "", mend), source=source)
