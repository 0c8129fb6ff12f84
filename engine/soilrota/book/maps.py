"""From a client's map (RFC 7946) to features, outlines and places to avoid. Nothing is measured here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from soilrota.book.parts import Feature, Located
from soilrota.book.places import items
from soilrota.model.ground import AvoidedPlace, Outline, Polygon, Position, Ring
from soilrota.problems import Place, Problem, error

#: Positions of a closed ring at the least, RFC 7946, section 3.1.6.
_RING_LEAST = 4
_SHAPES = {"Point": "point", "LineString": "line", "Polygon": "area", "MultiPolygon": "area"}


def build_features(file: Located[Mapping[str, Any]]) -> tuple[tuple[Located[Feature], ...], tuple[Problem, ...]]:
    """Return the features of a map, in the order of the file.

    Returns:
        The features; problems: `ring-not-closed`, and such a feature is left out.
    """
    features: list[Located[Feature]] = []
    problems: list[Problem] = []
    for item in items(file, "features"):
        polygons = tuple(_polygons(item.data["geometry"]))
        place = item.at("geometry")
        faults = [_not_closed(place, ring) for polygon in polygons for ring in polygon if not _closed(ring)]
        problems += faults
        if not faults:
            features.append(item.holding(_feature(item.data, polygons, place)))
    return tuple(features), tuple(problems)


def _feature(data: Mapping[str, Any], polygons: tuple[Polygon, ...], place: Place) -> Feature:
    """Return one feature."""
    properties, geometry = data["properties"], data["geometry"]
    lines = tuple(ring for polygon in polygons for ring in polygon) or (_line(geometry),)
    return Feature(
        kind=properties["kind"],
        farm=properties["farm"],
        zone=properties.get("zone", ""),
        shape=_SHAPES[geometry["type"]],
        positions=lines,
        outline=Outline(polygons, place) if polygons else None,
    )


def _polygons(geometry: Mapping[str, Any]) -> Iterator[Polygon]:
    """Yield the polygons of a geometry: outer ring first, then holes."""
    written = {"Polygon": [geometry["coordinates"]], "MultiPolygon": geometry["coordinates"]}
    for polygon in written.get(geometry["type"], []):
        yield tuple(tuple(_position(position) for position in ring) for ring in polygon)


def _line(geometry: Mapping[str, Any]) -> Ring:
    """Return the positions of a point or a line."""
    coordinates = geometry["coordinates"]
    return (_position(coordinates),) if geometry["type"] == "Point" else tuple(_position(one) for one in coordinates)


def _position(coordinates: list[float]) -> Position:
    """Return longitude and latitude [degree]; a height is left out."""
    return float(coordinates[0]), float(coordinates[1])


def _closed(ring: Ring) -> bool:
    """Return whether the ring ends where it starts and has three corners."""
    return len(ring) >= _RING_LEAST and ring[0] == ring[-1]


def _not_closed(place: Place, ring: Ring) -> Problem:
    """Return the error that a ring is not closed."""
    found = f"a ring of {len(ring)} positions that does not end where it starts"
    if ring[0] == ring[-1]:
        found = f"a ring of {len(ring)} positions"
    expected = "three corners or more, and the first position again at the end"
    return error("ring-not-closed", place, found, expected, "repeat the first position at the end")


def outlines_of(features: Iterable[Located[Feature]]) -> dict[tuple[str, str], Outline]:
    """Return the outlines of zones by (farm, zone), and of farms by (farm, empty); the first drawn where doubled."""
    outlines: dict[tuple[str, str], Outline] = {}
    for feature in features:
        value = feature.value
        if value.kind in {"farm", "zone"} and value.outline is not None:
            outlines.setdefault((value.farm, value.zone), value.outline)
    return outlines


def access_of(features: Iterable[Located[Feature]]) -> dict[str, Position]:
    """Return where a crew starts, by farm."""
    access: dict[str, Position] = {}
    for feature in features:
        if feature.value.kind == "access":
            access.setdefault(feature.value.farm, feature.value.positions[0][0])
    return access


def fixed_points_of(features: Iterable[Located[Feature]]) -> dict[tuple[str, str], Position]:
    """Return the middle of the cluster of cores by (farm, zone); the first drawn where doubled."""
    points: dict[tuple[str, str], Position] = {}
    for feature in features:
        value = feature.value
        if value.kind == "fixed-point":
            points.setdefault((value.farm, value.zone), value.positions[0][0])
    return points


def avoided_of(features: Iterable[Located[Feature]]) -> dict[str, tuple[AvoidedPlace, ...]]:
    """Return the places that cores keep away from, by farm, in the order of the file."""
    avoided: defaultdict[str, list[AvoidedPlace]] = defaultdict(list)
    for feature in features:
        if feature.value.kind == "avoid":
            avoided[feature.value.farm].append(_avoided(feature))
    return {farm: tuple(places) for farm, places in avoided.items()}


def _avoided(feature: Located[Feature]) -> AvoidedPlace:
    """Return one place to avoid."""
    properties = feature.data["properties"]
    buffer = properties.get("buffer_m")
    return AvoidedPlace(
        farm=feature.value.farm,
        kind=properties["class"],
        name=properties.get("name", ""),
        shape=feature.value.shape,
        positions=feature.value.positions,
        buffer_m=None if buffer is None else float(buffer),
        place=feature.at("geometry"),
    )
