"""Files for a phone, read back by other libraries."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import gpxpy
import pytest
import shapely
from lxml import etree

from soilrota.documents.phone_files import COLUMNS, points_csv, points_geojson, points_gpx
from soilrota.model.field_pack import FieldPack
from soilrota.model.layout import CorePoint
from tests.documents.label_packs import a_layout, a_pack, square

ODD = "=HYPERLINK(\"x\") & <b>'Top'</b> Žďár"
SCHEMA = etree.XMLSchema(etree.parse(Path(__file__).with_name("gpx_parts.xsd")))


def with_positions(*positions: tuple[float, float]) -> FieldPack:
    """Return a pack of one zone with points at given places, walked in this order."""
    pack = a_pack(("Ridge",))
    zone = pack.zones[0]
    points = tuple(CorePoint(number, position, ((0.0, 10.0),)) for number, position in enumerate(positions, start=1))
    layout = replace(a_layout(), points=points, walk=positions)
    return replace(pack, zones=(replace(zone, tasks=(replace(zone.tasks[0], layout=layout),)),))


def features(packs: tuple[FieldPack, ...], kind: str) -> list[dict[str, Any]]:
    """Return the features of a kind."""
    found = json.loads(points_geojson(packs))
    assert found["type"] == "FeatureCollection"
    return [one for one in found["features"] if one["properties"]["kind"] == kind]


def rows(packs: tuple[FieldPack, ...]) -> list[dict[str, str]]:
    """Return the rows of the table."""
    return list(csv.DictReader(io.StringIO(points_csv(packs).decode(), newline="")))


PACKS = (a_pack((ODD, "Flat"), farm="A & B's <farm>"), a_pack(("Hill",), corner=(-0.0002, 51.0), first=50))


def test_gpx_reads_back() -> None:
    """Waypoints in walking order under their names, a route a walk, the places to seven decimals."""
    content = points_gpx(PACKS)
    SCHEMA.assertValid(etree.fromstring(content))
    found = gpxpy.parse(content.decode())
    assert (found.version, found.creator, found.time) == ("1.1", "soilrota", None)
    assert [point.name for point in found.waypoints] == [f"{zone} {n}" for zone in (ODD, "Hill") for n in range(1, 5)]
    assert [route.name for route in found.routes] == [ODD, "Hill"]
    assert [point.name for route in found.routes for point in route.points] == [one.name for one in found.waypoints]
    for pack, route in zip(PACKS, found.routes, strict=True):
        layout = pack.zones[0].tasks[0].layout
        assert layout is not None
        for point, read in zip(layout.points, route.points, strict=True):
            assert (read.longitude, read.latitude) == pytest.approx(point.position, abs=0.51e-7)
    assert found.waypoints[0].description is not None
    assert found.waypoints[0].description.startswith("A & B's <farm>; Topsoil under pasture; 0-10 cm, 10-30 cm; bags A")
    assert "in the row" in (found.waypoints[2].description or "")
    assert "; 0-10 cm; bag " in (found.waypoints[1].description or "")


def test_the_language_of_a_client_changes_words_alone() -> None:
    """Tables, properties and places stay as they are; a depth that a crew reads has the comma of its language."""
    pack = a_pack(("Ridge",))
    zone = pack.zones[0]
    task = zone.tasks[0]
    assert task.layout is not None
    shallow = replace(task.layout, points=tuple(replace(one, layers=((0.0, 7.5),)) for one in task.layout.points))
    english = replace(pack, zones=(replace(zone, tasks=(replace(task, layout=shallow),)),))
    spanish = replace(english, client=replace(pack.client, language="es"))
    assert points_csv((english,)) == points_csv((spanish,))
    assert points_geojson((english,)) == points_geojson((spanish,))
    first, other = (gpxpy.parse(points_gpx((one,)).decode()).waypoints[0] for one in (english, spanish))
    assert (first.name, first.latitude, first.longitude) == (other.name, other.latitude, other.longitude)
    assert "0-7.5 cm" in (first.description or "")
    assert "0-7,5 cm" in (other.description or "")


def test_the_same_bytes_again() -> None:
    """No clock and no order of sets: the three files are the same twice, and in UTF-8."""
    for made in (points_gpx, points_geojson, points_csv):
        assert made(PACKS) == made(PACKS)
        assert "Žďár" in made(PACKS).decode()


def test_a_small_longitude_is_no_power_of_ten() -> None:
    """XML's decimal numbers have no exponent; a rounded nought has no sign; 180 east is 180 west."""
    content = points_gpx((with_positions((1.2e-7, -3e-8), (180.0, -90.0), (179.99999999, 90.0)),))
    SCHEMA.assertValid(etree.fromstring(content))
    assert b"e-" not in content.split(b"<wpt", 1)[1].split(b"<rte>", 1)[0].replace(b"name>", b"")
    found = gpxpy.parse(content.decode())
    assert [(point.longitude, point.latitude) for point in found.waypoints] == [(1e-7, 0), (-180, -90), (-180, 90)]
    assert b"-0.0" not in content


def test_geojson_reads_back() -> None:
    """Zones of all tasks, walks and points of those laid out; positions to seven decimals; RFC 7946's rings."""
    points = features(PACKS, "point")
    assert [one["properties"]["number"] for one in points] == [1, 2, 3, 4] * 2
    assert points[0]["properties"]["zone"] == ODD
    assert points[0]["properties"]["layers"] == ["0-10 cm", "10-30 cm"]
    assert points[1]["properties"]["layers"] == ["0-10 cm"]
    assert len(points[0]["properties"]["bags"]) == 2
    assert points[2]["properties"]["in_row"] is True
    assert all(round(x, 7) == x for one in points for x in one["geometry"]["coordinates"])
    walks = features(PACKS, "walk")
    assert [one["geometry"]["type"] for one in walks] == ["LineString"] * 2
    assert walks[0]["geometry"]["coordinates"] == [one["geometry"]["coordinates"] for one in points[:4]]
    zones = features(PACKS, "zone")
    assert [one["properties"]["zone"] for one in zones] == [ODD, "Flat", "Hill"]
    for zone in zones:
        surface = shapely.geometry.shape(zone["geometry"])
        assert surface.is_valid
        assert surface.exterior.is_ccw
        assert "crs" not in zone


def test_holes_and_parts() -> None:
    """A hole turns right; two polygons make a multipolygon."""
    outer, inner = (square((150.0, -33.0), side).polygons[0][0] for side in (0.01, 0.004))
    shifted = tuple((x + 0.002, y + 0.002) for x, y in inner)
    pack = a_pack(("Ridge",))
    zone = pack.zones[0]
    outline = replace(square((0, 0)), polygons=((outer, shifted), (tuple((x + 1, y) for x, y in outer),)))
    made = replace(pack, zones=(replace(zone, zone=replace(zone.zone, outline=outline)),))
    (found,) = features((made,), "zone")
    surface = shapely.geometry.shape(found["geometry"])
    assert surface.geom_type == "MultiPolygon"
    assert surface.is_valid
    assert surface.geoms[0].exterior.is_ccw
    assert not surface.geoms[0].interiors[0].is_ccw


@pytest.mark.parametrize("way", [1, -1])
def test_a_walk_over_the_date_line_is_cut(way: int) -> None:
    """Two parts that meet at the date line, at the latitude where the straight line crosses it."""
    places = ((179.9998, -17.0), (179.9999, -17.0), (-179.9999, -17.0002), (-179.9998, -17.0))[::way]
    pack = with_positions(*places)
    (walk,) = features((pack,), "walk")
    assert walk["geometry"]["type"] == "MultiLineString"
    first, second = walk["geometry"]["coordinates"]
    assert first[-1] == [180.0 * way, -17.0001]
    assert second[0] == [-180.0 * way, -17.0001]
    assert [len(first), len(second)] == [3, 3]
    assert [one["geometry"]["coordinates"] for one in features((pack,), "point")] == [list(one) for one in places]
    assert [float(row["longitude"]) for row in rows((pack,))] == [one[0] for one in places]


def test_a_single_point_has_no_line() -> None:
    """Nothing is walked for a fixed point with one core."""
    pack = with_positions((150.0, -33.0))
    assert features((pack,), "walk") == []
    assert len(features((pack,), "point")) == 1


def test_csv_reads_back() -> None:
    """Every point a row; names that a spreadsheet would run stand behind an apostrophe, coordinates are numbers."""
    found = rows(PACKS)
    assert tuple(found[0]) == COLUMNS
    assert len(found) == 8
    first = found[0]
    assert first["zone"] == f"'{ODD}"
    assert (first["day"], first["farm"], first["protocol"]) == ("2027-03-02", "A & B's <farm>", "Topsoil under pasture")
    assert (first["longitude"], first["latitude"]) == ("150.0001235", "-32.9999000")
    assert first["layers"] == "0-10 cm; 10-30 cm"
    assert first["bags"] == "; ".join(bag.id for bag in PACKS[0].zones[0].tasks[0].bags)
    assert [row["in_row"] for row in found] == ["", "", "yes", ""] * 2
    assert found[4]["longitude"].startswith("-0.000")


def test_two_protocols_of_a_zone_are_told_apart() -> None:
    """Their walks and points have different names."""
    pack = a_pack(("Ridge",))
    zone = pack.zones[0]
    other = replace(zone.tasks[0], protocol=replace(zone.tasks[0].protocol, name="Deep nitrogen"))
    both = replace(pack, zones=(replace(zone, tasks=(zone.tasks[0], other)),))
    found = gpxpy.parse(points_gpx((both,)).decode())
    names = [point.name for point in found.waypoints]
    assert len(set(names)) == len(names) == 8
    assert names[4] == "Ridge, Deep nitrogen, 1"


def test_what_xml_cannot_hold_is_replaced() -> None:
    """A control character in a name does not break the file."""
    content = points_gpx((a_pack(("Bell\x07",)),))
    assert gpxpy.parse(content.decode()).routes[0].name == "Bell\ufffd"


def test_nothing_to_walk() -> None:
    """Files without points are still files."""
    SCHEMA.assertValid(etree.fromstring(points_gpx(())))
    assert json.loads(points_geojson(())) == {"type": "FeatureCollection", "features": []}
    assert rows(()) == []
