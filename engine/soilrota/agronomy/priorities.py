"""What to do first: actions by expected worth, and what a small budget should do.

An action is a need of a zone. Its cost is its share of the bill: what the zone's spreadings cost, calls shared over the
zones by that cost, parted among the zone's needs by what each adds to the bill (evenly where that was not asked, or
nothing adds). The shares add up to the bill. What is done alone may cost more than its share, because passes and calls
are shared: the mix of what is chosen is to be reckoned again.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from soilrota.model.advice import Input, Need, Priority, ProductMix
from soilrota.model.findings import Fact

_CENTS = 100
_INPUTS = list(Input)


def priorities(
    needs: Sequence[Need], mix: ProductMix, values: Mapping[tuple[str, str, Input], float]
) -> tuple[Priority, ...]:
    """Return the actions of a farm by expected worth, the best first; equal ones by zone and input.

    Worth is `(probability x value at stake - cost) x area`. A need of nought, without a probability of response, or
    without a value at stake is not ranked.

    Args:
        needs: needs; those of other farms are left out.
        mix: the farm's mix.
        values: value of the response by (farm, zone, input) [currency/ha].
    """
    wanted = [need for need in needs if need.farm == mix.farm and need.amount > 0]
    costs, shared = _costs(wanted, mix)
    areas = {one.zone: one.area_ha for one in mix.spreadings}
    found = []
    for need in wanted:
        at_stake = values.get((need.farm, need.zone, need.input))
        if need.probability is None or at_stake is None or need.zone not in areas:
            continue
        area = areas[need.zone]
        cost = costs[need.zone, need.input] / area
        worth = (need.probability * at_stake - cost) * area
        facts: dict[str, Fact] = {"shared": shared[need.zone], "bill": mix.cost, "cost_of_action": cost * area}
        found.append(
            Priority(
                need.farm, need.zone, need.input, need.probability, at_stake, cost, area, worth, rank=0, facts=facts
            )
        )
    found.sort(key=lambda one: (-one.worth, one.zone, _INPUTS.index(one.input)))
    return tuple(replace(one, rank=rank) for rank, one in enumerate(found, start=1))


def _costs(needs: Sequence[Need], mix: ProductMix) -> tuple[dict[tuple[str, Input], float], dict[str, str]]:
    """Return the share of the bill of each need [currency], and by zone whether it was shared `by-adds` or `evenly`."""
    spent: defaultdict[str, float] = defaultdict(float)
    for one in mix.spreadings:
        spent[one.zone] += one.cost
    spread = sum(spent.values())
    with_calls = mix.cost / spread if spread > 0 else 0.0
    adds = {(one.zone, one.input): one.adds for one in mix.requirements}
    by_zone: defaultdict[str, list[Input]] = defaultdict(list)
    for need in needs:
        by_zone[need.zone].append(need.input)
    costs, shared = {}, {}
    for zone, inputs in by_zone.items():
        total = sum(adds.get((zone, input_), 0.0) for input_ in inputs)
        is_known = total > 0 and all((zone, input_) in adds for input_ in inputs)
        shared[zone] = "by-adds" if is_known else "evenly"
        for input_ in inputs:
            share = adds[zone, input_] / total if is_known else 1 / len(inputs)
            costs[zone, input_] = spent[zone] * with_calls * share
    return costs, shared


@dataclass(frozen=True, slots=True)
class _Part:
    """A choice among the first actions: what it costs and is worth in whole cents, and which actions it takes."""

    cents: int
    worth: int
    taken: tuple[int, ...]


def within_budget(ranked: Sequence[Priority], budget: float) -> tuple[Priority, ...]:
    """Return the actions that a budget should pay for: the most worth together, in the order of rank.

    The 0/1 knapsack on whole cents, exactly, by dynamic programming: action by action the parts that no cheaper part
    is worth as much as, without those that even fractions of the actions still to come could not raise above the best.

    Args:
        ranked: actions with their costs, as `priorities` gives them.
        budget: what may be spent [currency].
    """
    room = int(budget * _CENTS + 1e-6)
    actions = [
        (cents, worth, number)
        for number, one in enumerate(ranked)
        if (worth := round(one.worth * _CENTS)) > 0 and (cents := _cents(one)) <= room
    ]
    actions.sort(key=lambda item: (-(item[1] / item[0]) if item[0] else float("-inf"), item[2]))
    bound = _Bound([(cents, worth) for cents, worth, _ in actions], room)
    parts = [_Part(0, 0, ())]
    best = parts[0]
    for index, (cents, worth, number) in enumerate(actions):
        more = [
            _Part(part.cents + cents, part.worth + worth, (*part.taken, number))
            for part in parts
            if part.cents + cents <= room
        ]
        best = max([best, *more], key=lambda part: (part.worth, -part.cents))
        parts = [part for part in _undominated(parts + more) if part.worth + bound(index + 1, part.cents) > best.worth]
    return tuple(ranked[number] for number in sorted(best.taken))


def _cents(one: Priority) -> int:
    """Return what an action costs, in whole cents, a begun one counted whole."""
    return -int(-(one.cost * one.area_ha * _CENTS - 1e-6) // 1)


def _undominated(parts: list[_Part]) -> list[_Part]:
    """Return the parts, by cost, that are worth more than every cheaper one."""
    kept: list[_Part] = []
    for part in sorted(parts, key=lambda one: (one.cents, -one.worth)):
        if not kept or part.worth > kept[-1].worth:
            kept.append(part)
    return kept


class _Bound:
    """The most that actions still to come can add, fractions allowed: never too low."""

    def __init__(self, actions: Sequence[tuple[int, int]], room: int) -> None:
        self._actions = actions
        self._room = room
        self._cents = [0, *accumulate(cents for cents, _ in actions)]
        self._worth = [0, *accumulate(worth for _, worth in actions)]

    def __call__(self, first: int, spent: int) -> float:
        """Return it for the actions from `first` on, by falling worth a cent, after so much was spent [cent]."""
        left = self._room - spent
        last = bisect_right(self._cents, self._cents[first] + left) - 1
        whole = self._worth[last] - self._worth[first]
        if last == len(self._actions):
            return float(whole)
        cents, worth = self._actions[last]
        return whole + worth * (left - (self._cents[last] - self._cents[first])) / cents + 1e-6
