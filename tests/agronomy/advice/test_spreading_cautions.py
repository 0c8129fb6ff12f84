"""Cautions stand where they belong."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.agronomy.advice.spreading_cautions import cadmium_load, cautions_of_spreading
from soilrota.guidelines.spreading import near_water_m
from soilrota.model.advice import Input
from tests.agronomy.advice.nutrient_cases import product
from tests.agronomy.derived.bags import zone

ALWAYS = {"local-rules", "wet-or-frozen-ground"}


@pytest.mark.parametrize(
    ("changes", "more"),
    [
        ({}, set()),
        ({"landscape_position": "mid-slope"}, {"run-off"}),
        ({"land_use": "pasture"}, {"stock-off"}),
        ({"distance_to_water_m": near_water_m() - 1}, {"near-water"}),
        ({"distance_to_water_m": near_water_m()}, set()),
    ],
)
def test_where_they_belong(changes: dict[str, object], more: set[str]) -> None:
    """Two always; the others by slope, stock and water."""
    assert set(cautions_of_spreading(zone(**changes), Input.POTASSIUM)) == ALWAYS | more


def test_cadmium_comes_with_phosphorus() -> None:
    """Unless every product that brings phosphorus is known to have none."""
    free = replace(product("struvite", phosphorus=12.0), cadmium_mg_kg_p=0.0)
    unknown, urea = product("super", phosphorus=9.0), product("urea", nitrogen=46.0)
    of = [
        set(cautions_of_spreading(zone(), Input.PHOSPHORUS, some)) - ALWAYS
        for some in ((), (free, urea), (free, unknown))
    ]
    assert of == [{"cadmium"}, set(), {"cadmium"}]


def test_a_load_of_cadmium() -> None:
    """20 kg P at 280 mg Cd/kg P are 5.6 g Cd."""
    assert cadmium_load(20, 280) == pytest.approx(5.6)
