"""What a crew loads into a phone: points, walks and zones as GPX 1.1, GeoJSON (RFC 7946) and CSV.

All three carry the same points, visit by visit in the order of the route, with longitude and latitude of WGS 84 to
seven decimals (about a centimetre). A task without a layout has no points and is left out; GeoJSON still shows its
zone.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from soilrota.documents.dates import digits
from soilrota.documents.shapes import DECIMALS, feature, surface
from soilrota.files import safe_table
from soilrota.language import say_as, say_count, speaking
from soilrota.model.field_pack import FieldPack, PackTask, PackZone
from soilrota.model.ground import Position
from soilrota.model.layout import CorePoint, ZoneLayout

#: Columns of the table, all text: `day` of the visit (ISO), names, `number` of the point in its walk, `longitude` and
#: `latitude` [degree], `layers` taken there [cm] and their `bags` (both joined by `; `), `in_row` `yes` or empty.
COLUMNS = ("day", "farm", "zone", "protocol", "number", "longitude", "latitude", "layers", "in_row", "bags")
_HALF_TURN = 180.0
_FULL_TURN = 360.0
#: Characters that XML 1.0 cannot hold.
_NO_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class _Walk:
    """One walk of one visit: where it belongs, its layout, and what it is called, unlike the visit's other walks."""

    pack: FieldPack
    zone: PackZone
    task: PackTask
    layout: ZoneLayout
    name: str


def points_gpx(packs: Iterable[FieldPack]) -> bytes:
    """Return the points as GPX 1.1: a waypoint a point, in walking order, and a route a walk."""
    from gpxpy import gpx as xml  # noqa: PLC0415  # only packs need it

    made = xml.GPX()
    made.creator = "soilrota"
    for walk in _walks(packs):
        route = xml.GPXRoute(name=_xml(walk.name), description=_xml(f"{walk.pack.farm.name}, {walk.pack.day}"))
        for point in walk.layout.points:
            longitude, latitude = _rounded(point.position)
            name = _xml(f"{walk.name} {point.number}")
            with speaking(walk.pack.client.language):
                description = _xml(_description(walk, point))
            made.waypoints.append(xml.GPXWaypoint(latitude, longitude, name=name, description=description))
            route.points.append(xml.GPXRoutePoint(latitude, longitude, name=name))
        made.routes.append(route)
    return f"{made.to_xml(version='1.1')}\n".encode()


def points_geojson(packs: Iterable[FieldPack]) -> bytes:
    """Return the zones, walks and points as GeoJSON (RFC 7946), each feature with its `kind`."""
    given = tuple(packs)
    features = [*_zone_features(given)]
    for walk in _walks(given):
        features += _walk_features(walk)
    collection = {"type": "FeatureCollection", "features": features}
    return f"{json.dumps(collection, ensure_ascii=False, indent=1)}\n".encode()


def points_csv(packs: Iterable[FieldPack]) -> bytes:
    """Return the points as CSV, one a row."""
    rows = (
        {
            "day": walk.pack.day.isoformat(),
            "farm": walk.pack.farm.name,
            "zone": walk.zone.zone.name,
            "protocol": walk.task.protocol.name,
            "number": str(point.number),
            "longitude": f"{_rounded(point.position)[0]:.{DECIMALS}f}",
            "latitude": f"{_rounded(point.position)[1]:.{DECIMALS}f}",
            "layers": "; ".join(_layers(point)),
            "in_row": "yes" if point.in_row else "",
            "bags": "; ".join(_bags(walk.task, point)),
        }
        for walk in _walks(packs)
        for point in walk.layout.points
    )
    return safe_table(COLUMNS, rows, numbers={"longitude", "latitude"})


def _walks(packs: Iterable[FieldPack]) -> Iterator[_Walk]:
    """Yield the walks; a zone with more than one is told apart by its protocols."""
    for pack in packs:
        for zone in pack.zones:
            laid_out = [(task, task.layout) for task in zone.tasks if task.layout is not None and task.layout.points]
            for task, layout in laid_out:
                name = zone.zone.name if len(laid_out) == 1 else f"{zone.zone.name}, {task.protocol.name},"
                yield _Walk(pack, zone, task, layout, name)


def _layers(point: CorePoint) -> list[str]:
    """Return the layers taken at a point [cm]."""
    return [f"{top:g}-{bottom:g} cm" for top, bottom in point.layers]


def _bags(task: PackTask, point: CorePoint) -> list[str]:
    """Return the bags that a point's cores go into."""
    return [bag.id for bag in task.bags if (bag.top_cm, bag.bottom_cm) in point.layers]


def _description(walk: _Walk, point: CorePoint) -> str:
    """Return what is done at a point, in one line."""
    said = [walk.pack.farm.name, walk.task.protocol.name, digits(", ".join(_layers(point)))]
    if point.in_row:
        said.append(say_as("point", "in the row"))
    bags = _bags(walk.task, point)
    if bags:
        said.append(say_count("bag {bags}", "bags {bags}", len(bags), bags=", ".join(bags)))
    return "; ".join(said)


def _zone_features(packs: Iterable[FieldPack]) -> Iterator[dict[str, Any]]:
    """Yield the outline of every zone that the map draws."""
    for pack in packs:
        for zone in pack.zones:
            if zone.zone.outline is not None:
                known = {"day": pack.day.isoformat(), "farm": pack.farm.name, "zone": zone.zone.name}
                yield feature("zone", surface(zone.zone.outline), known)


def _walk_features(walk: _Walk) -> Iterator[dict[str, Any]]:
    """Yield the line of a walk, then its points."""
    known = {
        "day": walk.pack.day.isoformat(),
        "farm": walk.pack.farm.name,
        "zone": walk.zone.zone.name,
        "protocol": walk.task.protocol.name,
    }
    parts = _cut(walk.layout.walk)
    if len(parts) == 1:
        yield feature("walk", {"type": "LineString", "coordinates": parts[0]}, known)
    elif parts:
        yield feature("walk", {"type": "MultiLineString", "coordinates": parts}, known)
    for point in walk.layout.points:
        told = {
            "number": point.number,
            "layers": _layers(point),
            "in_row": point.in_row,
            "bags": _bags(walk.task, point),
        }
        yield feature("point", {"type": "Point", "coordinates": _rounded(point.position)}, known | told)


def _cut(line: tuple[Position, ...]) -> list[list[Position]]:
    """Return a line in parts that do not cross the date line; RFC 7946, section 3.1.9. A single place has no part."""
    parts: list[list[Position]] = [[line[0]]] if line else []
    for (x1, y1), (x2, y2) in pairwise(line):
        if abs(x2 - x1) > _HALF_TURN:
            edge = _HALF_TURN if x1 > 0 else -_HALF_TURN
            on = x2 + (_FULL_TURN if x1 > 0 else -_FULL_TURN)
            y = y1 if on == x1 else y1 + (y2 - y1) * (edge - x1) / (on - x1)
            parts[-1].append((edge, y))
            parts.append([(-edge, y)])
        parts[-1].append((x2, y2))
    return [[(round(x, DECIMALS), round(y, DECIMALS)) for x, y in part] for part in parts if len(part) > 1]


def _rounded(position: Position) -> Position:
    """Return a position to seven decimals, its longitude from -180 up to but not 180, as GPX asks."""
    longitude, latitude = round(position[0], DECIMALS), round(position[1], DECIMALS)
    # Adding nought makes a rounded -0.0 plain.
    return (-_HALF_TURN if longitude >= _HALF_TURN else longitude + 0.0), latitude + 0.0


def _xml(words: str) -> str:
    """Return words without what XML cannot hold."""
    return _NO_XML.sub("\ufffd", words)
