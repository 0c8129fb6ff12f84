"""The season table as bytes."""

from __future__ import annotations

from soilrota.batch.season import COLUMNS, season_table


def test_an_empty_table_has_its_header() -> None:
    """No rows: the names of the columns alone."""
    assert season_table([]).decode() == ",".join(COLUMNS) + "\r\n"


def test_formulas_are_written_as_text() -> None:
    """A zone's name that a spreadsheet would run stands behind an apostrophe."""
    assert b"'=1+1" in season_table([{"zone_name": "=1+1"}])
