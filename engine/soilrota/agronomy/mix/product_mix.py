"""The cheapest products that meet the needs of a farm without passing a maximum; or why none do."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from soilrota.agronomy.mix.cases import zone_cases
from soilrota.agronomy.mix.farm_program import Bill, FarmAnswer, FarmCase, Steps, bill_of, solve_farm
from soilrota.agronomy.mix.floors import SAME, Conflict, floors_of
from soilrota.agronomy.mix.zone_program import cheapest
from soilrota.guidelines.mix import beyond_need
from soilrota.model.advice import Input, Need, NoMix, ProductMix, Requirement, Spreading, Supplied
from soilrota.model.findings import Fact
from soilrota.model.products import ProductList

#: A maximum is kept to this share of itself; what goes beyond is a fault of the solver [-].
_KEPT = 1e-6


@dataclass(frozen=True, slots=True)
class Effort:
    """How far the search goes; no clock, so that the same input gives the same mix.

    Attributes:
        requirements: needs of which is asked what they add to the bill, those of the dearest zones first [-]; each
            costs as much work as the mix itself.
        nodes: nodes of the search tree after which the best mix so far is taken, and said to be unproven [-].
        runner_up: whether the runner-up is looked for.
    """

    requirements: int = 24
    nodes: int = 50_000
    runner_up: bool = True


def product_mix(
    farm: str,
    needs: Sequence[Need],
    areas: Mapping[str, float],
    products: ProductList,
    land_uses: Mapping[str, str],
    *,
    effectiveness: Mapping[str, float] | None = None,
    available: Mapping[tuple[str, Input], float] | None = None,
    beyond: Mapping[Input, float] | None = None,
    effort: Effort | None = None,
) -> ProductMix | NoMix:
    """Return the cheapest mix of products for a farm, or the fewest needs that cannot be met together.

    Needs are met in full, or as nearly as maxima and steps of rates allow (see `floors`); no maximum is passed. Mixes
    within a cent are the same: then fewer products win, then those that stand first by id.

    Args:
        farm: id of the farm; needs of other farms are left out.
        needs: at most one a zone and input.
        areas: of the farm's zones with needs [ha].
        products: what can be bought, and what spreading costs.
        land_uses: of the farm's zones with needs.
        effectiveness: share of a lime's neutralising value that its grain sizes let work [-]; 1 where missing.
        available: share of an element of a product that counts towards the need [-]; 1 where missing.
        beyond: what may be supplied beyond a need without a maximum [unit of the need]; None for the house table.
        effort: how far the search goes.

    Raises:
        ValueError: two needs are of the same zone and input, or a zone has no area.
    """
    cases = zone_cases(
        [need for need in needs if need.farm == farm],
        areas,
        products,
        land_uses,
        beyond=beyond_need() if beyond is None else beyond,
        effectiveness=effectiveness or {},
        available=available or {},
    )
    found = {case.zone: floors_of(case) for case in cases}
    conflicts = [one for one in found.values() if isinstance(one, Conflict)]
    if conflicts:
        return _no_mix(farm, conflicts)
    floors = {zone: one for zone, one in found.items() if not isinstance(one, Conflict)}
    alone = {case.zone: cheapest(case, floors[case.zone], products.pass_price_ha) for case in cases}
    steps = {(zone, id_): number for zone, one in alone.items() for id_, number in one.steps.items()}
    return _mix(farm, FarmCase(cases, floors, alone, products), FarmAnswer(steps, proven=False), effort or Effort())


def _mix(id_: str, farm: FarmCase, zones_alone: FarmAnswer, effort: Effort) -> ProductMix:
    """Return the mix of a farm whose needs can be met; `zones_alone` is always one, should the search be stopped."""
    answer = solve_farm(farm, effort.nodes) or zones_alone
    bill = bill_of(farm.cases, answer.steps, farm.products)
    spreadings = _spreadings(id_, farm, answer.steps, bill)
    requirements, skipped = _requirements(id_, farm, bill.total, spreadings, effort)
    runner = solve_farm(farm, effort.nodes, bill.bought_t) if effort.runner_up and bill.bought_t else None
    runner_bill = bill_of(farm.cases, runner.steps, farm.products) if runner and runner.proven else None
    return ProductMix(
        farm=id_,
        spreadings=spreadings,
        packs=bill.bought_t,
        cost=bill.total,
        products_cost=bill.products,
        passes_cost=bill.passes,
        calls_cost=bill.calls,
        requirements=requirements,
        runner_up=runner_bill.total if runner_bill else None,
        runner_up_products=tuple(runner_bill.bought_t) if runner_bill else (),
        proven=answer.proven,
        supplied=_supplied(id_, farm, answer.steps),
        requirements_skipped=skipped,
    )


def _spreadings(id_: str, farm: FarmCase, steps: Steps, bill: Bill) -> tuple[Spreading, ...]:
    """Return what is spread, by zone and product; what whole packs leave over is shared out by mass."""
    masses: dict[str, float] = {}
    rates = []
    for case in farm.cases:
        for choice in case.choices:
            number = steps.get((case.zone, choice.product.id), 0)
            if number:
                rate = number * choice.step_kg_ha
                rates.append((case, choice, rate))
                masses[choice.product.id] = masses.get(choice.product.id, 0.0) + rate * case.area_ha
    return tuple(
        Spreading(
            id_,
            case.zone,
            choice.product.id,
            rate,
            case.area_ha,
            choice.product.price_per_t
            * bill.bought_t[choice.product.id]
            * (rate * case.area_ha / masses[choice.product.id])
            + choice.passes * farm.products.pass_price_ha * case.area_ha,
            choice.passes,
        )
        for case, choice, rate in rates
    )


def _supplied(id_: str, farm: FarmCase, steps: Steps) -> tuple[Supplied, ...]:
    """Return what every zone gets of every input; a maximum that was passed is a fault of the solver."""
    found = []
    for case in farm.cases:
        for input_, window in case.windows.items():
            counts = whole = 0.0
            for choice in case.choices:
                number = steps.get((case.zone, choice.product.id), 0)
                counts += number * choice.counts.get(input_, 0.0)
                whole += number * choice.whole.get(input_, 0.0)
            floor = farm.floors[case.zone].get(input_, 0.0)
            if whole > window.most * (1 + _KEPT) + SAME or counts < floor * (1 - _KEPT) - SAME:
                raise ArithmeticError(f"the solver broke a limit: {input_} on zone {case.zone}")
            if window.need > 0 or whole > 0:
                found.append(Supplied(id_, case.zone, input_, window.need, counts, whole))
    return tuple(found)


def _requirements(
    id_: str, farm: FarmCase, cost: float, spreadings: Sequence[Spreading], effort: Effort
) -> tuple[tuple[Requirement, ...], int]:
    """Return what needs add to the bill, the dearest first, and how many were not asked for.

    Each is the whole mix again without that one need; its maximum stays.
    """
    spent: dict[str, float] = {}
    for one in spreadings:
        spent[one.zone] = spent.get(one.zone, 0.0) + one.cost
    asked = [(case, input_) for case in farm.cases for input_ in farm.floors[case.zone]]
    asked.sort(key=lambda pair: -spent.get(pair[0].zone, 0.0))
    found = []
    for case, input_ in asked[: effort.requirements]:
        floors = {other: floor for other, floor in farm.floors[case.zone].items() if other is not input_}
        alone = cheapest(case, floors, farm.products.pass_price_ha)
        eased = replace(farm, floors={**farm.floors, case.zone: floors}, alone={**farm.alone, case.zone: alone})
        answer = solve_farm(eased, effort.nodes)
        if answer is not None and answer.proven:
            without = bill_of(farm.cases, answer.steps, farm.products).total
            found.append(Requirement(id_, case.zone, input_, max(cost - without, 0.0)))
    found.sort(key=lambda one: (-one.adds, one.zone, list(Input).index(one.input)))
    return tuple(found), len(asked) - len(found)


def _no_mix(farm: str, conflicts: Sequence[Conflict]) -> NoMix:
    """Return that there is no mix, with the smallest set of needs in the way, and every zone that has one.

    Facts: `because`, `zones`, and of each input its `need`, `low`, `most` and `reach` (what products could supply if
    nothing limited them) [unit of the need].
    """
    worst = min(conflicts, key=lambda one: len(one.inputs))
    facts: dict[str, Fact] = {"because": worst.because, "zones": tuple(one.case.zone for one in conflicts)}
    for input_ in worst.inputs:
        window = worst.case.windows[input_]
        facts |= {
            f"{input_}_need": window.need,
            f"{input_}_low": window.low,
            f"{input_}_most": window.most,
            f"{input_}_reach": worst.case.reach[input_],
        }
    return NoMix(farm, tuple((worst.case.zone, input_) for input_ in worst.inputs), facts)
