"""One zone by itself."""

from __future__ import annotations

import pytest

from soilrota.agronomy.mix.cases import ZoneCase, zone_cases
from soilrota.agronomy.mix.zone_program import cheapest, costs_a_hectare, is_feasible, most_of
from soilrota.model.advice import Input
from tests.agronomy.mix.making import listed, need, product

SUPER = product("super", contents={"phosphorus": 8.8, "sulphur": 11.0}, price_per_t=430.0)
TRIPLE = product("triple", contents={"phosphorus": 20.0}, price_per_t=900.0)


def case() -> ZoneCase:
    """Return a zone that wants phosphorus, and little sulphur."""
    needs = [need(Input.PHOSPHORUS, 20.0, cap=30.0), need(Input.SULPHUR, 5.0, cap=10.0)]
    (one,) = zone_cases(
        needs, {"hill": 10.0}, listed(SUPER, TRIPLE), {"hill": "crop"}, beyond={}, effectiveness={}, available={}
    )
    return one


def test_the_cheapest_alone_and_without_each() -> None:
    """70 kg/ha of each at 93.1 a hectare; 50 and 80 were 93.5. Without the one there is no sulphur."""
    alone = cheapest(case(), {Input.PHOSPHORUS: 20.0, Input.SULPHUR: 5.0}, 9.0)
    assert alone.steps == {"super": 7, "triple": 7}
    assert alone.cost == pytest.approx(70 * 0.43 + 70 * 0.9 + 18)
    assert alone.without == {"super": None, "triple": None}
    phosphorus = cheapest(case(), {Input.PHOSPHORUS: 20.0}, 9.0)
    assert phosphorus.steps == {"triple": 10}
    assert costs_a_hectare(case(), 9.0)["super"] == pytest.approx((4.3, 9.0))


def test_what_can_be_had() -> None:
    """Sulphur up to nine steps of 1.1 kg/ha within its maximum of 10; more cannot be met."""
    assert most_of(case(), Input.SULPHUR, {Input.PHOSPHORUS: 20.0}) == pytest.approx(9.9)
    assert is_feasible(case(), {Input.SULPHUR: 9.9})
    assert not is_feasible(case(), {Input.SULPHUR: 10.0})
