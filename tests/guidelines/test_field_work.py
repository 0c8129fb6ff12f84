"""Figures of field work: read whole, marked, and of the order that a working day knows."""

from __future__ import annotations

from dataclasses import astuple

from soilrota.guidelines.field_work import field_work


def test_every_figure_is_there_and_marked() -> None:
    """All figures are positive numbers, and the table says that no publication stands behind them."""
    figures = field_work()
    assert figures.source == "common practice, no source"
    assert all(value > 0 for group in (figures.minutes, figures.travel, figures.planning) for value in astuple(group))


def test_the_stated_house_defaults() -> None:
    """Roads are 1.3 times the great circle at 60 km/h; a person makes at most five farms a day."""
    figures = field_work()
    assert (figures.travel.detour, figures.travel.speed_km_h) == (1.3, 60)
    assert figures.planning.most_farms_a_day == 5
