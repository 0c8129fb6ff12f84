"""Calendar months; the published checks stand in tests/published_values/test_months.py."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from soilrota.timing.months import add_months, whole_months_between

DAYS = st.dates(date(2000, 1, 1), date(2100, 1, 1))


@given(DAYS, DAYS)
def test_whole_months_are_the_most_that_fit(one: date, other: date) -> None:
    """So many months fit between two days, and one more does not."""
    earlier, later = sorted((one, other))
    months = whole_months_between(earlier, later)
    assert months >= 0
    assert add_months(earlier, months) <= later < add_months(earlier, months + 1)


def test_no_month_lies_between_a_day_and_an_earlier_one() -> None:
    """A day that is not late is late by no month."""
    assert whole_months_between(date(2027, 3, 31), date(2026, 3, 31)) == 0


@given(DAYS, st.integers(0, 60))
def test_a_later_day_never_corresponds_to_an_earlier_one(day: date, months: int) -> None:
    """Adding months keeps the order of days."""
    following = date.fromordinal(day.toordinal() + 1)
    assert add_months(day, months) <= add_months(following, months)
