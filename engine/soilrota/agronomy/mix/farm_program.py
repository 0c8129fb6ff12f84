"""The whole farm: which product at which rate on which zone, in whole packs, at the least cost.

Integer programme. Zone z, product p: steps n[z,p] (whole, 0 or from lowest to highest), spread u[z,p] (0 or 1); product
on the farm y[p] (0 or 1), whole packs k[p]. Least sum of products, passes and calls. Three things make it quick, and
none changes the answer: rates no higher than a need can ask for (`cases`), the cover rows of `zone_program`, and that
no zone costs less than it does by itself with packs and calls left aside, nor less than that without a product that
it is not given.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

from soilrota.agronomy.mix.cases import Choice, ZoneCase
from soilrota.agronomy.mix.rows import Rows
from soilrota.agronomy.mix.zone_program import Alone, Columns, add_zone, costs_a_hectare
from soilrota.model.advice import Input
from soilrota.model.products import Product, ProductList

#: Mixes nearer than this in cost are the same cost: then fewer products win, then those that stand first by id.
_TIE = 0.01
_KG_A_TONNE = 1000.0
#: How far a zone's own least cost is lowered, so that rounding never cuts the answer off [currency/ha].
_ROUNDING = 1e-3
#: Packs that lack no more than a gram are enough [kg]: nobody weighs it, and rounding stays below it.
_SAME_KG = 1e-3

#: Steps of a rate by (zone, product), those that are spread.
Steps = Mapping[tuple[str, str], int]


@dataclass(frozen=True, slots=True)
class FarmCase:
    """A farm whose needs can be met.

    Attributes:
        cases: zones, by id.
        floors: what each zone gets at least, by input [unit of the need].
        alone: the cheapest way for each zone by itself.
        products: what can be bought.
    """

    cases: tuple[ZoneCase, ...]
    floors: Mapping[str, Mapping[Input, float]]
    alone: Mapping[str, Alone]
    products: ProductList


@dataclass(frozen=True, slots=True)
class FarmAnswer:
    """What is spread, and whether it is proven that no mix is cheaper."""

    steps: Steps
    proven: bool


@dataclass(frozen=True, slots=True)
class Bill:
    """What a mix costs [currency], and what is bought by product [t]."""

    products: float
    passes: float
    calls: float
    bought_t: Mapping[str, float]

    @property
    def total(self) -> float:
        """Return the whole bill [currency]."""
        return self.products + self.passes + self.calls


def solve_farm(farm: FarmCase, nodes: int, without_one_of: Collection[str] = ()) -> FarmAnswer | None:
    """Return the cheapest mix of a farm; None where there is none, or none was found within the limit.

    Args:
        farm: its zones, needs and prices.
        nodes: stop after so many nodes of the search tree [-].
        without_one_of: the mix does without at least one of these products; empty for any mix.
    """
    rows = Rows()
    products = farm.products
    used = sorted({choice.product.id for case in farm.cases for choice in case.choices})
    places: list[tuple[ZoneCase, Choice, Columns]] = []
    for case in farm.cases:
        pairs = _add_case(rows, case, farm)
        places += [(case, choice, pair) for choice, pair in zip(case.choices, pairs, strict=True)]
    calls = {}
    for rank, id_ in enumerate(used):
        mine = [place for place in places if place[1].product.id == id_]
        calls[id_] = rows.column(products.call_price + _tie(rank, len(used)), 1)
        rows.row([*((pair.used, 1.0) for _, _, pair in mine), (calls[id_], -1.0)], low=0)
        for _, _, pair in mine:
            rows.row([(pair.used, 1.0), (calls[id_], -1.0)], high=0)
        if products.products[id_].pack_kg > 0:
            _add_packs(rows, products.products[id_], mine)
    if without_one_of:
        rows.row([(calls[id_], 1.0) for id_ in used if id_ in without_one_of], high=len(without_one_of) - 1)
    answer = rows.solve(nodes)
    if answer is None:
        return None
    steps = {
        (case.zone, choice.product.id): answer.values[pair.steps]
        for case, choice, pair in places
        if answer.values[pair.steps]
    }
    return FarmAnswer(steps, answer.proven)


def _add_case(rows: Rows, case: ZoneCase, farm: FarmCase) -> tuple[Columns, ...]:
    """Add a zone with its costs over its area, and that it costs no less than by itself."""
    a_hectare = costs_a_hectare(case, farm.products.pass_price_ha)
    # What comes in packs is paid by the pack.
    costs = {
        one.product.id: (
            0.0 if one.product.pack_kg > 0 else a_hectare[one.product.id][0] * case.area_ha,
            a_hectare[one.product.id][1] * case.area_ha,
        )
        for one in case.choices
    }
    pairs = add_zone(rows, case, farm.floors[case.zone], costs)
    _add_least(rows, case, pairs, a_hectare, farm.alone[case.zone])
    return pairs


def _add_least(
    rows: Rows,
    case: ZoneCase,
    pairs: Sequence[Columns],
    costs: Mapping[str, tuple[float, float]],
    alone: Alone,
) -> None:
    """Add that a zone costs no less than by itself, nor less than that without a product which it is not given."""
    if alone.cost <= _ROUNDING:
        return
    placed = list(zip(case.choices, pairs, strict=True))
    spent = {pair.steps: costs[one.product.id][0] for one, pair in placed}
    spent |= {pair.used: costs[one.product.id][1] for one, pair in placed}
    rows.row(spent.items(), low=alone.cost - _ROUNDING)
    for one, pair in placed:
        if one.product.id not in alone.without:
            continue
        otherwise = alone.without[one.product.id]
        if otherwise is None:
            rows.row([(pair.used, 1.0)], low=1)
        elif otherwise - alone.cost > _ROUNDING:
            saved = {**spent, pair.used: spent[pair.used] + otherwise - alone.cost}
            rows.row(saved.items(), low=otherwise - _ROUNDING)


def _add_packs(rows: Rows, product: Product, places: Sequence[tuple[ZoneCase, Choice, Columns]]) -> None:
    """Add whole packs of a product that hold all that is spread of it."""
    spread = [(pair.steps, case.area_ha * choice.step_kg_ha) for case, choice, pair in places]
    most = sum(case.area_ha * choice.step_kg_ha * choice.highest for case, choice, _ in places)
    packs = rows.column(product.price_per_t * product.pack_kg / _KG_A_TONNE, ceil(most / product.pack_kg))
    rows.row([(packs, product.pack_kg), *((column, -kg) for column, kg in spread)], low=0)


def _tie(rank: int, number: int) -> float:
    """Return what a product costs for ties' sake [currency]: all together less than `_TIE`, later ids a little more."""
    return _TIE / (2 * number) * (1 + (rank + 1) / ((number + 1) * number))


def bill_of(cases: Sequence[ZoneCase], steps: Steps, products: ProductList) -> Bill:
    """Return what a mix costs: whole packs of each product, a pass a zone, product and dressing, a call a product."""
    spread: dict[str, float] = {}
    passes = 0.0
    for case in cases:
        for choice in case.choices:
            number = steps.get((case.zone, choice.product.id), 0)
            if number:
                kg = number * choice.step_kg_ha * case.area_ha
                spread[choice.product.id] = spread.get(choice.product.id, 0.0) + kg
                passes += choice.passes * products.pass_price_ha * case.area_ha
    bought = {id_: _bought_kg(products.products[id_], kg) / _KG_A_TONNE for id_, kg in sorted(spread.items())}
    paid = sum(products.products[id_].price_per_t * tonnes for id_, tonnes in bought.items())
    return Bill(paid, passes, products.call_price * len(bought), bought)


def _bought_kg(product: Product, kg: float) -> float:
    """Return what must be bought to spread so much [kg]."""
    return ceil((kg - _SAME_KG) / product.pack_kg) * product.pack_kg if product.pack_kg > 0 else kg
