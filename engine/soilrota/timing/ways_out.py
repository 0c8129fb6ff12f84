"""What to do when the season has no open day left: never 'none' alone.

| way out | days | what gives way |
|---|---|---|
| before-planned | from the as-of date to the day before the first spreading that can still be moved | the season |
| after-gap | after the season, from the first free day on, at most 30 days, before the next occurrence | the season |
| next-season | the open days of the first later occurrence that has any, under today's records | the year |
| move-planned | the season's days if the spreading ahead that takes days of it were elsewhere | the spreading |

Each is listed only when it has days, and each keeps clear of everything that closes days (`move-planned` of
everything but the spreading it moves). The best day is chosen as always, among days that are worked and keep the
samples, for `next-season` in that season; a way without such a day is not listed. A plan that has passed cannot be
moved: someone must say whether it happened.
The 30 days are a house default.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from itertools import chain

from soilrota.model.windows import Span, WayOut, WayOutKind
from soilrota.problems import Place
from soilrota.timing.day_sets import DaySet, day_set
from soilrota.timing.frame import Frame
from soilrota.timing.gaps import Closing
from soilrota.timing.months import whole_months_between
from soilrota.timing.seasons import later_occurrences
from soilrota.timing.spans import ONE_DAY, between, subtract, trim

#: How many days after the season are offered, from the first free one [d]. House default.
DAYS_AFTER_GAP = 30


def ways_out(frame: Frame) -> tuple[WayOut, ...]:
    """Return the ways out of a season without an open day, in the order of the table above."""
    in_the_way = tuple([closing for closing, _ in frame.taken if closing.can_move])
    later = later_occurrences(frame.task.seasons, frame.season.last)
    upcoming = next(later)
    found = [
        _way_out(frame, WayOutKind.BEFORE_PLANNED, _before_planned(frame, in_the_way)),
        _way_out(frame, WayOutKind.AFTER_GAP, _after_gap(frame, upcoming)),
        _next_season(frame, chain((upcoming,), later)),
        _way_out(frame, WayOutKind.MOVE_PLANNED, _if_moved(frame, in_the_way), in_the_way),
    ]
    return tuple([way for way in found if way is not None])


def _way_out(
    frame: Frame, kind: WayOutKind, spans: tuple[Span, ...], giving_way: tuple[Closing, ...] = ()
) -> WayOut | None:
    """Return the way out with its best day and what it costs; None when it has no day."""
    best = frame.choose(_workable(frame, spans)) if spans else None
    if best is None:
        return None
    late = whole_months_between(frame.due.last, best)
    return WayOut(kind, spans, best, frame.season.distance(best), late, _places(giving_way))


def _workable(frame: Frame, spans: tuple[Span, ...]) -> DaySet:
    """Return the days of the spans that are worked and keep the samples."""
    kept = frame.kept(day_set(spans))
    return frame.worked(kept) if kept.bits else kept


def _before_planned(frame: Frame, in_the_way: tuple[Closing, ...]) -> tuple[Span, ...]:
    """Return the free days before the first spreading that can still be moved."""
    begins = [closing.begins for closing in in_the_way if closing.begins is not None]
    return frame.free(between(frame.as_of, min(begins) - ONE_DAY)) if begins else ()


def _after_gap(frame: Frame, upcoming: Span) -> tuple[Span, ...]:
    """Return the first free days between the season and its next occurrence."""
    free = frame.free(between(frame.season.last + ONE_DAY, upcoming.first - ONE_DAY))
    if not free:
        return ()
    return trim(free, last=free[0].first + timedelta(days=DAYS_AFTER_GAP - 1))


def _next_season(frame: Frame, later: Iterable[Span]) -> WayOut | None:
    """Return the first later occurrence that has an open day; it costs months, not distance from the season."""
    for season in later:
        spans = frame.free((season,))
        best = frame.choose_in(_workable(frame, spans), season) if spans else None
        if best is not None:
            late = whole_months_between(frame.due.last, best)
            return WayOut(WayOutKind.NEXT_SEASON, spans, best, season.distance(best), late)
    return None


def _if_moved(frame: Frame, in_the_way: tuple[Closing, ...]) -> tuple[Span, ...]:
    """Return the season's days from the as-of date on if the spreading in the way were elsewhere."""
    if not in_the_way:
        return ()
    others = (closing.span for closing in frame.closings if closing not in in_the_way)
    return subtract(between(max(frame.as_of, frame.season.first), frame.season.last), others)


def _places(closings: tuple[Closing, ...]) -> tuple[Place, ...]:
    """Return the places of the records, sorted."""
    return tuple(sorted(closing.place for closing in closings))
