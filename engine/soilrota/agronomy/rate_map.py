"""From a mix to a rate map a product: which zone gets how much in one pass."""

from __future__ import annotations

from soilrota.model.advice import ProductMix
from soilrota.model.client import Farm
from soilrota.model.products import ProductList
from soilrota.model.rate_maps import RateMap, ZoneRate


def rate_maps(mix: ProductMix, farm: Farm, products: ProductList) -> tuple[RateMap, ...]:
    """Return the rate maps of a farm, by product id; zones in the order of the farm, those without any left out.

    Args:
        mix: its mix.
        farm: the farm, whose zones have names and outlines.
        products: what can be bought.
    """
    spread = {(one.product, one.zone): one for one in mix.spreadings}
    found = []
    for id_ in sorted({one.product for one in mix.spreadings}):
        zones = tuple(
            ZoneRate(
                zone.id,
                zone.name,
                zone.outline,
                one.rate_kg_ha / one.passes,
                one.passes,
                one.area_ha,
                one.rate_kg_ha * one.area_ha,
            )
            for zone in farm.zones
            if (one := spread.get((id_, zone.id))) is not None
        )
        total = sum(zone.total_kg for zone in zones)
        name = products.products[id_].name
        found.append(RateMap(farm.id, farm.name, id_, name, zones, total, mix.packs[id_]))
    return tuple(found)
