"""Random zones and places to avoid, in degrees: concave, pierced, thin, in parts, crossing, at the date line."""

from __future__ import annotations

import math
import os

import numpy as np
import shapely
from hypothesis import strategies as st

from soilrota.geometry.projection import LocalGrid, to_degrees
from soilrota.model.ground import AvoidedPlace, Outline, Position, Ring
from soilrota.problems import Place

PLACE = Place("map.geojson")
LONG = os.environ.get("SOILROTA_LONG") == "1"
#: Random zones a property test draws: few in an ordinary run, the full count with SOILROTA_LONG=1.
EXAMPLES = 1_000 if LONG else 60
#: Classes of the map's schema that have a distance of some size.
KINDS = ("fence", "gateway", "trough", "stock-camp", "tree-line", "road", "dump", "headland", "water", "other")


def metres(least: float, most: float) -> st.SearchStrategy[float]:
    """Lengths to the millimetre [m]: no map holds a coordinate of 1e-300."""
    return st.integers(round(least * 1000), round(most * 1000)).map(lambda millimetres: millimetres / 1000)


def middles() -> st.SearchStrategy[Position]:
    """Middles of zones [degree]: both hemispheres, often at the date line."""
    longitudes = st.sampled_from((-180.0, -179.9995, 179.9995, 180.0)) | st.integers(-1800, 1800).map(
        lambda ten: ten / 10
    )
    return st.tuples(longitudes, st.integers(-650, 650).map(lambda ten: ten / 10))


@st.composite
def stars(draw: st.DrawFn, most: float = 400.0) -> shapely.Polygon:
    """A star-shaped polygon of 3 to 12 corners, mostly concave [m]."""
    radii = draw(st.lists(metres(most / 20, most), min_size=3, max_size=12))
    turn = draw(st.integers(0, 359)) * math.pi / 180
    angles = [turn + 2 * math.pi * i / len(radii) for i in range(len(radii))]
    x, y = draw(st.tuples(metres(-most / 3, most / 3), metres(-most / 3, most / 3)))
    return shapely.Polygon([(x + r * math.cos(a), y + r * math.sin(a)) for r, a in zip(radii, angles, strict=True)])


@st.composite
def slivers(draw: st.DrawFn) -> shapely.Polygon:
    """A strip of 40 m to 800 m, 1 m to 40 m wide, turned anyhow [m]."""
    strip = shapely.box(0, 0, draw(metres(40, 800)), draw(metres(1, 40)))
    return shapely.affinity.rotate(strip, draw(st.integers(0, 359)), origin=(0, 0))


@st.composite
def grounds(draw: st.DrawFn) -> shapely.Geometry:
    """Stars and slivers together, with holes, valid [m]."""
    parts = draw(st.lists(stars() | slivers(), min_size=1, max_size=3))
    apart = draw(st.sampled_from((0.0, 0.0, 900.0)))
    whole = shapely.union_all([shapely.affinity.translate(part, i * apart) for i, part in enumerate(parts)])
    for hole in draw(st.lists(stars(most=60.0), max_size=2)):
        cut = shapely.difference(whole, hole)
        whole = cut if cut.area > 1 else whole
    return shapely.MultiPolygon([part for part in shapely.get_parts(whole) if isinstance(part, shapely.Polygon)])


def outline(ground: shapely.Geometry, middle: Position) -> Outline:
    """Return ground in metres round a middle [degree] as an outline, cut in two where it crosses the date line."""
    grid = LocalGrid(*middle)
    polygons = []
    for part in shapely.get_parts(ground):
        for polygon in to_degrees(part, grid):
            polygons += _cut(polygon)
    return Outline(tuple(polygons), PLACE)


def _cut(polygon: tuple[Ring, ...]) -> list[tuple[Ring, ...]]:
    """Return a polygon cut at longitude 180 as RFC 7946 asks; the way there keeps longitudes within half a turn."""
    longitudes = [longitude for longitude, _ in polygon[0]]
    if max(longitudes) - min(longitudes) < 180:
        return [polygon]
    rings = [[(x % 360, y) for x, y in ring] for ring in polygon]
    whole = shapely.make_valid(shapely.Polygon(rings[0], rings[1:]))
    found = []
    for west, shift in ((0.0, 0.0), (180.0, -360.0)):
        half = shapely.intersection(whole, shapely.box(west, -90, west + 180, 90))
        for part in shapely.get_parts(half):
            if isinstance(part, shapely.Polygon):
                both = (part.exterior, *part.interiors)
                found.append(tuple(tuple((x + shift, y) for x, y in ring.coords) for ring in both))
    return found


@st.composite
def crossing(draw: st.DrawFn) -> shapely.Polygon:
    """A ring of 4 to 7 corners in any order: mostly one that crosses itself [m]."""
    corners = st.tuples(metres(-200, 200), metres(-200, 200))
    return shapely.Polygon(draw(st.lists(corners, min_size=4, max_size=7, unique=True)))


@st.composite
def avoided_on(draw: st.DrawFn, middle: Position) -> AvoidedPlace:
    """A point, a line or an area to avoid, with or without its own distance, within some hundred metres."""
    grid = LocalGrid(*middle)
    shape = draw(st.sampled_from(("point", "line", "area")))
    corner = st.tuples(metres(-400, 400), metres(-400, 400))
    rings: list[list[tuple[float, float]]]
    if shape == "point":
        rings = [[draw(corner)]]
    elif shape == "line":
        rings = [draw(st.lists(corner, min_size=2, max_size=5))]
    else:
        star = draw(stars(most=80.0))
        rings = [list(star.exterior.coords)]
        hole = shapely.affinity.scale(star, 0.5, 0.5, origin=star.representative_point())
        if draw(st.booleans()) and shapely.contains_properly(star, hole):
            rings.append(list(hole.exterior.coords))
    buffer_m = draw(st.none() | metres(0, 60))
    positions = tuple(tuple(grid.degrees(ring)) for ring in rings)
    return AvoidedPlace("home", draw(st.sampled_from(KINDS)), "", shape, positions, buffer_m, PLACE)


@st.composite
def zones(draw: st.DrawFn) -> tuple[Outline, tuple[AvoidedPlace, ...], Position]:
    """A zone, its places to avoid, and the middle that it was drawn round [degree]."""
    middle = draw(middles())
    zone = outline(draw(grounds()), middle)
    return zone, tuple(draw(st.lists(avoided_on(middle), max_size=4))), middle


def drawn(rings: tuple[Ring, ...], grid: LocalGrid) -> shapely.Geometry:
    """Return the rings of a place as lines and points in metres, the slow and plain way [m]."""
    lines = [grid.metres(ring) for ring in rings]
    return shapely.union_all(
        [shapely.LineString(line) if len({*line}) > 1 else shapely.Point(line[0]) for line in lines]
    )


def solid(place: AvoidedPlace, grid: LocalGrid) -> shapely.Geometry:
    """Return a place of one part in metres, an area filled but for its holes [m]."""
    lines = drawn(place.positions, grid)
    if place.shape != "area":
        return lines
    ring, *holes = (grid.metres(ring) for ring in place.positions)
    return shapely.union(lines, shapely.make_valid(shapely.Polygon(ring, holes)))


def closest_pair_m(points: list[tuple[float, float]]) -> float:
    """Return the smallest distance between two points [m], pair by pair; infinite for fewer than two."""
    return min((math.dist(a, b) for i, a in enumerate(points) for b in points[:i]), default=math.inf)


def as_points(points: list[tuple[float, float]]) -> np.ndarray:
    """Return pairs as points of the geometry library."""
    return shapely.points(np.reshape(points, (-1, 2)))
