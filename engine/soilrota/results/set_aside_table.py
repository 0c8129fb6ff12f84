"""Rows that could not be accepted, as a table that a person mends and drops into the inbox again."""

from __future__ import annotations

from collections.abc import Sequence

from soilrota.model.intake import LaboratoryFile, SetAsideRow
from soilrota.problems import Problem
from soilrota.results.laboratory_table import BECAUSE, SET_ASIDE_AS

_DIGEST_SIGNS = 12
_BETWEEN_REASONS = " | "


def set_aside_table(file: LaboratoryFile, rows: Sequence[SetAsideRow], digest: str) -> tuple[tuple[str, ...], ...]:
    """Return the rows of the CSV file to write: what stands above, the headings, the rows with their reasons.

    `results.reading` reads the file as the laboratory's own. The writer guards cells that a spreadsheet would take for
    formulas, and cells that begin with an apostrophe.

    Args:
        file: the laboratory's file.
        rows: its rows to set aside: its own, or those that could not be matched.
        digest: the file's digest; its first twelve signs name a row, together with the row's number.
    """
    above = tuple(("", "", *cells) for cells in file.above)
    headings = (SET_ASIDE_AS, BECAUSE, *file.headings)
    width = len(file.headings)
    units = (("", "", *_cells(file.units, width)),) if file.units else ()
    below = tuple(
        (
            f"{digest[:_DIGEST_SIGNS]}:{row.number}",
            _BETWEEN_REASONS.join(_in_words(reason) for reason in row.reasons),
            *_cells(row.cells, width),
        )
        for row in rows
    )
    return (*above, headings, *units, *below)


def _cells(cells: Sequence[str], width: int) -> tuple[str, ...]:
    """Return cells with empty ones up to a width: a CSV row that is cut short is a fault."""
    return (*cells, *[""] * (width - len(cells)))


def _in_words(reason: Problem) -> str:
    """Return a reason without its place: it stands beside the row."""
    wrong = f"{reason.found}; expected {reason.expected}" if reason.expected else reason.found
    return f"{wrong}. To mend: {reason.mend}"
