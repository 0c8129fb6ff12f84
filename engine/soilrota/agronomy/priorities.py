"""What to do first: actions by expected worth, and what a small budget should do.

An action is a need of a zone. Its cost is its share of the bill: what the zone's spreadings cost, calls shared over the
zones by that cost, parted among the zone's needs by what each adds to the bill (evenly where that was not asked, or
nothing adds). The shares add up to the bill. What is done alone may cost more than its share, because passes and calls
are shared: the mix of what is chosen is to be reckoned again.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from heapq import merge
from itertools import accumulate
from typing import NamedTuple

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


class _Part(NamedTuple):
    """A choice among the first actions: its cost and worth in whole cents, and a bit for each action that it takes."""

    cents: int
    worth: int
    taken: int


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
    rest = _Rest([(cents, worth) for cents, worth, _ in actions], room)
    parts = [_Part(0, 0, 0)]
    best = _Part(0, 0, 0)
    for index, (cents, worth, _) in enumerate(actions):
        more = [
            _Part(part.cents + cents, part.worth + worth, part.taken | 1 << index)
            for part in parts
            if part.cents + cents <= room
        ]
        open_: list[tuple[float, _Part]] = []
        for part in _undominated(parts, more):
            filled, at_most = rest.filled(index + 1, part)
            best = max(best, filled, key=lambda one: (one.worth, -one.cents))
            open_.append((at_most, part))
        parts = [part for at_most, part in open_ if at_most > best.worth]
    taken = (number for index, (_, _, number) in enumerate(actions) if best.taken >> index & 1)
    return tuple(ranked[number] for number in sorted(taken))


def _cents(one: Priority) -> int:
    """Return what an action costs, in whole cents, a begun one counted whole."""
    return -int(-(one.cost * one.area_ha * _CENTS - 1e-6) // 1)


def _undominated(parts: list[_Part], more: list[_Part]) -> Iterator[_Part]:
    """Yield the parts of two lists, both by cost, that are worth more than every cheaper one, by cost."""
    worth = -1
    for part in merge(parts, more, key=lambda one: (one.cents, -one.worth)):
        if part.worth > worth:
            worth = part.worth
            yield part


class _Rest:
    """What the actions still to come can add to a part, by falling worth a cent."""

    def __init__(self, actions: Sequence[tuple[int, int]], room: int) -> None:
        self._actions = actions
        self._room = room
        self._cents = [0, *accumulate(cents for cents, _ in actions)]
        self._worth = [0, *accumulate(worth for _, worth in actions)]

    def filled(self, first: int, part: _Part) -> tuple[_Part, float]:
        """Return a part filled up with the actions from `first` on while they fit, and the most it could be worth.

        The most counts a fraction of the first action that does not fit: it is never too low.
        """
        last = bisect_right(self._cents, self._cents[first] + self._room - part.cents) - 1
        added = self._cents[last] - self._cents[first]
        run = (1 << last) - (1 << first)
        filled = _Part(part.cents + added, part.worth + self._worth[last] - self._worth[first], part.taken | run)
        if last == len(self._actions):
            return filled, float(filled.worth)
        cents, worth = self._actions[last]
        return filled, filled.worth + worth * (self._room - filled.cents) / cents
