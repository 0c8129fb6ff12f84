"""Seasons year by year: the due one, the next one, and the anniversary of a day near one.

House defaults, where the rules leave it open:

- Each month-day span in each year is one occurrence, so a season of two spans falls due twice a year.
- The due occurrence is looked for among those that start after the last sampling: never the one in which it fell,
  nor one that was over by then.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from soilrota.model.practice import MonthDaySpan
from soilrota.model.windows import Span
from soilrota.timing.months import day_or_last

#: How far ahead a season is looked for [year]; a calendar that never finds a day by then never will. House default.
YEARS_AHEAD = 6
_ONE_DAY = timedelta(days=1)


def occurrence(span: MonthDaySpan, year: int) -> Span:
    """Return the occurrence that starts in `year`; it ends in the next year where the span wraps."""
    begin, end = span.first, span.last
    first = day_or_last(year, begin.month, begin.day)
    return Span(first, day_or_last(year + _wraps(span), end.month, end.day))


def _wraps(span: MonthDaySpan) -> bool:
    """Return whether a span ends in the year after the one in which it starts."""
    begin, end = span.first, span.last
    return end.month < begin.month or (end.month == begin.month and end.day < begin.day)


def occurrences(spans: tuple[MonthDaySpan, ...], first_year: int, last_year: int) -> tuple[Span, ...]:
    """Return the occurrences that start in the years from `first_year` to `last_year`, by first and last day."""
    return tuple([span for year in range(first_year, last_year + 1) for span in _starting_in(spans, year)])


def _starting_in(spans: tuple[MonthDaySpan, ...], year: int) -> list[Span]:
    """Return the occurrences that start in a year, by first and last day."""
    found = [occurrence(span, year) for span in spans]
    if len(found) > 1:
        found.sort(key=_ends)
    return found


def _ends(span: Span) -> tuple[date, date]:
    """Return the first and last day, by which spans are sorted."""
    return span.first, span.last


def due_occurrence(spans: tuple[MonthDaySpan, ...], sampled: date, due_on: date) -> Span:
    """Return the occurrence nearest to `due_on` among those that start after `sampled`; ties go to the earlier.

    `due_on` is not before `sampled`. Of each span it is the last occurrence that starts before `due_on` or the next
    one: what starts earlier or later is further away.
    """
    nearest, away = None, 0
    month, day = due_on.month, due_on.day
    for span in spans:
        begin = span.first
        is_ahead = begin.month > month or (begin.month == month and begin.day >= day)
        year = due_on.year - is_ahead
        for starts in range(year, year + 3):
            found = occurrence(span, starts)
            if found.first <= sampled:
                continue
            distance = found.distance(due_on)
            if nearest is None or distance < away or (distance == away and found < nearest):
                nearest, away = found, distance
            if not distance or found.first >= due_on:
                break
    assert nearest is not None  # one of the three starts after the day that it is due on, and so after the sampling
    return nearest


def first_not_over(spans: tuple[MonthDaySpan, ...], day: date, sampled: date | None = None) -> Span:
    """Return the first occurrence that is not over on `day` and, where given, starts after `sampled`."""
    year = day.year
    # Of those that start in the year before, only what wraps reaches into this one.
    wrapping = tuple([span for span in spans if _wraps(span)])
    for found in (*_starting_in(wrapping, year - 1), *_starting_in(spans, year)):
        if found.last >= day and (sampled is None or found.first > sampled):
            return found
    return _starting_in(spans, year + 1)[0]


def later_occurrences(spans: tuple[MonthDaySpan, ...], day: date) -> Iterator[Span]:
    """Yield the occurrences that start after `day`, in order, for `YEARS_AHEAD` years."""
    for year in range(day.year, day.year + YEARS_AHEAD + 1):
        yield from (span for span in _starting_in(spans, year) if span.first > day)


def anniversary_near(day: date, season: Span) -> date:
    """Return the anniversary of `day` that lies nearest to the season (inside if any does); ties go to the earlier.

    29 February has its anniversary on 28 February in a common year.
    """
    year = season.first.year
    before = after = day_or_last(year, day.month, day.day)
    if after < season.first:
        after = day_or_last(year + 1, day.month, day.day)
    else:
        before = day_or_last(year - 1, day.month, day.day)
    # `after` is the first anniversary on or after the season's first day, `before` the last one before it.
    return before if after - season.last >= max(season.first - before, _ONE_DAY) else after
