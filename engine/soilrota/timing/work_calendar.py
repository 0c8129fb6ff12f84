"""Days on which somebody samples: worked weekdays that are no public holiday, from which a bag keeps.

The days depend on the practice, the country and the laboratory, not on the task, so they are found once a year of the
calendar and kept as sets of days; what is left for each task is one `&`. `is_worked` and
`soilrota.timing.laboratory_time.keeps` are the definitions, a day at a time.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from datetime import date
from functools import lru_cache, partial

from soilrota.model.practice import Laboratory
from soilrota.model.windows import Span, WorkCalendar
from soilrota.timing.day_sets import DaySet, day_set, days_of_year, over_years, weekdays_in
from soilrota.timing.public_holidays import is_public_holiday, public_holidays
from soilrota.timing.spans import trim

_WEEK = 7
_LONGEST_YEAR = 366
_MONDAY_TO_FRIDAY = (1, 2, 3, 4, 5)


def is_worked(calendar: WorkCalendar, day: date) -> bool:
    """Return whether the practice works at the client's on a day: a worked weekday that is no public holiday."""
    return day.isoweekday() in calendar.weekdays and not is_public_holiday(calendar.country, calendar.subdivision, day)


def worked_days(days: DaySet, calendar: WorkCalendar) -> DaySet:
    """Return the days that are worked: those on which `is_worked` holds."""
    if len(calendar.weekdays) == _WEEK and not calendar.country:
        return days
    return days.among(partial(_worked_in, calendar.weekdays, calendar.country, calendar.subdivision))


def worked_spans(spans: tuple[Span, ...], calendar: WorkCalendar) -> tuple[Span, ...]:
    """Return the days of sorted, disjoint spans that are worked, as spans: those of whole years, cut at the ends."""
    if len(calendar.weekdays) == _WEEK and not calendar.country:
        return spans
    found: list[Span] = []
    for span in spans:
        years = span.first.year, span.last.year
        of_years = _worked_over(calendar.weekdays, calendar.country, calendar.subdivision, *years)
        found += trim(of_years, span.first, span.last)
    return tuple(found)


def kept_days(days: DaySet, laboratory: Laboratory | None, holding_days: int | None) -> DaySet:
    """Return the days from which a bag reaches the laboratory in its holding time, worked or not.

    Args:
        days: open days.
        laboratory: where the samples go; None when not known.
        holding_days: shortest holding time of the analyses [d]; None where none has one.
    """
    if laboratory is None or holding_days is None:
        return days
    country, courier, receiving = laboratory.country, laboratory.courier_days, laboratory.receiving_weekdays
    return days.among(partial(_kept_in, country, courier, receiving, holding_days))


def holidays_in(spans: tuple[Span, ...], calendar: WorkCalendar) -> tuple[str, ...]:
    """Return the public holidays that lie in the spans, which are sorted and disjoint, in order and in ISO form."""
    if not calendar.country:
        return ()
    found: list[str] = []
    for span in spans:
        for year in range(span.first.year, span.last.year + 1):
            days, names = _sorted_holidays(calendar.country, calendar.subdivision, year)
            found += names[bisect_left(days, span.first) : bisect_right(days, span.last)]
    return tuple(found)


@lru_cache(maxsize=1024)
def _sorted_holidays(country: str, subdivision: str, year: int) -> tuple[tuple[date, ...], tuple[str, ...]]:
    """Return the public holidays of a year in order, as days and in ISO form."""
    days = tuple(sorted(public_holidays(country, subdivision, year)))
    return days, tuple(day.isoformat() for day in days)


@lru_cache(maxsize=4096)
def _worked_in(weekdays: tuple[int, ...], country: str, subdivision: str, year: int) -> int:
    """Return the days of a year that are one of the weekdays and no public holiday, from 1 January on."""
    bits = weekdays_in(year, weekdays)
    first = date(year, 1, 1).toordinal()
    for holiday in public_holidays(country, subdivision, year):
        bits &= ~(1 << holiday.toordinal() - first)
    return bits


@lru_cache(maxsize=4096)
def _worked_over(
    weekdays: tuple[int, ...], country: str, subdivision: str, first_year: int, last_year: int
) -> tuple[Span, ...]:
    """Return the worked days of some years as spans."""
    whole = day_set((Span(date(first_year, 1, 1), date(last_year, 12, 31)),))
    return whole.among(partial(_worked_in, weekdays, country, subdivision)).spans()


@lru_cache(maxsize=16384)
def _kept_in(country: str, courier_days: int, receiving: tuple[int, ...], holding_days: int, year: int) -> int:
    """Return the days of a year from which a bag keeps, from 1 January on.

    A bag keeps when, on some day no later than its holding time, its courier days are over and the laboratory receives.
    """
    days = _LONGEST_YEAR + holding_days
    working = over_years(partial(_worked_in, _MONDAY_TO_FRIDAY, country, ""), year, days)
    receives = over_years(partial(_worked_in, receiving, country, ""), year, days)
    every_day = (1 << _LONGEST_YEAR) - 1
    # over[n]: days after which, by the day looked at, n courier days are over.
    over = [every_day, *[0] * max(courier_days, 0)]
    kept = over[-1] & receives
    for later in range(1, holding_days + 1):
        worked = working >> later
        for count in range(len(over) - 1, 0, -1):
            over[count] |= over[count - 1] & worked
        kept |= over[-1] & (receives >> later)
    return kept & ((1 << days_of_year(year)) - 1)
