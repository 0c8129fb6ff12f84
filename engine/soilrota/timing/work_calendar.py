"""Days on which the practice does not sample: weekdays off, public holidays, leave, the client's blackout days."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from soilrota.model.practice import Laboratory
from soilrota.model.windows import Closure, Span, WorkCalendar
from soilrota.timing.laboratory_time import keeps
from soilrota.timing.public_holidays import is_public_holiday

_DAY = timedelta(days=1)


def is_worked(calendar: WorkCalendar, day: date) -> bool:
    """Return whether the practice works at the client's on a day: a worked weekday that is no public holiday."""
    return day.isoweekday() in calendar.weekdays and not is_public_holiday(calendar.country, calendar.subdivision, day)


def closed_by(closures: tuple[Closure, ...], season: Span) -> tuple[tuple[Span, Closure], ...]:
    """Return the days of the season that leave and blackout spans take, each with its closure, in order of day."""
    taken = [
        (Span(max(closure.span.first, season.first), min(closure.span.last, season.last)), closure)
        for closure in closures
        if closure.span.first <= season.last and closure.span.last >= season.first
    ]
    return tuple(sorted(taken, key=lambda pair: (pair[0], pair[1].place)))


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
    return tuple(_runs(day for span in spans for day in _days(span) if _works(day, calendar, laboratory, holding_days)))


def _works(day: date, calendar: WorkCalendar, laboratory: Laboratory | None, holding_days: int | None) -> bool:
    """Return whether one day is worked and keeps the samples."""
    return is_worked(calendar, day) and keeps(laboratory, day, holding_days)


def _days(span: Span) -> Iterator[date]:
    """Yield the days of a span."""
    for offset in range(span.days):
        yield span.first + timedelta(days=offset)


def _runs(days: Iterator[date]) -> Iterator[Span]:
    """Yield maximal spans of consecutive days."""
    first: date | None = None
    last: date | None = None
    for day in days:
        if first is not None and last is not None and day == last + _DAY:
            last = day
            continue
        if first is not None and last is not None:
            yield Span(first, last)
        first = last = day
    if first is not None and last is not None:
        yield Span(first, last)
