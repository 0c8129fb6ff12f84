"""Rate maps of a farm."""

from __future__ import annotations

import pytest

from soilrota.agronomy.mix import product_mix
from soilrota.agronomy.rate_map import rate_maps
from soilrota.model.advice import Input, ProductMix
from soilrota.model.client import Farm, Zone
from soilrota.model.ground import Outline
from soilrota.model.products import ProductKind
from soilrota.problems import Place
from tests.agronomy.mix.making import listed, need, product

PLACE = Place("map.geojson", 1)
SQUARE = Outline(((((143.0, -37.0), (143.01, -37.0), (143.01, -37.01), (143.0, -37.01), (143.0, -37.0)),),), PLACE)


def zone(id_: str, outline: Outline | None = None) -> Zone:
    """Return a zone of ten hectares."""
    return Zone(id_, "home", id_.title(), "loam", "", None, "crop", "flat", 10.0, "", None, (), outline, (), (), PLACE)


def test_a_map_a_product() -> None:
    """Products by id, zones in the farm's order; a divided dressing at the rate of one pass; masses add up."""
    lime = product("lime", ProductKind.LIME, neutralising_percent=100.0, least_kg_ha=1000.0, most_kg_ha=5000.0)
    bagged = product("bagged", contents={"phosphorus": 20.0}, pack_kg=1000.0)
    products = listed(lime, bagged)
    farm = Farm("home", "Home block", "", None, None, (), (zone("west", SQUARE), zone("east"), zone("bare")), PLACE)
    needs = [need(Input.LIME, 6.0, "west", dressings=2)]
    needs += [need(Input.PHOSPHORUS, 20.0, "east"), need(Input.PHOSPHORUS, 10.0, "west")]
    areas = {"west": 10.0, "east": 8.0}
    mix = product_mix("home", needs, areas, products, dict.fromkeys(areas, "crop"))
    assert isinstance(mix, ProductMix)
    first, second = rate_maps(mix, farm, products)
    assert (first.product, first.farm_name, [one.zone for one in first.zones]) == (
        "bagged",
        "Home block",
        ["west", "east"],
    )
    assert (first.total_kg, first.bought_t) == pytest.approx((50 * 10 + 100 * 8, 2.0))
    (only,) = second.zones
    assert (only.name, only.rate_kg_ha, only.passes, only.total_kg, only.outline) == ("West", 3000, 2, 60_000, SQUARE)
