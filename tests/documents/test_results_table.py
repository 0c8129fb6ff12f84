"""The results as CSV."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from soilrota.documents import results_table
from soilrota.documents.results_table import COLUMNS
from tests.documents.results_made import EVIL, LOW, PLAIN, data


def _rows(content: bytes) -> list[dict[str, str]]:
    """Return the rows of a table."""
    return list(csv.DictReader(io.StringIO(content.decode())))


def test_a_row_a_value_with_all_its_figures() -> None:
    """The accepted figure, the printed one, the qualifier; a day that is not known is empty."""
    first, _, low = _rows(results_table(data()))
    assert tuple(first) == COLUMNS
    assert (first["value"], first["printed"], first["unit"], first["received"]) == ("5.234", "5.2", "pH", "")
    assert (low["qualifier"], low["value"], low["printed"]) == ("<", "0.5", "<1")


def test_a_number_below_nought_stays_a_number() -> None:
    """It is no formula."""
    (row,) = _rows(results_table(data(replace(PLAIN, value=-3.25))))
    assert row["value"] == "-3.25"


@pytest.mark.parametrize("text", [text for text in EVIL if text[0] in "=+-@\t"])
def test_no_text_is_a_formula(text: str) -> None:
    """In any column that somebody else writes."""
    (row,) = _rows(results_table(data(replace(LOW, zone_name=text, as_reported=text, bag=text, report=text))))
    assert {row[name] for name in ("zone_name", "as_reported", "bag", "report")} == {f"'{text}"}
