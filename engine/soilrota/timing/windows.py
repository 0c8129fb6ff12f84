"""The window of a task: on which days it may be sampled next, which day is best, and why."""

from __future__ import annotations

from datetime import date

from soilrota.model.windows import SeasonOccurrence, Span, Task, Window
from soilrota.problems import Place
from soilrota.timing.day_sets import day_set
from soilrota.timing.frame import Choice, Frame, frame_of
from soilrota.timing.holds import holds_until
from soilrota.timing.reasons import reasons_of
from soilrota.timing.spans import trim
from soilrota.timing.states import state_of
from soilrota.timing.waits import waits_on
from soilrota.timing.ways_out import ways_out
from soilrota.timing.work_calendar import worked_spans


def window_of(task: Task, as_of: date) -> Window:
    """Return the answer for the task on the as-of date.

    The same for any order of the task's records. Cost grows with the number of records and with the days that are
    left of one season. Where the date of a record that closes days is not known, no day is called open.
    """
    frame = frame_of(task, as_of)
    choice = choice_of(frame)
    preferred = choice.preferred
    waits = () if preferred is None else waits_on(task, preferred)
    state = state_of(frame, choice)
    ways = () if choice.workable or frame.undated else ways_out(frame)
    season = SeasonOccurrence(task.season, frame.season)
    due = season if frame.overdue_months is None else SeasonOccurrence(task.season, frame.due)
    return Window(
        key=task.key,
        state=state,
        season=season,
        due=due,
        season_open=choice.season_open,
        open=choice.open,
        preferred=preferred,
        target=frame.target,
        anniversary=frame.anniversary,
        last_sampling=frame.last_sampling,
        overdue_months=frame.overdue_months,
        closed=_closed(frame),
        waiting_analyses=tuple([(wait.analysis, wait.ready) for wait in waits]),
        reasons=reasons_of(frame, choice, waits),
        ways_out=ways,
        holds_until=holds_until(frame, choice, state, ways),
        workable=choice.workable,
        on_time=choice.on_time,
        decision=frame.decision,
        last_useful=frame.last_useful,
    )


def choice_of(frame: Frame) -> Choice:
    """Return the best day that is left; once the season's best day has passed, the first one."""
    as_of = frame.as_of
    season_open = () if frame.undated else frame.season_free()
    days = day_set(season_open)
    kept = frame.kept(days)
    whole = frame.worked(kept)
    season_best = frame.choose(whole if frame.last_useful is None else whole.until(frame.last_useful))
    open_days = trim(season_open, first=as_of)
    loses_bags = kept.bits != days.bits
    # Where every bag keeps, the spans are those of the calendar, and known already.
    workable = whole.since(as_of).spans() if loses_bags else worked_spans(open_days, frame.task.calendar)
    on_time = workable if frame.last_useful is None else trim(workable, last=frame.last_useful)
    # A best day that is still to come is the best of what is left, too.
    best_has_passed = bool(on_time) and season_best is not None and season_best < as_of
    preferred = on_time[0].first if best_has_passed else season_best if on_time else None
    return Choice(
        preferred,
        season_best,
        season_open,
        open_days,
        workable,
        on_time,
        best_has_passed=best_has_passed,
        loses_bags=loses_bags,
        kept=kept,
    )


def _closed(frame: Frame) -> tuple[tuple[Span, Place], ...]:
    """Return the days of the season that each application took, with its place."""
    return tuple([(span, closing.place) for closing, span in frame.taken])
