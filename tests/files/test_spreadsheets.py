"""Tables that a spreadsheet may open."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from soilrota.files import safe_table

COLUMNS = ("name", "day")


def _read(table: bytes) -> list[dict[str, str]]:
    """Return the rows of a table."""
    return list(csv.DictReader(io.StringIO(table.decode(), newline="")))


def test_formulas_are_written_as_text() -> None:
    """A name that a spreadsheet would run stands behind an apostrophe; ordinary text and dates stay as they are."""
    rows = _read(safe_table(COLUMNS, [{"name": '=HYPERLINK("x")'}, {"name": "@a", "day": "2027-02-20"}]))
    assert [row["name"] for row in rows] == ['\'=HYPERLINK("x")', "'@a"]
    assert [row["day"] for row in rows] == ["", "2027-02-20"]


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")))
def test_any_text_comes_back_and_none_is_a_formula(text: str) -> None:
    """Whatever a zone is called, the cell reads back as it, or as it behind an apostrophe."""
    (row,) = _read(safe_table(COLUMNS, [{"name": text}]))
    assert row["name"] in (text, f"'{text}")
    assert not row["name"].startswith(("=", "+", "-", "@", "\t", "\r", "\n"))


def test_numbers_below_nought_stay_numbers() -> None:
    """In a column of numbers alone, and nothing else there does."""
    written = [{"name": "-33.5", "day": "-33.5"}, {"day": "-33.5+1"}, {"day": "-1e5"}, {"day": "=1"}]
    rows = _read(safe_table(COLUMNS, written, numbers={"day"}))
    assert rows[0] == {"name": "'-33.5", "day": "-33.5"}
    assert [row["day"] for row in rows[1:]] == ["'-33.5+1", "'-1e5", "'=1"]
