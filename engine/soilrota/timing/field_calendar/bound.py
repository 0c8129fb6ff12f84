"""What no calendar can beat: a model that leaves out enough to be solved for the whole season at once."""

from __future__ import annotations

from collections import Counter, defaultdict
from itertools import accumulate
from typing import TYPE_CHECKING

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Frame, Slot
from soilrota.timing.field_calendar.greedy import may_split
from soilrota.timing.solver import solve

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

#: Days are also counted in halves, thirds, quarters and fifths.
_FRACTIONS = (2, 3, 4, 5)
#: Days with many points are not modelled one by one where that would make more choices than this.
_MOST_CHOICES = 40_000


def least_points(draft: Draft, limit: float, seed: int) -> tuple[int, bool]:
    """Return points that no calendar can beat, and whether days with many points were simplified to find them.

    The points have `unplaced_points` for every unit of priority without a day.

    Every calendar is a solution of the model, so the model's bound holds for every calendar: a visit takes at least
    `share_of_day` of a person's day, long visits take no time, and in a large calendar days with many points count the
    fewest such points and take no time.

    Args:
        draft: a plan, as a first solution.
        limit: deterministic time at most [-].
        seed: random seed of the search.
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    frame = draft.frame
    model = cp_model.CpModel()
    radius = _radius(frame)
    goes: dict[Slot, list[tuple[int, cp_model.IntVar]]] = defaultdict(list)
    terms: list[cp_model.IntVar] = []
    costs: list[int] = []
    for visit, able in enumerate(frame.able):
        options = _options(model, draft, visit, radius) if able else []
        for slot, variable, cost in options:
            terms.append(variable)
            costs.append(cost)
            if slot is not None:
                goes[slot].append((visit, variable))
    for slot, there in goes.items():
        _limit_day(model, frame, slot[0], there)
    model.minimize(cp_model.LinearExpr.weighted_sum(terms, costs))
    solution = solve(model, limit, seed, cp_model_presolve=False)
    fixed = sum(_without_time(frame, visit) for visit, able in enumerate(frame.able) if not able)
    cut = any(points > radius for visit in range(len(frame.visits)) for _, points in _usable(frame, visit))
    return fixed + max(0, round(solution.solver.best_objective_bound)), cut


def share_of_day(frame: Frame, person: int, visit: int) -> tuple[int, int]:
    """Return the least share of a person's day that a visit takes, as numerator and denominator [min].

    Work of `w` minutes takes `w / (day - d)`, `d` being the way to the farm and back. A round is never shorter than the
    `d` of any of its farms, so the work of a day is at most the day less its longest `d`: the shares of one day add up
    to 1 at most.
    """
    left = frame.people[person].minutes_a_day - frame.roads.there_and_back(person, visit)
    return frame.visits[visit].minutes, max(left, 1)


def _usable(frame: Frame, visit: int) -> list[tuple[Slot, int]]:
    """Return every person and day that can have a visit by itself, with its points."""
    return [
        ((person, day), points)
        for day, points in frame.points[visit].items()
        for person in frame.able[visit]
        if day in frame.at_work[person]
    ]


def _radius(frame: Frame) -> int:
    """Return the most points of a day that is modelled: all of them, or as many as keep the model small; 0 at least."""
    numbers = Counter(points for visit in range(len(frame.visits)) for _, points in _usable(frame, visit))
    levels = sorted(numbers)
    sums = accumulate(numbers[points] for points in levels)
    return max((points for points, total in zip(levels, sums, strict=True) if total <= _MOST_CHOICES), default=0)


def _options(
    model: cp_model.CpModel, draft: Draft, visit: int, radius: int
) -> list[tuple[Slot | None, cp_model.IntVar, int]]:
    """Return persons and days of a visit, their variables and points; None is every day with many points, or no day."""
    frame = draft.frame
    usable = _usable(frame, visit)
    without_day = frame.unplaced_points * frame.visits[visit].priority
    leaving = min((points for _, points in usable if points > radius), default=without_day)
    chosen = draft.home.get(visit)
    choices: list[tuple[Slot | None, int]] = [pair for pair in usable if pair[1] <= radius]
    nearby = any(slot == chosen for slot, _ in choices)
    options = [(slot, model.new_bool_var(""), points) for slot, points in [*choices, (None, leaving)]]
    for slot, variable, _ in options:
        model.add_hint(variable, slot == (chosen if nearby else None))
    model.add_exactly_one(variable for _, variable, _ in options)
    return options


def _limit_day(model: cp_model.CpModel, frame: Frame, person: int, there: list[tuple[int, cp_model.IntVar]]) -> None:
    """Let no more go to a person's day than it can hold: minutes, farms, and fractions of the day.

    Of shares that add up to 1 at most, fewer than `n` can be counted where each counts its `n`-fold, rounded up, less
    1: every count is less than the `n`-fold, and whole. (The idea of dual feasible functions: Lueker, G. S. (1983), Bin
    packing with items uniformly distributed over intervals [a, b], 24th Annual Symposium on Foundations of Computer
    Science, 289-297.)
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    minutes = frame.people[person].minutes_a_day
    variables = [variable for _, variable in there]
    shares = [share_of_day(frame, person, visit) for visit, _ in there]
    model.add(cp_model.LinearExpr.weighted_sum(variables, [minutes * work // left for work, left in shares]) <= minutes)
    model.add(cp_model.LinearExpr.sum(variables) <= frame.rules.most_farms_a_day)
    for parts in _FRACTIONS:
        counts = [max(0, parts * work - 1) // left for work, left in shares]
        if any(counts):
            model.add(cp_model.LinearExpr.weighted_sum(variables, counts) <= parts - 1)


def _without_time(frame: Frame, visit: int) -> int:
    """Return the fewest points of a long visit, or those of going without a day where nobody may make it."""
    points = frame.points[visit]
    if points and may_split(frame, visit):
        return min(points.values())
    return frame.unplaced_points * frame.visits[visit].priority
