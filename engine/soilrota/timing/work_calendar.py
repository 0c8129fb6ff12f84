"""Days on which somebody samples: worked weekdays that are no public holiday, from which a bag keeps.

The days depend on the practice, the country and the laboratory, not on the task, so they are found once a year of the
calendar and kept; what is left for each task is the arithmetic of spans.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import lru_cache

from soilrota.model.practice import Laboratory
from soilrota.model.windows import Span, WorkCalendar
from soilrota.timing.laboratory_time import keeps
from soilrota.timing.public_holidays import is_public_holiday, public_holidays
from soilrota.timing.spans import ONE_DAY, cut

_WEEK = 7


def is_worked(calendar: WorkCalendar, day: date) -> bool:
    """Return whether the practice works at the client's on a day: a worked weekday that is no public holiday."""
    return day.isoweekday() in calendar.weekdays and not is_public_holiday(calendar.country, calendar.subdivision, day)


def workable_days(
    spans: tuple[Span, ...], calendar: WorkCalendar, laboratory: Laboratory | None, holding_days: int | None
) -> tuple[Span, ...]:
    """Return the days of `spans` that are worked and on which a bag reaches the laboratory in its holding time.

    Args:
        spans: sorted, disjoint spans of open days; leave and blackout days already taken out.
        calendar: weekdays and public holidays of the practice at this client.
        laboratory: where the samples go; None when not known.
        holding_days: shortest holding time of the analyses [d]; None where none has one.

    Returns:
        Sorted, disjoint, maximal spans.
    """
    every_day = len(calendar.weekdays) == _WEEK and not calendar.country
    if every_day and (laboratory is None or holding_days is None):
        return spans
    return _cut_by_year(spans, calendar, laboratory, holding_days)


def kept_days(spans: tuple[Span, ...], laboratory: Laboratory | None, holding_days: int | None) -> tuple[Span, ...]:
    """Return the days of `spans` from which a bag keeps, worked or not; the arguments are those of `workable_days`."""
    if laboratory is None or holding_days is None:
        return spans
    return _cut_by_year(spans, WorkCalendar(), laboratory, holding_days)


def holidays_in(spans: tuple[Span, ...], calendar: WorkCalendar) -> tuple[date, ...]:
    """Return the public holidays that lie in the spans, in order."""
    years = {year for span in spans for year in range(span.first.year, span.last.year + 1)}
    days = (day for year in years for day in public_holidays(calendar.country, calendar.subdivision, year))
    return tuple(sorted(day for day in days if any(day in span for span in spans)))


def _cut_by_year(
    spans: tuple[Span, ...], calendar: WorkCalendar, laboratory: Laboratory | None, holding_days: int | None
) -> tuple[Span, ...]:
    """Return the days of the spans that are among the workable ones of their years."""
    if not spans:
        return ()
    keeping = laboratory if holding_days is not None else None
    allowed: list[Span] = []
    for year in range(spans[0].first.year, spans[-1].last.year + 1):
        days = _workable_in(
            calendar.weekdays, calendar.country, calendar.subdivision, keeping, holding_days if keeping else None, year
        )
        if allowed and days and allowed[-1].last + ONE_DAY == days[0].first:
            allowed[-1] = Span(allowed[-1].first, days[0].last)
            days = days[1:]
        allowed += days
    return cut(spans, allowed)


@lru_cache(maxsize=4096)
def _workable_in(  # noqa: PLR0917  # the cache goes by each of them
    weekdays: tuple[int, ...],
    country: str,
    subdivision: str,
    laboratory: Laboratory | None,
    holding_days: int | None,
    year: int,
) -> tuple[Span, ...]:
    """Return the workable days of a year as maximal spans."""
    calendar = WorkCalendar(weekdays, country, subdivision)
    first = date(year, 1, 1)
    days = (first + timedelta(days=number) for number in range((date(year, 12, 31) - first).days + 1))
    return tuple(_runs(day for day in days if is_worked(calendar, day) and keeps(laboratory, day, holding_days)))


def _runs(days: Iterator[date]) -> Iterator[Span]:
    """Yield maximal spans of consecutive days."""
    first: date | None = None
    last: date | None = None
    for day in days:
        if first is not None and last is not None and day == last + ONE_DAY:
            last = day
            continue
        if first is not None and last is not None:
            yield Span(first, last)
        first = last = day
    if first is not None and last is not None:
        yield Span(first, last)
