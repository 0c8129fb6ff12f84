"""How much a zone gets at least; the rules are counted out in `counting.py`, these are the worked cases."""

from __future__ import annotations

import pytest

from soilrota.agronomy.mix.cases import ZoneCase, zone_cases
from soilrota.agronomy.mix.floors import Conflict, floors_of
from soilrota.model.advice import Input, Need
from soilrota.model.products import Product
from tests.agronomy.mix.making import listed, need, product

TRIPLE = product("triple", contents={"phosphorus": 20.0})
BOTH = product("both", contents={"nitrogen": 18.0, "phosphorus": 20.0})


def case_of(needs: list[Need], *products: Product) -> ZoneCase:
    """Return the case of the one zone."""
    (one,) = zone_cases(
        needs, {"hill": 10.0}, listed(*products), {"hill": "crop"}, beyond={}, effectiveness={}, available={}
    )
    return one


def test_a_need_with_room_above_it_is_met_in_full() -> None:
    """One step is 2 kg/ha; there is room for it."""
    assert floors_of(case_of([need(Input.PHOSPHORUS, 19.0, low=5.0, cap=21.0)], TRIPLE)) == {Input.PHOSPHORUS: 19.0}


def test_a_need_at_its_maximum_is_missed_by_less_than_one_step() -> None:
    """19 kg/ha at most: 18 are supplied, not less; but never under the low end."""
    floors = floors_of(case_of([need(Input.PHOSPHORUS, 19.0, low=5.0, cap=19.0)], TRIPLE))
    assert floors == {Input.PHOSPHORUS: pytest.approx(19.0 - 0.999 * 2)}
    floors = floors_of(case_of([need(Input.PHOSPHORUS, 19.0, low=18.0, cap=19.0)], TRIPLE))
    assert floors == {Input.PHOSPHORUS: 18.0}


def test_another_maximum_leaves_as_much_as_can_be() -> None:
    """Phosphorus comes with nitrogen, of which 10 kg/ha may be spread: 50 kg/ha of product, 10 of phosphorus."""
    needs = [need(Input.PHOSPHORUS, 20.0, low=4.0), need(Input.NITROGEN, 0.0, cap=10.0)]
    assert floors_of(case_of(needs, BOTH)) == {Input.PHOSPHORUS: pytest.approx(10.0 - 0.999 * 2)}


def test_low_ends_that_cannot_be_met_are_a_conflict() -> None:
    """Under 12 kg/ha the need is never rounded."""
    needs = [need(Input.PHOSPHORUS, 20.0, low=12.0), need(Input.NITROGEN, 0.0, cap=10.0)]
    found = floors_of(case_of(needs, BOTH))
    assert isinstance(found, Conflict)
    assert (found.inputs, found.because) == ((Input.PHOSPHORUS,), "maxima")


def test_two_needs_that_exclude_each_other_stand_together_in_the_way() -> None:
    """Each can be met alone; together their products bring too much potassium. Sulphur has no part in it."""
    needs = [need(Input.NITROGEN, 20.0), need(Input.PHOSPHORUS, 20.0), need(Input.SULPHUR, 9.0)]
    needs.append(need(Input.POTASSIUM, 0.0, cap=15.0))
    first = product("first", contents={"nitrogen": 20.0, "potassium": 10.0})
    second = product("second", contents={"phosphorus": 20.0, "potassium": 10.0})
    third = product("third", contents={"sulphur": 18.0})
    found = floors_of(case_of(needs, first, second, third))
    assert isinstance(found, Conflict)
    assert (found.inputs, found.because) == ((Input.NITROGEN, Input.PHOSPHORUS), "maxima")


def test_what_no_product_reaches() -> None:
    """Rates too low, and an input that nothing holds, are told apart."""
    found = floors_of(case_of([need(Input.PHOSPHORUS, 200.0, low=1.0)], TRIPLE))
    assert isinstance(found, Conflict)
    assert found.because == "rates"
    found = floors_of(case_of([need(Input.SULPHUR, 2.0, low=0.0)], TRIPLE))
    assert isinstance(found, Conflict)
    assert found.because == "no-product"
