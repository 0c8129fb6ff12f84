"""Runs of days as numbers, against the standard library."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.moisture import calendar_index
from soilrota.timing.day_numbers import calendar_indices, days_of_year, years_of


@given(st.dates(date(1850, 1, 1), date(2200, 1, 1)), st.integers(0, 1500))
def test_numbers_equal_those_of_the_standard_library(first: date, days: int) -> None:
    """Year, day of the year and place in a leap calendar, for any run of days."""
    run = [first + timedelta(days=number) for number in range(days)]
    assert years_of(first, days).tolist() == [day.year for day in run]
    assert days_of_year(first, days).tolist() == [day.timetuple().tm_yday for day in run]
    assert calendar_indices(first, days).tolist() == [calendar_index(day) for day in run]
