"""Zones, the windows of their inputs, and what each may get."""

from __future__ import annotations

from math import inf

from soilrota.agronomy.mix.cases import ZoneCase, zone_cases
from soilrota.model.advice import Input, Need
from soilrota.model.products import Product
from tests.agronomy.mix.making import listed, need, product

TRIPLE = product("triple", contents={"phosphorus": 20.0}, least_kg_ha=45.0)


def case_of(*needs: Need, products: tuple[Product, ...] = (TRIPLE,)) -> ZoneCase:
    """Return the case of the one zone."""
    (case,) = zone_cases(
        needs,
        {"hill": 10.0},
        listed(*products),
        {"hill": "pasture"},
        beyond={Input.PHOSPHORUS: 4.0, Input.NITROGEN: 3.0},
        effectiveness={},
        available={},
    )
    return case


def test_windows() -> None:
    """A cap is the maximum; without one the house limit beyond the need; an input nobody reckoned is not needed."""
    case = case_of(need(Input.PHOSPHORUS, 20.0, low=12.0), need(Input.SULPHUR, 5.0, cap=9.0))
    windows = case.windows
    assert (windows[Input.PHOSPHORUS].most, windows[Input.PHOSPHORUS].low) == (24.0, 12.0)
    assert windows[Input.SULPHUR].most == 9.0
    assert (windows[Input.NITROGEN].need, windows[Input.NITROGEN].most) == (0.0, 3.0)
    assert windows[Input.MAGNESIUM].most == inf


def test_choices_go_no_higher_than_needs_ask() -> None:
    """Steps of 10 kg/ha hold 2 kg of phosphorus: from 5 steps (45 kg/ha at least) to the 10 that meet the need."""
    (choice,) = case_of(need(Input.PHOSPHORUS, 19.0)).choices
    assert (choice.lowest, choice.highest, choice.passes) == (5, 10, 1)
    assert case_of(need(Input.PHOSPHORUS, 19.0)).reach[Input.PHOSPHORUS] == 100.0


def test_products_without_use_are_left_out() -> None:
    """What meets no need, may not go there, or passes a maximum at its least rate is no choice."""
    urea = product("urea", contents={"nitrogen": 46.0})
    hay = product("for-hay", contents={"phosphorus": 20.0}, land_uses=("hay",))
    strong = product("strong", contents={"phosphorus": 20.0, "nitrogen": 18.0})
    case = case_of(need(Input.PHOSPHORUS, 19.0), products=(urea, hay, strong, TRIPLE))
    assert [one.product.id for one in case.choices] == ["triple"]
    assert case_of(need(Input.PHOSPHORUS, 3.0)).choices == ()


def test_the_least_divided_need_decides_the_dressings() -> None:
    """Nitrogen in three dressings, phosphorus at once: urea goes on three times, what holds both goes on once."""
    urea = product("urea", contents={"nitrogen": 46.0})
    both = product("both", contents={"nitrogen": 4.0, "phosphorus": 20.0})
    case = case_of(need(Input.NITROGEN, 90.0, dressings=3), need(Input.PHOSPHORUS, 20.0), products=(urea, both))
    assert {one.product.id: (one.passes, one.lowest) for one in case.choices} == {"urea": (3, 5), "both": (1, 5)}
