"""Rows of a grid as CSV that a spreadsheet may open and that reads back equal.

A cell that a spreadsheet would run as a formula stands behind an apostrophe; so does a cell that begins with one, and
so the first apostrophe of a cell can always be taken off again: `unguarded` does for rows that come back. Numbers and
lone dashes stay as they are: a spreadsheet makes a value of them, not a formula.

Cells read back equal with the delimiter declared. A row whose cell is longer than a cell may be, holds control
characters, or runs over lines so that it looks like two rows, is again wrong when it comes back: mended or not, it is
never lost.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections.abc import Iterable, Sequence

from soilrota.files.spreadsheets import FORMULA

_HARMLESS = re.compile(r"[+-]?[0-9]+([.,][0-9]+)*|-")


def write_grid_csv(rows: Iterable[Sequence[str]], delimiter: str = ",") -> bytes:
    """Return rows as CSV (RFC 4180) in UTF-8 with a byte-order mark.

    Args:
        rows: text of the cells of each row.
        delimiter: one character.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=delimiter)
    writer.writerows([_guarded(cell) for cell in row] for row in rows)
    return codecs.BOM_UTF8 + text.getvalue().encode("utf-8", errors="replace")


def unguarded(cells: Iterable[str]) -> tuple[str, ...]:
    """Return the cells of a row of `write_grid_csv` as they were before.

    >>> unguarded(["'=A1", "''tis", "-5"])
    ('=A1', "'tis", '-5')
    """
    return tuple(cell.removeprefix("'") for cell in cells)


def _guarded(cell: str) -> str:
    """Return a cell behind an apostrophe where it would be run, or begins with one."""
    if _HARMLESS.fullmatch(cell):
        return cell
    return f"'{cell}" if cell[:1] == "'" or cell[:1] in FORMULA else cell
