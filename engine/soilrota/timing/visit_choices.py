"""Which days a farm's tasks can use, and at what penalty: alike tasks put together, needless days left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.model.visits import TaskToVisit
from soilrota.model.windows import Span, TaskKey
from soilrota.timing.spans import clip, union

#: How bad a day is for a task: a whole number, 0 or more.
Penalty = Callable[[TaskToVisit, date], int]


def away_from_target(task: TaskToVisit, day: date) -> int:
    """Return the distance of a day from the task's target day [d], the plain penalty."""
    return abs((day - task.target).days)


def from_table(table: Mapping[tuple[TaskKey, date], int]) -> Penalty:
    """Return the penalty that looks a task's day up in a table, and is the distance from the target elsewhere."""

    def penalty(task: TaskToVisit, day: date) -> int:
        return table.get((task.key, day), away_from_target(task, day))

    return penalty


@dataclass(frozen=True, slots=True)
class Choice:
    """Tasks that can use the same days at the same penalties.

    Attributes:
        tasks: which, in order.
        spans: the days, sorted and disjoint.
        penalties: penalty of one task by day; only days that any best plan can need.
    """

    tasks: tuple[TaskToVisit, ...]
    spans: tuple[Span, ...]
    penalties: Mapping[date, int]

    @property
    def least(self) -> int:
        """Penalty of one task on its best day."""
        return min(self.penalties.values())

    def best(self, days: Iterable[date]) -> date | None:
        """Return the best of some days, the earlier of two; None where the tasks can use none of them."""
        usable = [day for day in days if day in self.penalties]
        return min(usable, key=lambda day: (self.penalties[day], day), default=None)


def usable_spans(task: TaskToVisit) -> tuple[Span, ...]:
    """Return the open days up to the last useful one; all open days where none of them is in time."""
    spans = union(task.spans)
    in_time = spans if task.last_useful is None else clip(spans, last=task.last_useful)
    return in_time or spans


def choices_of(tasks: Iterable[TaskToVisit], penalty: Penalty) -> tuple[Choice, ...]:
    """Return the choices of the tasks that have a day, in the order of their first tasks, without needless days.

    Args:
        tasks: in order.
        penalty: of a task on a day.
    """
    alike: dict[tuple[tuple[date, int], ...], list[TaskToVisit]] = {}
    for task in tasks:
        table = tuple((day, penalty(task, day)) for span in usable_spans(task) for day in _days(span))
        if table:
            alike.setdefault(table, []).append(task)
    whole = tuple(Choice(tuple(found), usable_spans(found[0]), dict(table)) for table, found in alike.items())
    needed = _needed_days(whole)
    return tuple(
        Choice(choice.tasks, choice.spans, {day: choice.penalties[day] for day in needed if day in choice.penalties})
        for choice in whole
    )


def _days(span: Span) -> list[date]:
    """Return the days of a span."""
    return [span.first + timedelta(days=offset) for offset in range(span.days)]


def _needed_days(choices: tuple[Choice, ...]) -> list[date]:
    """Return the days that are not worse than another one for everyone, in order.

    A day can go when an earlier day serves all its tasks as well, or a later day serves all of them better: putting
    that day in its place keeps every plan as good, or makes it better, and never later on equal terms.
    """
    days = sorted({day for choice in choices for day in choice.penalties})
    users = {day: [choice.penalties for choice in choices if day in choice.penalties] for day in days}

    def replaces(other: date, day: date) -> bool:
        at_most = 0 if other < day else -1
        return all(other in table and table[other] - table[day] <= at_most for table in users[day])

    return [day for day in days if not any(replaces(other, day) for other in days if other != day)]
