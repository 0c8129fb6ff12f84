"""The window of a task: on which days it may be sampled next, which day is best, and why."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.model.windows import SeasonOccurrence, Span, Task, Window
from soilrota.problems import Place
from soilrota.timing.frame import Frame, frame_of
from soilrota.timing.holds import holds_until
from soilrota.timing.reasons import Choice, reasons_of
from soilrota.timing.spans import clip
from soilrota.timing.states import state_of
from soilrota.timing.waits import waits_on
from soilrota.timing.ways_out import ways_out


def window_of(task: Task, as_of: date) -> Window:
    """Return the answer for the task on the as-of date.

    The same for any order of the task's records. Cost grows with the number of records and with the days that are
    left of one season. Where the date of a record that closes days is not known, no day is called open.
    """
    frame = frame_of(task, as_of)
    season_open = () if frame.undated else frame.free((frame.season,))
    season_workable = frame.workable(season_open)
    in_time = frame.on_time(season_workable)
    open_days = clip(season_open, first=as_of)
    workable = clip(season_workable, first=as_of)
    on_time = frame.on_time(workable)
    season_best = frame.choose(in_time, frame.season)
    preferred = preferred_day(frame, on_time, season_best)
    waits = () if preferred is None else waits_on(task, preferred)
    window = Window(
        key=task.key,
        state=state_of(frame, open_days, workable, on_time),
        season=SeasonOccurrence(task.season, frame.season),
        due=SeasonOccurrence(task.season, frame.due),
        season_open=season_open,
        open=open_days,
        preferred=preferred,
        target=frame.target,
        anniversary=frame.anniversary,
        last_sampling=frame.last_sampling,
        overdue_months=frame.overdue_months,
        closed=_closed(frame),
        waiting_analyses=tuple((wait.analysis, wait.ready) for wait in waits),
        reasons=reasons_of(frame, Choice(preferred, season_best, season_open, workable, on_time), waits),
        ways_out=() if workable or frame.undated else ways_out(frame),
        holds_until=as_of,
        workable=workable,
        on_time=on_time,
        decision=frame.decision,
        last_useful=frame.last_useful,
    )
    return replace(window, holds_until=holds_until(frame, window))


def preferred_day(frame: Frame, on_time: tuple[Span, ...], season_best: date | None) -> date | None:
    """Return the best day that is left; once the season's best day has passed, the first one."""
    if on_time and season_best is not None and season_best < frame.as_of:
        return on_time[0].first
    return frame.choose(on_time, frame.season)


def _closed(frame: Frame) -> tuple[tuple[Span, Place], ...]:
    """Return the days of the season that each application took, with its place."""
    return tuple(
        (span, closing.reason.place)
        for closing in frame.closings_in_season()
        for span in frame.taken_by(closing)
        if closing.reason.place is not None
    )
