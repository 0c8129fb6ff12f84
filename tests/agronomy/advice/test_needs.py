"""Every need of a zone, joined."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.agronomy.advice.gypsum import GypsumAsked, gypsum_need
from soilrota.agronomy.advice.needs import needs_of
from soilrota.agronomy.advice.nutrient_needs import Choices
from soilrota.agronomy.advice.working import part
from soilrota.model.advice import Input, Need
from soilrota.model.products import ProductKind
from tests.agronomy.advice.nutrient_cases import product, spread
from tests.agronomy.advice.test_gypsum import ground, soil
from tests.agronomy.advice.test_nutrient_needs import judged

ON = date(2027, 2, 10)


@pytest.mark.parametrize(
    ("client_id", "zone_id"),
    [("brolga-plains", "one"), ("hazel-rigg", "kiln"), ("iron-prairie", "nw-quarter"), ("anvil-creek", "ridge")],
)
def test_each_input_once_in_its_order(client_id: str, zone_id: str) -> None:
    """Whatever can be advised: an input comes once, as a need or as the reason why there is none."""
    found = [one.input for one in needs_of(*judged(client_id, zone_id), Choices(ON))]
    assert found == sorted(found, key=list(Input).index)
    assert len(set(found)) == len(found)
    assert {*found} == {*Input}


def test_lime_that_was_spread_is_taken_off() -> None:
    """Kiln field: a tonne a hectare of a lime that neutralises 80 of 100, spread since, leaves 0.8 t less to spread."""
    client, zone, judgements = judged("hazel-rigg", "kiln")
    lime = replace(product("Chalk"), kind=ProductKind.LIME, material_class="lime", neutralising_percent=80.0)
    row = replace(spread("chalk", 1000.0, date(2027, 1, 5), material_class="lime"), farm="hazel", zones=("kiln",))
    after = replace(client, applications=(*client.applications, row))
    amounts = []
    for one in (client, after):
        need = next(
            found
            for found in needs_of(one, zone, judgements, Choices(ON, products=(lime,)))
            if found.input is Input.LIME
        )
        assert isinstance(need, Need)
        amounts.append(need.amount)
    assert amounts[0] - amounts[1] == pytest.approx(0.8)


def test_gypsum_that_was_spread_is_taken_off() -> None:
    """A sodic topsoil: a tonne of pure gypsum since the sampling leaves a tonne less to spread, in its range too."""
    sodic = ground(soil(20, 15), bulk_density=1.3)
    bare, less = (gypsum_need(sodic, GypsumAsked(others=others)) for others in ((), (part("already-applied", -1.0),)))
    assert isinstance(bare, Need)
    assert isinstance(less, Need)
    assert bare.amount - less.amount == pytest.approx(1.0)
    assert bare.high - less.high == pytest.approx(1.0)
    assert less.steps[-1].rule == "already-applied"


def test_acid_is_made_good_where_it_is_asked_for() -> None:
    """Kiln field: 8 t/ha of wheat grain take 9 kg of lime a tonne."""
    place = judged("hazel-rigg", "kiln")
    plain, kept = (
        next(one for one in needs_of(*place, Choices(ON, makes_acid_good=asked)) if one.input is Input.LIME)
        for asked in (False, True)
    )
    assert isinstance(plain, Need)
    assert isinstance(kept, Need)
    assert kept.amount - plain.amount == pytest.approx(8 * 9 / 1000)


def test_nothing_judged_nothing_advised() -> None:
    """A zone without results has no needs."""
    client, zone, _ = judged("hazel-rigg", "kiln")
    assert needs_of(client, zone, (), Choices(ON)) == ()
