"""The season table as bytes."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from soilrota.batch.season import COLUMNS, season_table


def _read(table: bytes) -> list[dict[str, str]]:
    """Return the rows of a table."""
    return list(csv.DictReader(io.StringIO(table.decode(), newline="")))


def test_an_empty_table_has_its_header() -> None:
    """No rows: the names of the columns alone."""
    assert season_table([]).decode() == ",".join(COLUMNS) + "\r\n"


def test_formulas_are_written_as_text() -> None:
    """A name that a spreadsheet would run stands behind an apostrophe; ordinary text and dates stay as they are."""
    rows = _read(season_table([{"zone_name": '=HYPERLINK("x")', "farm_name": "@a", "best_day": "2027-02-20"}]))
    assert (rows[0]["zone_name"], rows[0]["farm_name"]) == ('\'=HYPERLINK("x")', "'@a")
    assert (rows[0]["best_day"], rows[0]["client"]) == ("2027-02-20", "")


@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0")))
def test_any_text_comes_back_and_none_is_a_formula(text: str) -> None:
    """Whatever a zone is called, the cell reads back as it, or as it behind an apostrophe."""
    (row,) = _read(season_table([{"zone_name": text}]))
    cell = row["zone_name"]
    assert cell in (text, f"'{text}")
    assert not cell.startswith(("=", "+", "-", "@", "\t", "\r", "\n"))
