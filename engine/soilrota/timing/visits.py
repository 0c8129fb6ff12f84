"""Visits of one farm: as few as the windows of its tasks allow, then the best of those, and why so many."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from soilrota.model.visits import OneFewerVisit, OneMoreVisit, TaskToVisit, VisitDay, VisitPlan, WorkMinutes
from soilrota.model.windows import TaskKey
from soilrota.timing.visit_choices import Choice, Penalty, away_from_target, choices_of, usable_spans
from soilrota.timing.visit_days import best_days, fewest_visits, witness
from soilrota.timing.visit_minutes import visit_minutes


def plan_visits(tasks: Iterable[TaskToVisit], figures: WorkMinutes, penalty: Penalty = away_from_target) -> VisitPlan:
    """Return the visits of a farm: fewest first, then the least total penalty, then the earliest days on the whole.

    A day after a task's last useful day is used only where the task has no open day in time. Every task goes to the
    best of the chosen days that it can use. Solved exactly; the order of the tasks does not matter.

    Args:
        tasks: the farm's tasks; each key once.
        figures: minutes of each piece of work [min], for the length of the visits.
        penalty: how bad a day is for a task, a whole number of 0 or more: the distance from its target [d] unless
            given; `from_table` makes one that knows moisture.
    """
    ordered = sorted(tasks, key=lambda task: _name(task.key))
    without_day = tuple(task.key for task in ordered if not usable_spans(task))
    choices = choices_of(ordered, penalty)
    if not choices:
        return VisitPlan((), without_day, 0, (), witness_apart=False, one_more=None, one_fewer=None, proven=True)
    number, sure = fewest_visits(choices)
    chosen = best_days(choices, number)
    more, more_sure = _one_more(choices, chosen.days, chosen.penalty)
    fewer, fewer_sure = _one_fewer(choices, number)
    needing, apart = witness(choices, number) if number > 1 else ((), False)
    return VisitPlan(
        visits=_visits(choices, chosen.days, figures),
        without_day=without_day,
        penalty=chosen.penalty,
        witness=tuple((choice.tasks[0].key, choice.spans) for choice in needing),
        witness_apart=apart,
        one_more=more,
        one_fewer=fewer,
        proven=sure and chosen.proven and more_sure and fewer_sure,
    )


def _name(key: TaskKey) -> tuple[str, str, str]:
    """Return what tasks are put in order by."""
    return key.farm, key.zone, key.protocol


def _visits(choices: tuple[Choice, ...], days: tuple[date, ...], figures: WorkMinutes) -> tuple[VisitDay, ...]:
    """Return the visits on the chosen days, every task on its best."""
    groups: dict[date | None, list[TaskToVisit]] = {}
    for choice in choices:
        groups.setdefault(choice.best(days), []).extend(choice.tasks)
    visits = []
    for day in days:
        tasks = sorted(groups.get(day, []), key=lambda task: _name(task.key))
        late = tuple(task.key for task in tasks if task.last_useful is not None and day > task.last_useful)
        minutes = visit_minutes((task.work for task in tasks), figures)
        visits.append(VisitDay(day, tuple(task.key for task in tasks), minutes, late))
    return tuple(visits)


def _one_more(choices: tuple[Choice, ...], days: tuple[date, ...], penalty: int) -> tuple[OneMoreVisit, bool]:
    """Return what one visit more would bring, and whether that is proven."""
    least = sum(len(choice.tasks) * choice.least for choice in choices)
    if penalty == least:
        return OneMoreVisit(days, 0), True
    better = best_days(choices, len(days) + 1)
    gain = penalty - better.penalty
    return OneMoreVisit(better.days if gain else days, gain), better.proven


def _one_fewer(choices: tuple[Choice, ...], number: int) -> tuple[OneFewerVisit, bool]:
    """Return what one visit fewer would cost, and whether that is proven."""
    if number == 1:
        fewer: tuple[date, ...] = ()
        proven = True
    else:
        left = best_days(choices, number - 1, may_miss=True)
        fewer, proven = left.days, left.proven
    missed = (task.key for choice in choices if choice.best(fewer) is None for task in choice.tasks)
    return OneFewerVisit(fewer, tuple(sorted(missed, key=_name))), proven
