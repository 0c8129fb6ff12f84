"""Today's date, in a time zone."""

from __future__ import annotations

from datetime import date, timedelta

from soilrota.cli.today import today


def test_today_differs_by_a_day_at_most() -> None:
    """The date line is never more than a day away."""
    assert today("Pacific/Auckland") - today("Pacific/Honolulu") <= timedelta(days=1)
    assert isinstance(today("UTC"), date)
