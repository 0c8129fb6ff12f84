"""Splits CSV text (RFC 4180) row by row, so that a row with open quotes costs that row alone.

Rule for quotes. A cell that begins with a quote ends at the next quote that is not doubled; between the two may stand
delimiters and line ends. Behind it only blanks, a delimiter or a line end may stand. A row that breaks this is wrong:
it ends where its first line ends, its cells are that line cut at every delimiter, and reading goes on at the next line.
The same holds where the quoted cell runs over lines and

- is never closed, or longer than a cell may be; or
- its first and its last line would each be a full row by themselves: two rows, each with one stray quote, would
  otherwise become one, and the second be lost.

A quote inside a cell that does not begin with one is text. Any of CR LF, LF and CR ends a line.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_LINE = re.compile(r"[^\r\n]*")
_LINE_END = re.compile(r"\r\n|\n|\r")
#: Possessive: a text of many megabytes without its closing quote is read once, and nothing is kept to go back to.
_QUOTED = re.compile(r'"(?P<text>(?:[^"]++|"")*+)"(?P<blanks> *)')
#: Longest cell over several lines [character]; longer ones are taken for a quote that was left open.
_LONGEST_OVER_LINES = 5_000


@dataclass(frozen=True, slots=True)
class RawRow:
    """A row: text of its cells, where it ends, where the next begins, how many lines it covers.

    `wrong` is `open-quotes`, `text-after-quotes` or empty.
    """

    cells: list[str]
    end: int
    after: int
    lines: int
    wrong: str = ""


def row_at(text: str, begin: int, delimiter: str, usual: int = 0) -> RawRow:
    """Return the row that begins at an index of the text.

    Args:
        text: the whole text.
        begin: where the row begins.
        delimiter: one character.
        usual: how many cells a row usually has; 0 where that is not known.
    """
    stop = _line_stop(text, begin)
    line = text[begin:stop]
    if '"' not in line:
        return _row(text, line.split(delimiter), stop, 1)
    cells, _, end, wrong = _quoted(text, begin, delimiter)
    lines = 1
    if end > stop and not wrong:
        covered = _LINE_END.split(text[begin:end])
        lines = len(covered)
        first, last = covered[0].count(delimiter) + 1, covered[-1].count(delimiter) + 1
        longest = max(map(len, cells))
        if longest > _LONGEST_OVER_LINES or (usual > 1 and first == last == usual):
            wrong = "open-quotes"
    if wrong:
        return _row(text, line.split(delimiter), stop, 1, wrong)
    return _row(text, cells, end, lines)


def cell_begin(row: str, column: int, delimiter: str) -> int | None:
    """Return the index in the text of one row at which the cell of a column (from 0) begins; None where it has none."""
    whole = row_at(row, 0, delimiter)
    if not 0 <= column < len(whole.cells):
        return None
    if whole.wrong or '"' not in row:
        return sum(len(cell) + 1 for cell in whole.cells[:column])
    return _quoted(row, 0, delimiter)[1][column]


def _line_stop(text: str, begin: int) -> int:
    """Return where the line that holds an index ends."""
    match = _LINE.match(text, begin)
    return match.end() if match is not None else begin


def _row(text: str, cells: list[str], end: int, lines: int, wrong: str = "") -> RawRow:
    """Return a row that ends at an index, where the next one begins behind the line end."""
    match = _LINE_END.match(text, end)
    return RawRow(cells, end, match.end() if match is not None else end, lines, wrong)


def _quoted(text: str, begin: int, delimiter: str) -> tuple[list[str], list[int], int, str]:
    """Return the cells of a row with quotes, where each begins, where the row ends, and what is wrong with it."""
    plain = re.compile(rf"[^\r\n{re.escape(delimiter)}]*")
    cells: list[str] = []
    begins: list[int] = []
    at = begin
    while True:
        begins.append(at)
        if text.startswith('"', at):
            match = _QUOTED.match(text, at)
            if match is None:
                return cells, begins, at, "open-quotes"
            cells.append(match["text"].replace('""', '"'))
        else:
            match = plain.match(text, at)
            if match is None:
                break
            cells.append(match.group())
        at = match.end()
        if at == len(text) or text[at] in "\r\n":
            break
        if text[at] != delimiter:
            return cells, begins, at, "text-after-quotes"
        at += 1
    return cells, begins, at, ""
