"""A laboratory's table as rows of text cells: the values that its readers hand on, and what a cell may hold.

Text of a cell is in Unicode's composed form (NFC), without blanks round it and without marks that cannot be seen. Line
ends inside a cell are kept.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass, field

from soilrota.files.csv_rows import cell_begin
from soilrota.model.laboratory_files import FileKind
from soilrota.problems import Place, Problem, error, warning

#: Most rows with something in them [-].
MOST_ROWS = 100_000
#: Most cells of one row [-].
MOST_COLUMNS = 1_000
#: Most cells of one table [-], empty ones too: what a reader may have to hold in memory at once.
MOST_CELLS = 5_000_000
#: Longest text of one cell [character].
LONGEST_CELL = 5_000

#: Marks that cannot be seen and change nothing that is measured: zero-width, direction of writing, soft hyphen.
_MARKS = re.compile("[\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u206f\ufeff]")
#: Control characters but tab, line ends and next line; halves of characters; what is no character at all.
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class GridRow:
    """One row of a table; a row may be shorter than others, and what it lacks is empty.

    Attributes:
        number: line on which it begins in a CSV file, or row of the sheet; from 1.
        cells: text of its cells.
        wrong: why the row could not be read as a whole; its cells are then what could be told. None where all is well.
        numeric: columns (from 0) whose cell was stored as a number, not as text: always a point before the decimals.
        source: text of the row in a CSV file, for places; empty for a sheet.
    """

    number: int
    cells: tuple[str, ...]
    wrong: Problem | None = None
    numeric: frozenset[int] = frozenset()
    source: str = field(default="", repr=False)

    def cell(self, column: int) -> str:
        """Return the text of the cell of a column (from 0); empty where the row does not reach so far."""
        return self.cells[column] if column < len(self.cells) else ""


@dataclass(frozen=True, slots=True)
class Grid:
    """A table as it was found.

    Attributes:
        name: the file's name, for places.
        kind: kind of file, told by its content.
        rows: its rows in the order of the file; those with nothing in them are left out.
        delimiter: what stands between cells of a CSV file; empty for a sheet.
        encoding: text encoding of a CSV file; empty for a sheet.
        sheet: name of the sheet; empty for a CSV file.
        notes: what a person should know; warnings only.
    """

    name: str
    kind: FileKind
    rows: tuple[GridRow, ...]
    delimiter: str = ""
    encoding: str = ""
    sheet: str = ""
    notes: tuple[Problem, ...] = ()

    def place(self, row: GridRow, column: int) -> Place:
        """Return where a cell stands; the row alone where it does not reach to that column (from 0).

        In a CSV file: the line and the character at which the cell begins, quotes included. In a sheet: its row, the
        number of its column, and a path such as `sheet Results, C7`.
        """
        if self.kind is FileKind.XLSX:
            return sheet_place(self.name, self.sheet, row.number, column)
        begin = cell_begin(row.source, column, self.delimiter)
        if begin is None:
            return Place(self.name, row.number)
        before = re.split(r"\r\n|\n|\r", row.source[:begin])
        return Place(self.name, row.number + len(before) - 1, len(before[-1]) + 1)


def sheet_place(name: str, sheet: str, row: int, column: int) -> Place:
    """Return the place of a cell of a sheet: row from 1, column from 0."""
    return Place(name, row, column + 1, f"sheet {sheet}, {column_letters(column)}{row}")


def column_letters(column: int) -> str:
    """Return the letters of a column of a sheet, counted from 0.

    >>> column_letters(0), column_letters(25), column_letters(26), column_letters(702)
    ('A', 'Z', 'AA', 'AAA')
    """
    letters = ""
    column += 1
    while column:
        column, letter = divmod(column - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def clean(text: str) -> str:
    """Return the text of a cell as a grid holds it: composed, without marks that cannot be seen, without outer blanks.

    >>> clean("  pH\u200b (CaCl2)\u00a0")
    'pH (CaCl2)'
    """
    if not text.isascii():
        text = unicodedata.normalize("NFC", _MARKS.sub("", text))
    return text.strip()


def has_marks(text: str) -> bool:
    """Return whether a text holds marks that cannot be seen and that `clean` takes out."""
    return not text.isascii() and _MARKS.search(text) is not None


def fault_in(texts: Sequence[str], lossy: bool) -> tuple[int, str, str, str] | None:
    """Return what keeps the cells of a row from being believed.

    Args:
        texts: the cells as they stand in the file.
        lossy: whether the file held bytes that are no text, which stand as U+FFFD.

    Returns:
        Column (from 0), code, what was found and the mend, of the first fault; None where all is well.
    """
    for column, text in enumerate(texts):
        if len(text) > LONGEST_CELL:
            found = f"the cell holds {len(text):,} characters"
            return column, "cell-too-long", found, f"shorten it to {LONGEST_CELL:,} characters at most"
        odd = _CONTROL.search(text)
        if odd is not None:
            found = f"the character U+{ord(odd.group()):04X} (a control character) stands in the cell"
            return column, "unsafe-character", found, "take it out, or ask the laboratory for the file again"
        if lossy and "\ufffd" in text:
            found = "the cell holds bytes that are no text in the encoding of the file"
            return column, "not-in-encoding", found, "write the cell again, or declare the encoding of the file"
    return None


def too_large(place: Place, found: str, expected: str) -> Problem:
    """Return that a file is larger than what is read."""
    return error("too-large", place, found, expected, "take out what is not results, or split the file")


def marks_note(place: Place) -> Problem:
    """Return the warning that marks which cannot be seen were taken out of cells."""
    found = "marks that cannot be seen (zero-width, direction of writing) stand in cells and were taken out"
    return warning("invisible-marks", place, found, "", "nothing, where the names are still right")
