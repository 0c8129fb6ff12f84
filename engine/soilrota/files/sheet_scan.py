"""Goes once through a sheet before a reader of workbooks sees it, and says what that reader cannot.

The reader reserves room for every cell between the first and the last, copies a shared text as often as it is used,
keeps the last of two cells at one place, drops error values, and takes a formula that was never reckoned for an empty
cell. So here sizes are checked first, and what would be lost is written down by row.
"""

from __future__ import annotations

import re
from array import array
from dataclasses import dataclass, field

from soilrota.files.grid_rows import MOST_CELLS, MOST_COLUMNS, MOST_ROWS
from soilrota.files.xml_parts import PartRefusedError, parse_part

#: Most text that the cells of a sheet may hold together, shared text as often as it is used [character].
_MOST_TEXT = 50_000_000
_LONGEST_NUMBER = 7
_REFERENCE = re.compile(r"([A-Za-z]{1,3})([0-9]{1,7})")
_KNOWN_TYPES = frozenset({"", "n", "s", "str", "inlineStr", "b", "e", "d"})
_KNOWN_ERRORS = frozenset({"#DIV/0!", "#N/A", "#NAME?", "#NULL!", "#NUM!", "#REF!", "#VALUE!", "#GETTING_DATA"})


@dataclass(slots=True)
class SheetScan:
    """What a sheet holds beyond its values. Rows count from 1, columns from 0.

    Attributes:
        filled: how many cells with a value each row holds, error values apart.
        errors: error values by row and column, for instance `#DIV/0!`.
        unreckoned: by row, the first column with a formula without a stored value.
        odd: by row, the first column with a cell that readers read differently.
        formulas: number of cells with a formula [-].
    """

    filled: dict[int, int] = field(default_factory=dict)
    errors: dict[tuple[int, int], str] = field(default_factory=dict)
    unreckoned: dict[int, int] = field(default_factory=dict)
    odd: dict[int, int] = field(default_factory=dict)
    formulas: int = 0


def shared_lengths(part: bytes | None) -> array[int]:
    """Return the length of each shared text [character]; none where the workbook has no such part.

    Raises:
        PartRefusedError: The part cannot be read.
    """
    handler = _SharedTexts()
    if part is not None:
        parse_part(part, handler)
    return handler.lengths


def scan_sheet(part: bytes, shared: array[int]) -> SheetScan:
    """Return what a sheet holds beyond its values.

    Args:
        part: its XML.
        shared: length of each shared text [character].

    Raises:
        PartRefusedError: It is damaged, or too large to be handed on.
    """
    handler = _Sheet(shared)
    parse_part(part, handler)
    return handler.scan


class _SharedTexts:
    """Takes the length of each shared text."""

    def __init__(self) -> None:
        self.lengths = array("L")
        self._inside = False

    def start(self, tag: str, attributes: dict[str, str]) -> None:  # noqa: ARG002 - as every handler
        if tag == "si":
            self.lengths.append(0)
        self._inside = tag == "t"

    def end(self, tag: str) -> None:  # noqa: ARG002 - as every handler
        self._inside = False

    def text(self, data: str) -> None:
        if self._inside and self.lengths:
            self.lengths[-1] += len(data)

    def aside(self) -> None:
        raise PartRefusedError("damaged-workbook", "a comment stands among the shared texts")


class _Sheet:
    """Follows the rows and cells of a sheet; rows count from 1, columns from 0."""

    def __init__(self, shared: array[int]) -> None:
        self.scan = SheetScan()
        self._shared = shared
        self._inside = self._seen = False
        self._row, self._column = 0, -1
        self._taken: set[int] = set()
        self._top, self._left, self._right = 0, MOST_COLUMNS, 0
        self._length = 0
        self._begin_values("")

    def _begin_values(self, kind: str) -> None:
        """Forget the cell before."""
        self._kind = kind
        self._values = 0
        self._formula = self._odd = self._reading = False
        self._text: list[str] = []

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        if tag in {"v", "t"}:
            self._reading = self._inside
            self._values += tag == "v"
        elif tag == "c" and self._inside:
            self._begin_cell(attributes)
        elif tag == "row" and self._inside:
            self._begin_row(attributes.get("r"))
        elif tag == "f":
            self._formula = True
        elif tag == "is":
            self._values += 1
        elif tag == "sheetData":
            if self._seen:
                raise self._damaged("the sheet has its rows twice")
            self._inside = self._seen = True

    def end(self, tag: str) -> None:
        self._reading = False
        if tag == "c" and self._inside:
            self._end_cell()
        elif tag == "sheetData":
            self._inside = False

    def text(self, data: str) -> None:
        if self._reading:
            self._text.append(data)

    def aside(self) -> None:
        self._odd = True

    def _begin_row(self, number: str | None) -> None:
        """Begin a row, which must lie below the one before."""
        before = self._row
        self._row = before + 1 if number is None else _whole(number)
        self._column = -1
        self._taken.clear()
        if self._row <= before:
            raise self._damaged("its rows are not in order")

    def _begin_cell(self, attributes: dict[str, str]) -> None:
        """Begin a cell, which must lie in its row."""
        self._begin_values(attributes.get("t", ""))
        reference = attributes.get("r")
        if reference is None:
            self._column += 1
        else:
            match = _REFERENCE.fullmatch(reference)
            if match is None or int(match[2]) != self._row:
                raise self._damaged("a cell does not lie in the row that it stands in")
            self._column = _column_number(match[1])
        if self._kind not in _KNOWN_TYPES:
            raise self._damaged("a cell is of a kind that workbooks do not have")

    def _end_cell(self) -> None:
        """Write down what the cell holds."""
        scan, row, column = self.scan, self._row, self._column
        text = "".join(self._text)
        if self._formula:
            scan.formulas += 1
            if not text and self._kind != "str":
                scan.unreckoned.setdefault(row, column)
        if self._values > 1 or self._odd or column in self._taken:
            scan.odd.setdefault(row, column)
        self._taken.add(column)
        if not self._values:
            return
        self._reach(row, column)
        length = self._shared_length(text) if self._kind == "s" else len(text)
        self._length += length
        if self._length > _MOST_TEXT:
            raise PartRefusedError("too-large", f"the sheet holds more than {_MOST_TEXT:,} characters", row)
        if self._kind == "e" and text:
            if text not in _KNOWN_ERRORS:
                raise self._damaged("a cell holds an error value that is not known")
            scan.errors[row, column] = text
        elif length:
            scan.filled[row] = scan.filled.get(row, 0) + 1

    def _shared_length(self, index: str) -> int:
        """Return the length of a shared text [character]."""
        number = int(index) if len(index) <= _LONGEST_NUMBER and index.isascii() and index.isdigit() else -1
        if not 0 <= number < len(self._shared):
            raise self._damaged("a cell refers to a text that the workbook does not have")
        return self._shared[number]

    def _reach(self, row: int, column: int) -> None:
        """Check that the cells up to this one are not more than can be held."""
        self._top = self._top or row
        if row > MOST_ROWS or column >= MOST_COLUMNS:
            found = f"a cell stands in row {row:,}, column {column + 1:,}"
            raise PartRefusedError("too-large", found, row)
        self._left, self._right = min(self._left, column), max(self._right, column)
        if (row - self._top + 1) * (self._right - self._left + 1) > MOST_CELLS:
            raise PartRefusedError("too-large", f"the sheet reaches over more than {MOST_CELLS:,} cells", row)

    def _damaged(self, found: str) -> PartRefusedError:
        """Return that the sheet is damaged in the row that is being read."""
        return PartRefusedError("damaged-workbook", f"the sheet is damaged: {found}", max(self._row, 0))


def _whole(number: str) -> int:
    """Return the number of a row; 0 where it is none."""
    return int(number) if len(number) <= _LONGEST_NUMBER and number.isascii() and number.isdigit() else 0


def _column_number(letters: str) -> int:
    """Return the number of a column, from 0."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1
