"""Seasons year by year: the due one, the next one, and the anniversary of a day near one.

House defaults, where the rules leave it open:

- Each month-day span in each year is one occurrence, so a season of two spans falls due twice a year.
- The due occurrence is looked for among those that start after the last sampling: never the one in which it fell,
  nor one that was over by then.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import lru_cache

from soilrota.model.practice import MonthDay, MonthDaySpan
from soilrota.model.windows import Span
from soilrota.timing.months import month_length

#: How far ahead a season is looked for [year]; a calendar that never finds a day by then never will. House default.
YEARS_AHEAD = 6


def day_in_year(month_day: MonthDay, year: int) -> date:
    """Return the day in that year; 29 February reads as 28 February in a common year."""
    return date(year, month_day.month, min(month_day.day, month_length(year, month_day.month)))


@lru_cache(maxsize=4096)
def occurrence(span: MonthDaySpan, year: int) -> Span:
    """Return the occurrence that starts in `year`; it ends in the next year where the span wraps."""
    wraps = span.last < span.first
    return Span(day_in_year(span.first, year), day_in_year(span.last, year + wraps))


def occurrences(spans: tuple[MonthDaySpan, ...], first_year: int, last_year: int) -> tuple[Span, ...]:
    """Return the occurrences that start in the years from `first_year` to `last_year`, by first and last day."""
    years = range(first_year, last_year + 1)
    return tuple(sorted(occurrence(span, year) for year in years for span in spans))


def due_occurrence(spans: tuple[MonthDaySpan, ...], sampled: date, due_on: date) -> Span:
    """Return the occurrence nearest to `due_on` among those that start after `sampled`; ties go to the earlier.

    `due_on` is not before `sampled`. An occurrence lasts at most a year and starts again within a year, so that two
    years before and one after hold the nearest.
    """
    near = occurrences(spans, due_on.year - 2, due_on.year + 1)
    return min((span for span in near if span.first > sampled), key=lambda span: (span.distance(due_on), span))


def first_not_over(spans: tuple[MonthDaySpan, ...], day: date, sampled: date | None = None) -> Span:
    """Return the first occurrence that is not over on `day` and, where given, starts after `sampled`."""
    near = occurrences(spans, day.year - 1, day.year + 1)
    return min(span for span in near if span.last >= day and (sampled is None or span.first > sampled))


def later_occurrences(spans: tuple[MonthDaySpan, ...], day: date) -> Iterator[Span]:
    """Yield the occurrences that start after `day`, in order, for `YEARS_AHEAD` years."""
    for year in range(day.year, day.year + YEARS_AHEAD + 1):
        yield from (span for span in occurrences(spans, year, year) if span.first > day)


def anniversary_near(day: date, season: Span) -> date:
    """Return the anniversary of `day` that lies nearest to the season (inside if any does); ties go to the earlier.

    29 February has its anniversary on 28 February in a common year.
    """
    return _anniversary_near(MonthDay(day.month, day.day), season)


@lru_cache(maxsize=4096)
def _anniversary_near(month_day: MonthDay, season: Span) -> date:
    """Return the day of the year in the year that brings it nearest to the season."""
    years = range(season.first.year - 1, season.last.year + 2)
    return min((day_in_year(month_day, year) for year in years), key=lambda found: (season.distance(found), found))
