"""The window of a task: on which days it may be sampled next, which day is best, and why."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.model.windows import SeasonOccurrence, Span, Task, Window
from soilrota.problems import Place
from soilrota.timing.frame import Frame, frame_of
from soilrota.timing.holds import holds_until
from soilrota.timing.reasons import reasons_of
from soilrota.timing.score import best_day
from soilrota.timing.spans import clip
from soilrota.timing.states import state_of
from soilrota.timing.waits import waits_on
from soilrota.timing.ways_out import ways_out


def window_of(task: Task, as_of: date) -> Window:
    """Return the answer for the task on the as-of date.

    The same for any order of the task's records. Cost grows with the number of records, not of days. Where the date
    of a record that closes days is not known, no day is called open.
    """
    frame = frame_of(task, as_of)
    season_open = () if frame.undated else frame.free((frame.season,))
    open_days = clip(season_open, first=as_of)
    preferred = best_day(open_days, frame.target)
    waits = () if preferred is None else waits_on(task, preferred)
    window = Window(
        key=task.key,
        state=state_of(frame, open_days),
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
        reasons=reasons_of(frame, preferred, best_day(season_open, frame.target), waits),
        ways_out=() if open_days or frame.undated else ways_out(frame),
        holds_until=as_of,
    )
    return replace(window, holds_until=holds_until(frame, window))


def _closed(frame: Frame) -> tuple[tuple[Span, Place], ...]:
    """Return the days of the season that each application took, with its place."""
    return tuple(
        (span, closing.reason.place)
        for closing in frame.closings_in_season()
        for span in frame.taken_by(closing)
        if closing.reason.place is not None
    )
