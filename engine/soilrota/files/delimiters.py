"""Finds out which character stands between the cells of a CSV text.

Each of comma, semicolon, tab and upright bar is tried on the first rows, quotes respected. It counts how many rows have
the commonest number of cells, of those with more than one. A character comes into question where, from the first row of
that number on, more than half of the rows have it: title rows above the table do not disturb. Of those that come into
question the one with most such rows is taken, and of equals the one that gives more cells. A comma that stands between
two digits wherever it stands is a decimal comma as soon as another character comes into question. Where none comes into
question, the only one that gives more than one cell in more than half of the rows is taken: the rows are then ragged.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass

from soilrota.files.csv_rows import row_at

CANDIDATES = ("\t", ";", "|", ",")
#: How delimiters are called in messages.
CALLED = {"\t": "tab", ";": "semicolon", "|": "upright bar", ",": "comma"}
#: How much of a text is looked at [row], [character].
_ROWS, _CHARACTERS = 500, 262_144
_DECIMAL_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")
_LAST_LINE_END = re.compile(r"[\r\n][^\r\n]*\Z")


@dataclass(frozen=True, slots=True)
class Found:
    """A delimiter: the character, how many cells a row usually has by it, and how many of the first rows have those.

    `regular` says whether most rows of the table have that number; otherwise most rows have more than one cell.
    """

    delimiter: str
    usual: int
    rows: int
    regular: bool = True


def find_delimiter(text: str) -> Found | None:
    """Return the delimiter of a text; None where none or more than one comes into question."""
    beginning = _beginning(text)
    trials = [trial for trial in (_trial(beginning, candidate) for candidate in CANDIDATES) if trial is not None]
    found = [trial for trial in trials if trial.regular]
    if not found:
        return trials[0] if len(trials) == 1 else None
    if len(found) > 1 and not _DECIMAL_COMMA.sub("", beginning).count(","):
        found = [trial for trial in found if trial.delimiter != ","]
    found.sort(key=lambda trial: (trial.rows, trial.usual), reverse=True)
    alike = [trial for trial in found if (trial.rows, trial.usual) == (found[0].rows, found[0].usual)]
    return found[0] if len(alike) == 1 else None


def usual_cells(text: str, delimiter: str) -> int:
    """Return how many cells a row usually has by a given delimiter; 0 where most rows agree on no number above one."""
    trial = _trial(_beginning(text), delimiter)
    return trial.usual if trial is not None and trial.regular else 0


def _beginning(text: str) -> str:
    """Return the first rows of a text, without one that was cut through."""
    if len(text) <= _CHARACTERS:
        return text
    cut = text[:_CHARACTERS]
    last = _LAST_LINE_END.search(cut)
    return cut[: last.start()] if last is not None else cut


def _trial(text: str, delimiter: str) -> Found | None:
    """Return what a delimiter gives; None where it does not come into question."""
    counts: list[int] = []
    at = 0
    while at < len(text) and len(counts) < _ROWS:
        row = row_at(text, at, delimiter)
        if row.end > at and text[at : row.end].strip(f" {delimiter}"):
            counts.append(len(row.cells))
        at = row.after
    several = Counter(count for count in counts if count > 1)
    if not several:
        return None
    most = max(several.values())
    usual = max(count for count, rows in several.items() if rows == most)
    below = len(counts) - counts.index(usual)
    if 2 * most > below and (most > 1 or len(several) == 1):
        return Found(delimiter, usual, most)
    return Found(delimiter, usual, most, regular=False) if 2 * several.total() > len(counts) else None
