"""Part of a calendar as a model: every set of visits that fits a person's day is one choice, with its exact driving.

Set partitioning: each person and day takes at most one choice, each visit lies in one chosen choice or goes without a
day. (The form in which vehicle routes have been chosen since Balinski, M. L. and Quandt, R. E. (1964), On an integer
program for a delivery problem, Operations Research 12(2), 300-304.)
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Frame, Slot
from soilrota.timing.solver import solve


@dataclass(frozen=True, slots=True)
class Choice:
    """A set of visits for one person and day: points of the visits that day, driving [min]."""

    slot: Slot
    visits: tuple[int, ...]
    points: int
    travel: int


@dataclass(frozen=True, slots=True)
class Weights:
    """What makes one number of a score, so that it compares like the score: cost of one unplaced unit, of one point."""

    unplaced: int
    point: int


@dataclass(frozen=True, slots=True)
class Part:
    """Some persons and days of a draft, and visits that may lie there: those there now, and some without a day."""

    slots: tuple[Slot, ...]
    visits: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of solving a part: the choices taken, whether proven best, the bound of the cost, time spent [-]."""

    chosen: tuple[Choice, ...]
    proven: bool
    bound: int
    spent: float


def part_of(draft: Draft, slots: Iterable[Slot], waiting: Iterable[int]) -> Part:
    """Return the part of a draft made of some persons and days, and of some visits without a day.

    Persons and days that a long visit has for itself are left out.
    """
    free = tuple(sorted(slot for slot in set(slots) if slot not in draft.blocked))
    there = [visit for slot in free for visit in draft.slots.get(slot, ())]
    return Part(free, tuple(sorted([*there, *waiting])))


def choices_of(frame: Frame, part: Part, most: int) -> tuple[Choice, ...] | None:
    """Return every choice of a part; None where there are more than `most`."""
    days: dict[int, int] = defaultdict(int)
    for person, day in part.slots:
        days[person] |= 1 << day
    found: list[Choice] = []
    for person, mask in days.items():
        for visits, common in _sets(frame, person, part.visits, mask):
            travel = frame.roads.round_minutes(person, visits)
            for day in _bits(common):
                points = sum(frame.points[visit][day] for visit in visits)
                found.append(Choice((person, day), visits, points, travel))
            if len(found) > most:
                return None
    return tuple(found)


def weights_of(frame: Frame, part: Part) -> Weights:
    """Return the weights of a part: one point outweighs all driving, one unit without a day outweighs all points."""
    point = 1 + sum(frame.people[person].minutes_a_day for person, _ in part.slots)
    return Weights(point * (1 + sum(max(frame.points[visit].values(), default=0) for visit in part.visits)), point)


def solve_part(draft: Draft, part: Part, choices: Sequence[Choice], limit: float, seed: int) -> Outcome:
    """Return the best choices of a part that are found, starting from the draft's own.

    Args:
        draft: where the part comes from.
        part: persons, days and visits.
        choices: all choices that may be taken.
        limit: deterministic time at most [-].
        seed: random seed of the search.
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415  # loaded only where something is to be solved

    model, weights = cp_model.CpModel(), weights_of(draft.frame, part)
    taken = [model.new_bool_var("") for _ in choices]
    waits = {visit: model.new_bool_var("") for visit in part.visits}
    by_slot, by_visit = defaultdict(list), defaultdict(list)
    for choice, variable in zip(choices, taken, strict=True):
        by_slot[choice.slot].append(variable)
        for visit in choice.visits:
            by_visit[visit].append(variable)
        model.add_hint(variable, draft.slots.get(choice.slot) == choice.visits)
    for variables in by_slot.values():
        model.add_at_most_one(variables)
    for visit, waiting in waits.items():
        model.add_exactly_one([*by_visit[visit], waiting])
        model.add_hint(waiting, visit not in draft.home)
    costs = [weights.point * choice.points + choice.travel for choice in choices]
    penalties = [weights.unplaced * draft.frame.visits[visit].priority for visit in waits]
    model.minimize(cp_model.LinearExpr.weighted_sum([*taken, *waits.values()], [*costs, *penalties]))
    solution = solve(model, limit, seed, cp_model_presolve=False)
    chosen = (
        tuple(choice for choice, one in zip(choices, taken, strict=True) if solution.solver.boolean_value(one))
        if solution.found
        else ()
    )
    bound = round(solution.solver.best_objective_bound)
    return Outcome(chosen, solution.found and solution.proven, bound, solution.spent)


def cost_of(frame: Frame, part: Part, choices: Iterable[Choice]) -> int:
    """Return the cost of some choices of a part: the number that its model makes small."""
    weights = weights_of(frame, part)
    left = set(part.visits)
    cost = 0
    for choice in choices:
        left.difference_update(choice.visits)
        cost += weights.point * choice.points + choice.travel
    return cost + weights.unplaced * sum(frame.visits[visit].priority for visit in left)


def choices_now(draft: Draft, part: Part) -> tuple[Choice, ...]:
    """Return the choices that the draft has taken in a part."""
    frame = draft.frame
    return tuple(
        Choice(slot, visits, sum(frame.points[visit][slot[1]] for visit in visits), draft.travel(slot))
        for slot in part.slots
        if (visits := draft.slots.get(slot, ()))
    )


def take(draft: Draft, part: Part, choices: Iterable[Choice]) -> None:
    """Put the choices in the place of what the draft has in a part."""
    for slot in part.slots:
        draft.put(slot, ())
    for choice in choices:
        draft.put(choice.slot, choice.visits)


def _sets(frame: Frame, person: int, visits: tuple[int, ...], days: int) -> Iterable[tuple[tuple[int, ...], int]]:
    """Yield every set of visits that fits one day of a person, with the days (bits) on which all of them are open.

    Driving obeys the triangle inequality, so a set that does not fit is in no set that does.
    """
    most = frame.people[person].minutes_a_day
    candidates = [visit for visit in visits if person in frame.able[visit] and frame.open[visit] & days]
    waiting: list[tuple[tuple[int, ...], int, int, int]] = [((), 0, days, 0)]
    while waiting:
        chosen, work, common, start = waiting.pop()
        for position in range(start, len(candidates)):
            visit = candidates[position]
            shared = common & frame.open[visit]
            total = work + frame.visits[visit].minutes
            if not shared or total + frame.roads.there_and_back(person, visit) > most:
                continue
            longer = (*chosen, visit)
            if total + frame.roads.round_minutes(person, longer) > most:
                continue
            yield longer, shared
            if len(longer) < frame.rules.most_farms_a_day:
                waiting.append((longer, total, shared, position + 1))


def _bits(mask: int) -> Iterable[int]:
    """Yield the numbers of the bits that are set."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest
