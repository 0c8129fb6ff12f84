"""Rate maps and tables for the spreader, read back."""

from __future__ import annotations

import csv
import io
import json

from shapely.geometry import shape

from soilrota.documents.spreader_files import COLUMNS, rate_map_geojson, rates_csv
from soilrota.model.ground import Outline
from soilrota.model.rate_maps import RateMap, ZoneRate
from soilrota.problems import Place

PLACE = Place("map.geojson", 1)
#: Turns right, as an outer ring of RFC 7946 does not; with a hole.
RING = ((143.0, -37.0), (143.01, -37.0), (143.01, -37.01), (143.0, -37.01), (143.0, -37.0))
HOLE = ((143.002, -37.002), (143.004, -37.002), (143.004, -37.004), (143.002, -37.004), (143.002, -37.002))
DRAWN = ZoneRate("west", "West, at the creek", Outline(((RING, HOLE),), PLACE), 87.5, 1, 9.876, 864.15)
BARE = ZoneRate("east", "=East", None, 3000.0, 2, 4.0, 24000.0)
MAP = RateMap("home", "Home block", "plain-p", "Plain P", (DRAWN, BARE), 24864.15, 25.0)


def test_the_map_is_geojson() -> None:
    """A feature a zone with its rate; outer rings turn left, holes right; a zone that is not drawn lies nowhere."""
    collection = json.loads(rate_map_geojson(MAP))
    assert collection["type"] == "FeatureCollection"
    first, second = collection["features"]
    assert first["properties"] == {
        "kind": "rate",
        "farm": "Home block",
        "zone": "West, at the creek",
        "zone_id": "west",
        "product": "Plain P",
        "rate_kg_ha": 87.5,
        "passes": 1,
        "area_ha": 9.88,
        "total_kg": 864,
    }
    polygon = shape(first["geometry"])
    assert polygon.exterior.is_ccw
    assert [ring.is_ccw for ring in polygon.interiors] == [False]
    assert second["geometry"] is None
    assert (second["properties"]["rate_kg_ha"], second["properties"]["passes"]) == (3000, 2)


def test_the_same_advice_gives_the_same_bytes() -> None:
    """Twice the same map, and it ends with a line end."""
    assert rate_map_geojson(MAP) == rate_map_geojson(MAP)
    assert rate_map_geojson(MAP).endswith(b"}\n")


def test_the_table() -> None:
    """One line a product and zone; no name is taken for a formula."""
    rows = list(csv.DictReader(io.StringIO(rates_csv([MAP]).decode(), newline="")))
    assert tuple(rows[0]) == COLUMNS
    assert [tuple(row.values()) for row in rows] == [
        ("Home block", "Plain P", "West, at the creek", "87.5", "1", "9.88", "864"),
        ("Home block", "Plain P", "'=East", "3000", "2", "4.00", "24000"),
    ]
