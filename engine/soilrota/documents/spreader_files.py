"""For the spreader: a rate map a product as GeoJSON (RFC 7946), and a table a farm as CSV.

Rates are those of one pass. Areas have two decimals, masses none; outlines are those of the map, longitude and latitude
of WGS 84 to seven decimals. A zone that the map does not draw has no geometry and stands in the map all the same, so
that masses add up. The same advice gives the same bytes.
"""

from __future__ import annotations

import json
from collections.abc import Iterable

from soilrota.documents.shapes import feature, surface
from soilrota.files import safe_table
from soilrota.model.rate_maps import RateMap, ZoneRate

#: Columns of the table: names, `rate_kg_ha` of one pass [kg/ha], `passes` [-], `area_ha` [ha], `total_kg` of all
#: passes [kg].
COLUMNS = ("farm", "product", "zone", "rate_kg_ha", "passes", "area_ha", "total_kg")


def rate_map_geojson(rate_map: RateMap) -> bytes:
    """Return one product on one farm as GeoJSON: a feature a zone, in the order of the farm."""
    features = [
        feature(
            "rate",
            None if zone.outline is None else surface(zone.outline),
            {
                "farm": rate_map.farm_name,
                "zone": zone.name,
                "zone_id": zone.zone,
                "product": rate_map.name,
                "rate_kg_ha": _plain(zone.rate_kg_ha),
                "passes": zone.passes,
                "area_ha": round(zone.area_ha, 2),
                "total_kg": round(zone.total_kg),
            },
        )
        for zone in rate_map.zones
    ]
    collection = {"type": "FeatureCollection", "features": features}
    return f"{json.dumps(collection, ensure_ascii=False, indent=1)}\n".encode()


def rates_csv(maps: Iterable[RateMap]) -> bytes:
    """Return all products of a farm as one table: product by product, zone by zone."""
    rows = (_row(rate_map, zone) for rate_map in maps for zone in rate_map.zones)
    return safe_table(COLUMNS, rows, numbers={"rate_kg_ha", "passes", "area_ha", "total_kg"})


def _row(rate_map: RateMap, zone: ZoneRate) -> dict[str, str]:
    """Return one line of the table."""
    return {
        "farm": rate_map.farm_name,
        "product": rate_map.name,
        "zone": zone.name,
        "rate_kg_ha": f"{_plain(zone.rate_kg_ha)}",
        "passes": f"{zone.passes}",
        "area_ha": f"{zone.area_ha:.2f}",
        "total_kg": f"{zone.total_kg:.0f}",
    }


def _plain(rate: float) -> float | int:
    """Return a rate to a tenth of a kilogram, whole where it is whole [kg/ha]."""
    rounded = round(rate, 1)
    return int(rounded) if rounded == int(rounded) else rounded
