"""The days of a farm's visits: the fewest, the best of so many, tasks that need so many. Solved exactly."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from soilrota.timing.solver import solve
from soilrota.timing.visit_choices import Choice

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

_LIMIT = 60.0
_Days = dict[date, "cp_model.IntVar"]


@dataclass(frozen=True, slots=True)
class ChosenDays:
    """Days of visits, in order; total penalty of the tasks that have one; whether that is proven best."""

    days: tuple[date, ...]
    penalty: int
    proven: bool


def fewest_visits(choices: tuple[Choice, ...]) -> tuple[int, bool]:
    """Return the fewest days such that every choice can use one of them, and whether that is proven."""
    if not choices:
        return 0, True
    if set.intersection(*(set(choice.penalties) for choice in choices)):
        return 1, True
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    model = cp_model.CpModel()
    days = _day_variables(model, choices)
    for choice in choices:
        model.add_bool_or(days[day] for day in choice.penalties)
    model.minimize(sum(days.values()))
    solution = solve(model, _LIMIT)
    return round(solution.solver.objective_value), solution.proven


def best_days(choices: tuple[Choice, ...], number: int, *, may_miss: bool = False) -> ChosenDays:
    """Return the days of at most `number` visits with the least total penalty; of equal ones the earliest on the whole.

    Args:
        choices: what is to be visited; with `may_miss` False, `number` visits must be enough for all.
        number: visits at most [-].
        may_miss: whether tasks may go without a visit: as few as possible, then the smallest penalty.
    """
    if number == 1 and not may_miss:
        return _best_single(choices)
    model, days, cost = _model(choices, number, may_miss=may_miss)
    # Days counted from the first break ties: all of them together weigh less than one unit of penalty.
    positions = {day: position for position, day in enumerate(days, start=1)}
    model.minimize((1 + len(days) * number) * cost + sum(positions[day] * variable for day, variable in days.items()))
    solution = solve(model, _LIMIT)
    chosen = tuple(day for day, variable in days.items() if solution.solver.boolean_value(variable))
    return ChosenDays(chosen, total_penalty(choices, chosen), solution.proven)


def total_penalty(choices: tuple[Choice, ...], days: tuple[date, ...]) -> int:
    """Return the penalty of all tasks that can use one of the days, each on its best."""
    found = [(choice, choice.best(days)) for choice in choices]
    return sum(len(choice.tasks) * choice.penalties[day] for choice, day in found if day is not None)


def witness(choices: tuple[Choice, ...], number: int) -> tuple[tuple[Choice, ...], bool]:
    """Return choices that need `number` visits by themselves, and whether no two of them share a day.

    So many choices of which no two share a day are enough; where there are none, choices are taken out one by one as
    long as the rest needs as many visits.
    """
    apart = _apart(choices)
    if len(apart) == number:
        return apart, True
    kept = list(choices)
    for choice in choices:
        rest = tuple(other for other in kept if other is not choice)
        if fewest_visits(rest)[0] >= number:
            kept = list(rest)
    return tuple(kept), False


def _best_single(choices: tuple[Choice, ...]) -> ChosenDays:
    """Return the best day that all choices can use."""
    common = set.intersection(*(set(choice.penalties) for choice in choices))
    day = min(common, key=lambda one: (total_penalty(choices, (one,)), one))
    return ChosenDays((day,), total_penalty(choices, (day,)), proven=True)


def _day_variables(model: cp_model.CpModel, choices: tuple[Choice, ...]) -> _Days:
    """Return one yes-or-no variable for each day that a choice can use, in order of day."""
    days = sorted({day for choice in choices for day in choice.penalties})
    return {day: model.new_bool_var(day.isoformat()) for day in days}


def _model(
    choices: tuple[Choice, ...], number: int, *, may_miss: bool
) -> tuple[cp_model.CpModel, _Days, cp_model.LinearExpr]:
    """Return the model of at most `number` days, its days and its cost: every choice goes to one chosen day."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    model = cp_model.CpModel()
    days = _day_variables(model, choices)
    model.add(sum(days.values()) <= number)
    missing = 1 + sum(len(choice.tasks) * max(choice.penalties.values()) for choice in choices)
    terms = []
    for index, choice in enumerate(choices):
        goes = {day: model.new_bool_var(f"{index} {day}") for day in choice.penalties}
        for day, variable in goes.items():
            model.add_implication(variable, days[day])
        missed = [model.new_bool_var(f"{index} missed")] if may_miss else []
        model.add_exactly_one([*goes.values(), *missed])
        terms += [len(choice.tasks) * choice.penalties[day] * variable for day, variable in goes.items()]
        terms += [len(choice.tasks) * missing * variable for variable in missed]
    return model, days, cp_model.LinearExpr.sum(terms)


def _apart(choices: tuple[Choice, ...]) -> tuple[Choice, ...]:
    """Return as many choices as possible of which no two share a day."""
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    model = cp_model.CpModel()
    taken = [model.new_bool_var(str(index)) for index in range(len(choices))]
    for day in sorted({day for choice in choices for day in choice.penalties}):
        model.add_at_most_one(taken[index] for index, choice in enumerate(choices) if day in choice.penalties)
    model.maximize(sum(taken))
    solution = solve(model, _LIMIT)
    return tuple(choice for choice, one in zip(choices, taken, strict=True) if solution.solver.boolean_value(one))
