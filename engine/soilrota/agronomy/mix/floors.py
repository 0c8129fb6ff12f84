"""How much a zone gets at least, need by need; or which needs cannot be met together.

A need is met in full. It falls short only where a maximum stands in the way, by as little as rates in steps allow, and
never below the low end of its own range:

1. Where the maximum leaves no room above the need for one step of its finest product, the need may be missed by less
   than that one step.
2. Where all needs of a zone cannot be met without passing a maximum, they are taken in the order of `Input`: each gets
   what it needs or, where the others' low ends leave less, as much as can be, less one step of its finest product.
3. Where even the low ends cannot be met, there is no mix; nor where products could not meet a need if nothing limited
   them.

What falls short is said in the mix (`Supplied.amount` below `need`).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from soilrota.agronomy.mix.cases import ZoneCase
from soilrota.agronomy.mix.zone_program import is_feasible, most_of
from soilrota.model.advice import Input

#: Amounts this near are the same [unit of the need]; a milligram a hectare, a gram of lime.
SAME = 1e-6
#: Less than one step, so that an amount of whole steps is not given up for one step less [-].
_ONE_STEP = 0.999


@dataclass(frozen=True, slots=True)
class Conflict:
    """The fewest needs of a zone that cannot be met together.

    Attributes:
        case: the zone.
        inputs: of which needs.
        because: `no-product` holds the input and may go there, their `rates` are too low, or `maxima` leave no room.
    """

    case: ZoneCase
    inputs: tuple[Input, ...]
    because: str


def floors_of(case: ZoneCase) -> dict[Input, float] | Conflict:
    """Return what a zone gets at least by input [unit of the need], or the fewest needs that stand in the way."""
    needed = [input_ for input_, window in case.windows.items() if window.need > 0]
    out_of_reach = [input_ for input_ in needed if case.reach[input_] < case.windows[input_].need - SAME]
    if out_of_reach:
        # Products do not crowd each other out while no maximum is kept: one such need is a smallest set by itself.
        first = out_of_reach[0]
        return Conflict(case, (first,), "rates" if case.reach[first] > 0 else "no-product")
    floors = {input_: _met(case, input_) for input_ in needed}
    if is_feasible(case, floors):
        return floors
    lows = {input_: min(floors[input_], case.windows[input_].low) for input_ in needed}
    if not is_feasible(case, lows):
        return Conflict(case, _fewest(case, lows), "maxima")
    return _nearest(case, floors, lows)


def _met(case: ZoneCase, input_: Input) -> float:
    """Return what meets a need: all of it, or nearly, where its maximum leaves no room for a step above it."""
    window = case.windows[input_]
    finest = _finest(case, input_)
    if window.most - window.need >= finest - SAME:
        return window.need
    return max(window.low, min(window.need, window.most) - _ONE_STEP * finest)


def _finest(case: ZoneCase, input_: Input) -> float:
    """Return the least that one step of a product supplies of an input; 0 where none of its products has room."""
    return min((one.counts[input_] for one in case.choices if input_ in one.counts), default=0.0)


def _nearest(case: ZoneCase, floors: Mapping[Input, float], lows: Mapping[Input, float]) -> dict[Input, float]:
    """Return floors that can be met together, each as near to the need as those before it and the lows allow."""
    found = dict(lows)
    for input_, floor in floors.items():
        most = most_of(case, input_, found)
        found[input_] = floor if most >= floor - SAME else max(lows[input_], most - _ONE_STEP * _finest(case, input_))
    return found


def _fewest(case: ZoneCase, floors: Mapping[Input, float]) -> tuple[Input, ...]:
    """Return the smallest set of floors that cannot be met together, the first of its size in the order of `Input`."""
    inputs = list(floors)
    sets = (chosen for size in range(1, len(inputs) + 1) for chosen in combinations(inputs, size))
    return next(chosen for chosen in sets if not is_feasible(case, {one: floors[one] for one in chosen}))
