"""Until when an answer stands while no record changes.

Days pass, and that alone changes nothing a reader must be told, except: `open` and the days of the ways out lose
those that have passed; and once the season's best day has passed (`best-day-passed` is said), the preferred day is
the first day from now on that is worked and in time. Everything else that the calendar alone can change is a
breakpoint here, and the answer holds until the day before the first of them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from soilrota.model.windows import Rule, State, WayOut, WayOutKind, Window
from soilrota.timing.frame import Choice, Frame
from soilrota.timing.months import add_months
from soilrota.timing.spans import ONE_DAY, clip, intersect, subtract, trim
from soilrota.timing.states import state_holds_until
from soilrota.timing.waits import waits_of, waits_on

#: Ways out of which the days lie ahead of the season's end, and so can pass while the answer stands.
_CAN_PASS = frozenset({WayOutKind.BEFORE_PLANNED, WayOutKind.MOVE_PLANNED})


def holds_until(frame: Frame, choice: Choice, state: State, ways: tuple[WayOut, ...]) -> date:
    """Return the last as-of date on which the window stands, passed days apart; never before the as-of date."""
    ends = [frame.season.last, state_holds_until(frame, choice, state), *_records_end(frame)]
    if frame.overdue_months is not None:
        # From the next day on the task is late by a month more.
        ends.append(add_months(frame.due.last, frame.overdue_months + 1) - ONE_DAY)
    if choice.workable:
        ends.append(choice.workable[-1].last)
    if choice.on_time:
        ends.append(choice.on_time[-1].last)
    if choice.best_has_passed:
        ends += _preferred_ends(frame, choice)
    elif choice.preferred is not None:
        ends.append(choice.preferred)
    ends += [way.best for way in ways if way.kind in _CAN_PASS]
    return max(frame.as_of, min(ends))


def _records_end(frame: Frame) -> list[date]:
    """Return the days before a record reads otherwise: a later sampling, a report, a plan that passes."""
    as_of, last = frame.as_of, frame.last_sampling
    ends = [closing.reads_until for closing, _ in frame.taken]
    for sampling in frame.task.samplings:
        if sampling.day > as_of:
            ends.append(sampling.day - ONE_DAY)
        reported = sampling.reported
        if reported is not None and reported > as_of and last is not None and sampling.day == last.day:
            ends.append(reported - ONE_DAY)
    return ends


def _preferred_ends(frame: Frame, choice: Choice) -> Iterator[date]:
    """Yield the days after which what is said of a preferred day that moves with today is something else."""
    on_time = choice.on_time
    preferred = on_time[0].first
    said = waits_on(frame.task, preferred)
    for change in _may_change_what_is_said(frame):
        following = trim(on_time, first=change)
        if preferred < change and following and waits_on(frame.task, following[0].first) != said:
            yield trim(on_time, last=change - ONE_DAY)[-1].last
    comparable = frame.comparable
    if comparable is not None:
        reads_same = preferred in comparable
        otherwise = subtract(on_time, (comparable,)) if reads_same else intersect(on_time, (comparable,))
        ahead = trim(otherwise, first=preferred)
        if ahead:
            yield trim(on_time, last=ahead[0].first - ONE_DAY)[-1].last


def _may_change_what_is_said(frame: Frame) -> Iterator[date]:
    """Yield the days from which on an analysis may begin, or cease, to be held back."""
    for wait in waits_of(frame.task):
        yield wait.ready
        if wait.application.first_day is not None:
            yield wait.application.first_day


def same_but_for_passed_days(earlier: Window, later: Window, day: date) -> bool:
    """Return whether `later`, the window on `day`, says what `earlier` said, the days passed since then apart."""
    return _read_on(earlier, day)._replace(holds_until=later.holds_until) == later


def _read_on(window: Window, day: date) -> Window:
    """Return the window as it is read on a later day."""
    on_time = clip(window.on_time, first=day)
    preferred = window.preferred
    if preferred is not None and preferred < day and _moves_with_today(window):
        preferred = on_time[0].first if on_time else None
    return window._replace(
        open=clip(window.open, first=day),
        workable=clip(window.workable, first=day),
        on_time=on_time,
        preferred=preferred,
        ways_out=tuple(replace(way, spans=clip(way.spans, first=day)) for way in window.ways_out),
    )


def _moves_with_today(window: Window) -> bool:
    """Return whether the preferred day is the first open day from now on."""
    return any(reason.rule is Rule.BEST_DAY_PASSED for reason in window.reasons)
