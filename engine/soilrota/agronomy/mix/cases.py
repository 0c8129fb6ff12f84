"""What a mix is made from: zones with the windows of their inputs, and the products that each may get."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor, inf

from soilrota.agronomy.mix.supply import Supply, supply_of
from soilrota.model.advice import Input, Need
from soilrota.model.products import Product, ProductList

#: A number this near to a whole one is that one [-].
_SAME = 1e-9


@dataclass(frozen=True, slots=True)
class Window:
    """How much of one input a zone is to get [unit of the need].

    Attributes:
        need: the need's amount; 0 where there is none.
        low: lower end of the need's range, under which nothing is ever rounded.
        most: never more than this; infinite where nothing limits it.
        dressings: in how many dressings it is to be spread [-].
    """

    need: float
    low: float
    most: float
    dressings: int = 1


@dataclass(frozen=True, slots=True)
class Choice:
    """A product that a zone may get: not at all, or from `lowest` to `highest` whole steps [-].

    Attributes:
        product: which.
        lowest, highest: steps of its rate [-].
        passes: in how many equal dressings it is spread [-].
        step_kg_ha: a step, all dressings together [kg/ha].
        counts, whole: what one step supplies towards needs, and of what maxima are held against [unit of the need].
    """

    product: Product
    lowest: int
    highest: int
    passes: int
    step_kg_ha: float
    counts: Mapping[Input, float]
    whole: Mapping[Input, float]


@dataclass(frozen=True, slots=True)
class ZoneCase:
    """A zone that has needs.

    Attributes:
        zone: id.
        area_ha: area [ha].
        windows: by input, every input.
        choices: what may be spread on it, by product id.
        reach: what all products together could supply if no maximum were kept [unit of the need].
    """

    zone: str
    area_ha: float
    windows: Mapping[Input, Window]
    choices: tuple[Choice, ...]
    reach: Mapping[Input, float]


def zone_cases(
    needs: Sequence[Need],
    areas: Mapping[str, float],
    products: ProductList,
    land_uses: Mapping[str, str],
    *,
    beyond: Mapping[Input, float],
    effectiveness: Mapping[str, float],
    available: Mapping[tuple[str, Input], float],
) -> tuple[ZoneCase, ...]:
    """Return the zones that have needs, by id.

    Args:
        needs: of one farm, at most one a zone and input.
        areas: area by zone [ha].
        products: what can be bought.
        land_uses: by zone.
        beyond: what may be supplied beyond a need without a maximum, by input [unit of the need].
        effectiveness: as `supply_of` takes it.
        available: as `supply_of` takes it.

    Raises:
        ValueError: two needs are of the same zone and input, or a zone has no area.
    """
    by_zone: defaultdict[str, dict[Input, Need]] = defaultdict(dict)
    for need in needs:
        if by_zone[need.zone].setdefault(need.input, need) is not need:
            raise ValueError(f"two needs of {need.input} for zone {need.zone}")
        if areas[need.zone] <= 0:
            raise ValueError(f"zone {need.zone} has no area")
    supplies = {
        product.id: supply_of(product, effectiveness, available) for _, product in sorted(products.products.items())
    }
    cases = []
    for zone in sorted(by_zone):
        windows = {input_: _window(input_, by_zone[zone].get(input_), beyond) for input_ in Input}
        free = [
            choice
            for id_, supply in supplies.items()
            if _may_go_on(products.products[id_], land_uses[zone])
            and (choice := _choice(products.products[id_], supply, windows)) is not None
        ]
        reach = {input_: sum(one.highest * one.counts.get(input_, 0.0) for one in free) for input_ in Input}
        choices = (_within(choice, windows) for choice in free)
        cases.append(ZoneCase(zone, areas[zone], windows, tuple(one for one in choices if one is not None), reach))
    return tuple(cases)


def _window(input_: Input, need: Need | None, beyond: Mapping[Input, float]) -> Window:
    """Return the window of an input; one that nobody reckoned counts as not needed."""
    amount, low = (need.amount, min(need.low, need.amount)) if need else (0.0, 0.0)
    dressings = max(len(need.split), 1) if need else 1
    if need and need.caps:
        return Window(amount, low, min(cap.amount for cap in need.caps), dressings)
    return Window(amount, low, amount + beyond.get(input_, inf), dressings)


def _may_go_on(product: Product, land_use: str) -> bool:
    """Return whether a product may go on land of that use."""
    return not product.land_uses or land_use in product.land_uses


def _choice(product: Product, supply: Mapping[Input, Supply], windows: Mapping[Input, Window]) -> Choice | None:
    """Return what a zone may get of a product where maxima are left aside; None where it meets no need.

    A product is spread in as many dressings as the least divided of the needs that it serves.
    """
    served = [input_ for input_, one in supply.items() if one.counts > 0 and windows[input_].need > 0]
    lowest = max(ceil(product.least_kg_ha / product.step_kg_ha - _SAME), 1)
    highest = floor(product.most_kg_ha / product.step_kg_ha + _SAME)
    if not served or lowest > highest:
        return None
    passes = min(windows[input_].dressings for input_ in served)
    step = passes * product.step_kg_ha
    counts = {input_: one.counts * step for input_, one in supply.items() if one.counts > 0}
    whole = {input_: one.whole * step for input_, one in supply.items()}
    return Choice(product, lowest, highest, passes, step, counts, whole)


def _within(choice: Choice, windows: Mapping[Input, Window]) -> Choice | None:
    """Return a choice whose highest step is as low as it can be; None where any of it were too much.

    By itself it passes no maximum, and it goes no higher than what meets each of its needs alone: more only costs more.
    """
    highest = choice.highest
    for input_, one in choice.whole.items():
        if windows[input_].most < inf:
            highest = min(highest, floor(windows[input_].most / one + _SAME))
    enough = max(ceil(windows[input_].need / one - _SAME) for input_, one in choice.counts.items())
    highest = min(highest, max(enough, choice.lowest))
    return replace(choice, highest=highest) if choice.lowest <= highest else None
