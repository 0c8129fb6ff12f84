"""Splits CSV text into cells, each with the line and column at which it begins."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from soilrota.files.text import place_at
from soilrota.problems import Place, Problem, error

_CELL = re.compile(r'(?:"(?P<quoted>(?:[^"]|"")*)"(?P<after>[^,\r\n]*)|(?P<plain>[^,\r\n]*))(?P<end>,|\r\n|\n|\r|\Z)')


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell: its text without the quotes round it, and where it begins, from 1."""

    text: str
    line: int
    column: int


def split_rows(text: str, name: str) -> Iterator[list[Cell] | Problem]:
    """Yield the rows of a CSV text as lists of cells; empty lines are passed over.

    A problem stands in the place of a row with quotes left open (`open-quotes`, and nothing follows) or with text
    behind the closing quotes (`text-after-quotes`).
    """
    position, line, line_start = 0, 1, 0
    cells: list[Cell] = []
    wrong: Problem | None = None
    while position < len(text) or cells:
        match = _CELL.match(text, position)
        if match is None or (match["quoted"] is None and match["plain"].startswith('"')):
            mend = 'close the quotes, and write a quote inside them twice ("")'
            yield error("open-quotes", place_at(text, position, name), "quotes are opened and not closed", "", mend)
            return
        cell = Cell(_unquoted(match), line, position - line_start + 1)
        if match["after"]:
            wrong = _after_quotes(Place(name, cell.line, cell.column))
        cells.append(cell)
        breaks = text.count("\n", position, match.end())
        if breaks:
            line += breaks
            line_start = text.rfind("\n", 0, match.end()) + 1
        position = match.end()
        if match["end"] != ",":
            if wrong is not None:
                yield wrong
            elif len(cells) > 1 or cells[0].text.strip():
                yield cells
            cells, wrong = [], None


def _unquoted(match: re.Match[str]) -> str:
    """Return the text of a cell."""
    quoted = match["quoted"]
    return match["plain"] if quoted is None else quoted.replace('""', '"')


def _after_quotes(place: Place) -> Problem:
    """Return that text stands behind closing quotes."""
    mend = 'put the whole cell in quotes, and write a quote inside them twice ("")'
    return error("text-after-quotes", place, "text stands behind the closing quotes", "", mend)
