"""The bill of a farm, and the programme of the whole farm."""

from __future__ import annotations

import pytest

from soilrota.agronomy.mix.cases import zone_cases
from soilrota.agronomy.mix.farm_program import FarmCase, bill_of, solve_farm
from soilrota.agronomy.mix.floors import Conflict, floors_of
from soilrota.agronomy.mix.zone_program import cheapest
from soilrota.model.advice import Input
from soilrota.model.products import ProductList
from tests.agronomy.mix.making import listed, need, product

BAGGED = product("bagged", contents={"phosphorus": 20.0}, price_per_t=800.0, pack_kg=1000.0)
LOOSE = product("loose", contents={"phosphorus": 20.0}, price_per_t=900.0)


def farm_of(products: ProductList, area: float) -> FarmCase:
    """Return a farm of one zone that needs 20 kg/ha of phosphorus."""
    cases = zone_cases(
        [need(Input.PHOSPHORUS, 20.0)],
        {"hill": area},
        products,
        {"hill": "crop"},
        beyond={},
        effectiveness={},
        available={},
    )
    floors = {}
    for case in cases:
        found = floors_of(case)
        assert not isinstance(found, Conflict)
        floors[case.zone] = found
    return FarmCase(cases, floors, {case.zone: cheapest(case, floors[case.zone], 9.0) for case in cases}, products)


@pytest.mark.parametrize(("area", "bought"), [(10.0, "bagged"), (12.0, "loose"), (19.0, "bagged")])
def test_whole_packs_decide(area: float, bought: str) -> None:
    """A tonne for 10 ha: bags. 1.2 t: loose at 1,080 is cheaper than two bags at 1,600. 1.9 t: bags again."""
    farm = farm_of(listed(BAGGED, LOOSE), area)
    answer = solve_farm(farm, 1000)
    assert answer is not None
    assert answer.proven
    assert answer.steps == {("hill", bought): 10}
    other = solve_farm(farm, 1000, [bought])
    assert other is not None
    assert other.steps.keys() == {("hill", "loose" if bought == "bagged" else "bagged")}
    assert solve_farm(farm, 1000, ()) == answer


def test_the_bill() -> None:
    """120 kg/ha on 10 ha: two bags of a tonne, a pass a hectare, one call."""
    farm = farm_of(listed(BAGGED), 10.0)
    bill = bill_of(farm.cases, {("hill", "bagged"): 12}, farm.products)
    assert (bill.products, bill.passes, bill.calls, bill.total) == (1600.0, 90.0, 100.0, 1790.0)
    assert bill.bought_t == {"bagged": 2.0}
    assert solve_farm(farm, 1000, ["bagged"]) is None
