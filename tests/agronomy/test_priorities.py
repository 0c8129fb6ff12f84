"""Actions by expected worth, and what a budget should pay for first, against counting."""

from __future__ import annotations

import os
from dataclasses import replace
from itertools import combinations
from random import Random

import pytest

from soilrota.agronomy.mix import product_mix
from soilrota.agronomy.priorities import priorities, within_budget
from soilrota.model.advice import Input, Priority, ProductMix
from tests.agronomy.mix.making import listed, need, product

CASES = 2_000 if os.environ.get("SOILROTA_LONG") == "1" else 200
PRODUCTS = listed(
    product("plain-p", contents={"phosphorus": 20.0}, price_per_t=900.0),
    product("plain-k", contents={"potassium": 50.0}, price_per_t=800.0),
)
AREAS = {"hill": 10.0, "flat": 20.0}
NEEDS = (
    replace(need(Input.PHOSPHORUS, 20.0), probability=0.9),
    replace(need(Input.POTASSIUM, 25.0), probability=0.3),
    replace(need(Input.PHOSPHORUS, 10.0, "flat"), probability=0.6),
    replace(need(Input.SULPHUR, 0.0, "flat"), probability=0.1),
    need(Input.POTASSIUM, 25.0, "flat"),
)
VALUES = {
    ("home", "hill", Input.PHOSPHORUS): 300.0,
    ("home", "hill", Input.POTASSIUM): 200.0,
    ("home", "flat", Input.PHOSPHORUS): 120.0,
    ("home", "flat", Input.SULPHUR): 50.0,
    ("home", "flat", Input.POTASSIUM): 50.0,
}


def the_mix() -> ProductMix:
    """Return the mix of the worked farm."""
    mix = product_mix("home", NEEDS, AREAS, PRODUCTS, dict.fromkeys(AREAS, "crop"))
    assert isinstance(mix, ProductMix)
    return mix


def test_the_worked_farm() -> None:
    """Worth is probability x stake less cost, times area; what has no probability or no need is not ranked."""
    ranked = priorities(NEEDS, the_mix(), VALUES)
    assert [(one.zone, one.input, one.rank) for one in ranked] == [
        ("hill", Input.PHOSPHORUS, 1),
        ("flat", Input.PHOSPHORUS, 2),
        ("hill", Input.POTASSIUM, 3),
    ]
    for one in ranked:
        assert one.worth == pytest.approx((one.probability * one.at_stake - one.cost) * one.area_ha)
        assert one.facts["shared"] == "by-adds"


def test_shares_add_up_to_the_bill() -> None:
    """With every need ranked, costs over areas are the bill, asked or not what each need adds."""
    needs = tuple(replace(one, probability=0.5) for one in NEEDS)
    mix = the_mix()
    for given in (mix, replace(mix, requirements=mix.requirements[:2])):
        ranked = priorities(needs, given, VALUES)
        assert sum(one.cost * one.area_ha for one in ranked) == pytest.approx(mix.cost)
    assert {one.facts["shared"] for one in priorities(needs, replace(mix, requirements=()), VALUES)} == {"evenly"}


def test_what_adds_more_bears_more() -> None:
    """Within a zone costs are as what each need adds."""
    mix = the_mix()
    adds = {(one.zone, one.input): one.adds for one in mix.requirements}
    first, second = (one for one in priorities(NEEDS, mix, VALUES) if one.zone == "hill")
    assert first.cost / second.cost == pytest.approx(adds["hill", first.input] / adds["hill", second.input])


def test_values_that_are_not_given_are_not_ranked() -> None:
    """Without a value at stake nothing is said of an action."""
    values = {key: value for key, value in VALUES.items() if key[2] is Input.POTASSIUM}
    assert [(one.zone, one.input) for one in priorities(NEEDS, the_mix(), values)] == [("hill", Input.POTASSIUM)]


def actions(random: Random, number: int, *, alike: bool) -> tuple[Priority, ...]:
    """Return random actions; alike ones are worth nearly what they cost."""
    found = []
    for rank in range(1, number + 1):
        cost = random.randrange(0, 30_000) / 100
        worth = cost + random.randrange(-5, 20) / 10 if alike else random.randrange(-2_000, 40_000) / 100
        found.append(Priority("home", f"z{rank}", Input.LIME, 0.5, 1.0, cost, 1.0, worth, rank))
    return tuple(found)


def test_a_budget_against_every_choice() -> None:
    """The chosen actions keep the budget and are worth as much as the best of all choices."""
    random = Random(11)
    for case in range(CASES):
        ranked = actions(random, random.randint(0, 9), alike=case % 3 == 0)
        budget = random.choice((0.0, 100.0, 333.33, 700.0, 5000.0))
        chosen = within_budget(ranked, budget)
        best = max(
            sum(one.worth for one in some)
            for size in range(len(ranked) + 1)
            for some in combinations(ranked, size)
            if sum(one.cost for one in some) <= budget + 1e-9
        )
        assert sum(one.cost for one in chosen) <= budget + 1e-9
        assert sum(one.worth for one in chosen) == pytest.approx(best, abs=1e-6)
        assert [one.rank for one in chosen] == sorted(one.rank for one in chosen)


@pytest.mark.parametrize("alike", [False, True])
def test_many_actions(*, alike: bool) -> None:
    """Two hundred actions are chosen from; more money is never worth less."""
    ranked = actions(Random(5), 200, alike=alike)
    worths = [sum(one.worth for one in within_budget(ranked, budget)) for budget in (500.0, 2000.0, 8000.0, 1e6)]
    assert worths == sorted(worths)
    assert worths[-1] == pytest.approx(sum(one.worth for one in ranked if one.worth > 0))
