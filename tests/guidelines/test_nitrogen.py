"""Nitrogen: completeness. The figures are held in `published_values/test_nitrogen_figures.py`."""

from __future__ import annotations

import pytest

from soilrota.guidelines.nitrogen import mineralised, nitrogen_figures, wheat_grain_nitrogen, wheat_uptake


def test_every_figure_says_what_it_is() -> None:
    """A unit in words and a source; two were not read."""
    rows = nitrogen_figures()
    assert all(row.unit and row.cited.source.author for row in rows.values())
    unread = {name for name, row in rows.items() if row.cited.status == "unverified"}
    assert unread == {"wheat-budget", "canola-removal"}


def test_supply_and_recovery_are_never_multiplied() -> None:
    """The need by grain nitrogen carries the recovery already; the table says so where it is read."""
    assert "never divide by the recovery" in nitrogen_figures()["wheat-supply-per-grain"].cited.note


def test_nothing_gives_nothing() -> None:
    """No carbon, rain or grain, no nitrogen; the crop holds more than its grain."""
    assert mineralised(0, 300) == mineralised(1, 0) == wheat_grain_nitrogen(0, 11) == 0
    assert wheat_uptake(68) == pytest.approx(100)
