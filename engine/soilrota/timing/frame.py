"""The question that a window answers: which season, which day is aimed at, what closes days.

House defaults, where the rules leave it open:

- A task that was never sampled is due in the first occurrence that is not over on the as-of date.
- When the due occurrence ended unsampled, the task is overdue by whole months since its last day (0 at first) and is
  scheduled in the first occurrence that is not over.
- Samplings after the as-of date are ignored; results count as in from the day of the report on.
- The decision that a season's results are for is the first one on or after the season's first day, within a year of
  its last.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from soilrota.model.windows import AppliedGap, DecisionDay, Sampling, Span, Task
from soilrota.timing.day_sets import DaySet
from soilrota.timing.gaps import Closing, closings_of, undated
from soilrota.timing.laboratory_time import last_useful_day
from soilrota.timing.months import add_months, whole_months_between
from soilrota.timing.score import best_day
from soilrota.timing.seasons import anniversary_near, due_occurrence, first_not_over
from soilrota.timing.spans import union, without
from soilrota.timing.work_calendar import kept_days, worked_days


@dataclass(slots=True)
class Frame:
    """What is asked of one task on one as-of date; not frozen, because that makes one four times as slow to build.

    Attributes:
        task, as_of: as given.
        last_sampling: last sampling by the as-of date, `reported` only where known by then; None when never sampled.
        due_on: the last sampling plus the interval; None when never sampled.
        due: the season in which the task was first due.
        season: the season asked about: the due one, or the next when overdue.
        overdue_months: whole months since the due season ended [month]; None when not overdue.
        anniversary: of the last sampling, nearest to the season; None when never sampled.
        target: the day aimed at in the season asked about.
        closings: what closes days, anywhere in the calendar.
        taken: the closings that take at least one day of the season, each with the days that it takes.
        undated: applications that close days nobody knows.
        decision: the decision that the season's results are for; None where none lies ahead.
        last_useful: last day of sampling whose results are there for it; None without a decision.
        holes: the days that the closings take, sorted and disjoint; None until they are asked for.
    """

    task: Task
    as_of: date
    last_sampling: Sampling | None
    due_on: date | None
    due: Span
    season: Span
    overdue_months: int | None
    anniversary: date | None
    target: date
    closings: tuple[Closing, ...]
    taken: tuple[tuple[Closing, Span], ...]
    undated: tuple[AppliedGap, ...]
    decision: DecisionDay | None
    last_useful: date | None
    holes: tuple[Span, ...] | None = None

    def free(self, spans: tuple[Span, ...]) -> tuple[Span, ...]:
        """Return the days of sorted, disjoint spans that nothing closes."""
        if self.holes is None:
            self.holes = union([closing.span for closing in self.closings])
        return without(spans, self.holes)

    def season_free(self) -> tuple[Span, ...]:
        """Return the days of the season asked about that nothing closes; what closes other days is not looked at."""
        return without((self.season,), union([span for _, span in self.taken]))

    def kept(self, days: DaySet) -> DaySet:
        """Return the days from which a bag keeps until the laboratory has it, worked or not."""
        return kept_days(days, self.task.laboratory, self.task.holding_days)

    def worked(self, days: DaySet) -> DaySet:
        """Return the days on which the practice works at the client's."""
        return worked_days(days, self.task.calendar)

    def choose(self, days: DaySet) -> date | None:
        """Return the best of the days for the season asked about; None where there is none."""
        outlook = self.task.moisture
        if outlook is None or not days.bits:
            return days.nearest(self.target)
        return best_day(days, self.target, outlook, self.comparable)

    def choose_in(self, days: DaySet, season: Span) -> date | None:
        """Return the best of the days for another season; None where there is none."""
        if not days.bits:
            return None
        if self.last_sampling is None:
            return best_day(days, season.middle, self.task.moisture)
        anniversary = anniversary_near(self.last_sampling.day, season)
        comparable = around(anniversary, self.task.tolerance_days)
        return best_day(days, season.nearest(anniversary), self.task.moisture, comparable)

    @property
    def comparable(self) -> Span | None:
        """The days within the tolerance of the anniversary; None when never sampled."""
        return None if self.anniversary is None else around(self.anniversary, self.task.tolerance_days)


@dataclass(slots=True)
class Choice:
    """What was chosen, and from what; not frozen, for the reason of `Frame`.

    Attributes:
        preferred: the day that was chosen; None where there is none.
        season_best: the best day of the whole season, past or not; None where it has none.
        season_open: open days of the whole season.
        open: those of them from the as-of date on.
        workable: open days from the as-of date on that are worked and keep the samples.
        on_time: those of them whose results are there for the decision.
        best_has_passed: whether the season's best day has passed, so that the preferred day is the first one left.
        loses_bags: whether from some open day of the season a bag does not keep.
        kept: open days of the season from which one keeps.
    """

    preferred: date | None
    season_best: date | None
    season_open: tuple[Span, ...]
    open: tuple[Span, ...]
    workable: tuple[Span, ...]
    on_time: tuple[Span, ...]
    best_has_passed: bool
    loses_bags: bool
    kept: DaySet


def frame_of(task: Task, as_of: date) -> Frame:
    """Return what is asked of the task on the as-of date."""
    last = last_sampling(task, as_of)
    sampled = None if last is None else last.day
    due_on = None if sampled is None else add_months(sampled, task.interval_months)
    due = _due(task, sampled, due_on, as_of)
    overdue = due.last < as_of
    season = first_not_over(task.seasons, as_of, sampled) if overdue else due
    anniversary = None if sampled is None else anniversary_near(sampled, season)
    closings = closings_of(task, as_of)
    decision = decision_for(task, season)
    return Frame(
        task=task,
        as_of=as_of,
        last_sampling=last,
        due_on=due_on,
        due=due,
        season=season,
        overdue_months=whole_months_between(due.last, as_of) if overdue else None,
        anniversary=anniversary,
        target=season.middle if anniversary is None else season.nearest(anniversary),
        closings=closings,
        taken=_taken(closings, season),
        undated=undated(task),
        decision=decision,
        last_useful=None if decision is None else last_useful_day(task.laboratory, decision.day),
    )


def _taken(closings: tuple[Closing, ...], season: Span) -> tuple[tuple[Closing, Span], ...]:
    """Return the closings that take days of a season, each with the days."""
    found = []
    for closing in closings:
        span = closing.span
        if span.first <= season.last and span.last >= season.first:
            is_inside = season.first <= span.first and span.last <= season.last
            days = span if is_inside else Span(max(season.first, span.first), min(season.last, span.last))
            found.append((closing, days))
    return tuple(found)


def around(day: date, tolerance_days: int) -> Span:
    """Return the days within so many days of one [d]."""
    tolerance = timedelta(days=tolerance_days)
    return Span(day - tolerance, day + tolerance)


def decision_for(task: Task, season: Span) -> DecisionDay | None:
    """Return the decision that a season's results are for; None where none lies ahead of it within a year."""
    if not task.decisions:
        return None
    until = add_months(season.last, 12)
    ahead = [decision for decision in task.decisions if season.first <= decision.day <= until]
    if len(ahead) > 1:
        return min(ahead, key=lambda decision: (decision.day, decision.place))
    return ahead[0] if ahead else None


def last_sampling(task: Task, as_of: date) -> Sampling | None:
    """Return the last sampling on or before the as-of date, as it was known then; None when there is none."""
    known = [sampling for sampling in task.samplings if sampling.day <= as_of]
    if not known:
        return None
    last = known[0] if len(known) == 1 else max(known, key=lambda sampling: (sampling.day, sampling.place))
    is_as_known = last.reported is None or last.reported <= as_of
    return last if is_as_known else replace(last, reported=None)


def _due(task: Task, sampled: date | None, due_on: date | None, as_of: date) -> Span:
    """Return the season in which the task is first due."""
    if sampled is None or due_on is None:
        return first_not_over(task.seasons, as_of)
    return due_occurrence(task.seasons, sampled, due_on)
