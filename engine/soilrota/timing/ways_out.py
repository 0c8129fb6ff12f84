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

from dataclasses import replace
from datetime import timedelta

from soilrota.model.windows import Span, WayOut, WayOutKind
from soilrota.problems import Place
from soilrota.timing.day_sets import day_set
from soilrota.timing.frame import Frame
from soilrota.timing.gaps import Closing
from soilrota.timing.months import whole_months_between
from soilrota.timing.seasons import later_occurrences
from soilrota.timing.spans import ONE_DAY, between, clip, subtract

#: How many days after the season are offered, from the first free one [d]. House default.
DAYS_AFTER_GAP = 30


def ways_out(frame: Frame) -> tuple[WayOut, ...]:
    """Return the ways out of a season without an open day, in the order of the table above."""
    in_the_way = tuple(closing for closing, _ in frame.taken if closing.can_move)
    days = (
        (WayOutKind.BEFORE_PLANNED, _before_planned(frame, in_the_way)),
        (WayOutKind.AFTER_GAP, _after_gap(frame)),
        (WayOutKind.MOVE_PLANNED, _if_moved(frame, in_the_way)),
    )
    before, after, moved = (_way_out(frame, kind, frame.season, spans) for kind, spans in days)
    moved = None if moved is None else replace(moved, places=_places(in_the_way))
    return tuple(way for way in (before, after, _next_season(frame), moved) if way is not None)


def _way_out(frame: Frame, kind: WayOutKind, season: Span, spans: tuple[Span, ...]) -> WayOut | None:
    """Return the way out with its best day for that season and what it costs; None when it has no day."""
    if not spans:
        return None
    days = frame.worked(frame.kept(day_set(spans)))
    if not days.bits:
        return None
    best = frame.choose(days) if season is frame.season else frame.choose_in(days, season)
    assert best is not None  # a set that holds a day has a best one
    return WayOut(kind, spans, best, season.distance(best), whole_months_between(frame.due.last, best))


def _before_planned(frame: Frame, in_the_way: tuple[Closing, ...]) -> tuple[Span, ...]:
    """Return the free days before the first spreading that can still be moved."""
    begins = [closing.begins for closing in in_the_way if closing.begins is not None]
    return frame.free(between(frame.as_of, min(begins) - ONE_DAY)) if begins else ()


def _after_gap(frame: Frame) -> tuple[Span, ...]:
    """Return the first free days between the season and its next occurrence."""
    upcoming = next(later_occurrences(frame.task.seasons, frame.season.last))
    free = frame.free(between(frame.season.last + ONE_DAY, upcoming.first - ONE_DAY))
    if not free:
        return ()
    return clip(free, last=free[0].first + timedelta(days=DAYS_AFTER_GAP - 1))


def _next_season(frame: Frame) -> WayOut | None:
    """Return the first later occurrence that has an open day; it costs months, not distance from the season."""
    later = later_occurrences(frame.task.seasons, frame.season.last)
    ways = (_way_out(frame, WayOutKind.NEXT_SEASON, season, frame.free((season,))) for season in later)
    return next((way for way in ways if way is not None), None)


def _if_moved(frame: Frame, in_the_way: tuple[Closing, ...]) -> tuple[Span, ...]:
    """Return the season's days from the as-of date on if the spreading in the way were elsewhere."""
    if not in_the_way:
        return ()
    others = (closing.span for closing in frame.closings if closing not in in_the_way)
    return subtract(between(max(frame.as_of, frame.season.first), frame.season.last), others)


def _places(closings: tuple[Closing, ...]) -> tuple[Place, ...]:
    """Return the places of the records, sorted."""
    return tuple(sorted(closing.place for closing in closings))
