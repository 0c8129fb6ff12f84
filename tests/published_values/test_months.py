"""Three months is a calendar rule: the engine against dateutil, pandas and the European rule on periods.

Sources:
    1. Regulation (EEC, Euratom) No 1182/71 of the Council of 3 June 1971, OJ L 124, 8.6.1971, p. 1, Art. 3(2)(c):
       a period in months ends on the day of its last month that falls on the same date as the day from which it runs;
       where that day does not occur in the last month, on the last day of that month.
    2. python-dateutil, `relativedelta`.
    3. pandas, `DateOffset`.
Tolerance: none. The totals over 2024 to 2031 were computed with all three and the standard library, which agree.
"""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta

import pandas as pd
import pytest
from dateutil.relativedelta import relativedelta

from soilrota.timing.months import add_months

DAYS = [date(2024, 1, 1) + timedelta(days=number) for number in range(2922)]


def days_of_month(year: int, month: int) -> list[date]:
    """Return the days of a month by walking from its first."""
    days = [date(year, month, 1)]
    while (days[-1] + timedelta(days=1)).month == month:
        days.append(days[-1] + timedelta(days=1))
    return days


def corresponding_day(day: date, months: int) -> date:
    """Return the end of a period of months as the regulation puts it [1], counted month by month."""
    year, month = day.year, day.month
    for _ in range(months):
        year, month = (year, month + 1) if month < 12 else (year + 1, 1)
    same_date = [found for found in days_of_month(year, month) if found.day == day.day]
    return same_date[0] if same_date else days_of_month(year, month)[-1]


def test_the_days_are_2024_to_2031() -> None:
    """The 2,922 days tried hold two leap years and end with 2031."""
    assert DAYS[-1] == date(2031, 12, 31)


@pytest.mark.parametrize("months", [0, 1, 3, 6, 12])
def test_every_day_agrees_with_the_regulation(months: int) -> None:
    """Each day's corresponding day is the one that the regulation names."""
    assert [add_months(day, months) for day in DAYS] == [corresponding_day(day, months) for day in DAYS]


@pytest.mark.parametrize("months", [1, 3, 12, 24])
def test_every_day_agrees_with_dateutil_and_pandas(months: int) -> None:
    """Two libraries give the same day."""
    ours = [add_months(day, months) for day in DAYS]
    assert ours == [day + relativedelta(months=+months) for day in DAYS]
    theirs = pd.date_range(DAYS[0], DAYS[-1], freq="D") + pd.DateOffset(months=months)
    assert ours == [stamp.date() for stamp in theirs]


def test_three_months_are_89_to_92_days() -> None:
    """Counted in days a gap of three months has four lengths: no number of days can stand for it."""
    lengths = Counter((add_months(day, 3) - day).days for day in DAYS)
    assert lengths == {89: 174, 90: 432, 91: 626, 92: 1690}


def test_subtracting_does_not_undo_adding() -> None:
    """On 38 of the days, three months on and three months back is another day: a gap is never inverted."""
    assert sum(add_months(add_months(day, 3), -3) != day for day in DAYS) == 38


@pytest.mark.parametrize(
    ("spread", "open_again"),
    [("2026-11-30", "2027-02-28"), ("2027-11-30", "2028-02-29"), ("2026-11-20", "2027-02-20")],
)
def test_month_ends(spread: str, open_again: str) -> None:
    """The last day of February corresponds to 30 November; 20 February to 20 November."""
    assert add_months(date.fromisoformat(spread), 3) == date.fromisoformat(open_again)
