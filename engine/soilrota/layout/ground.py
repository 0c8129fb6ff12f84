"""What is left of a zone for cores: the zone less its edge and less every place to avoid, each with its distance.

Distances are kept, never nearly kept. A round buffer of the library is a polygon within the circle; here it is drawn
round the circle instead. One per cent is added for the smoothing that the library does unasked, and a few centimetres
for rounding on the way to degrees and into files. A shape that crosses itself is made valid and never raises; where
that leaves doubt about what a place covers, its drawn lines are kept away from all the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import shapely

from soilrota.geometry.projection import FULL_TURN, HALF_TURN, LocalGrid, Surface, grid_for, positions_of
from soilrota.model.ground import AvoidedPlace, Outline, Ring
from soilrota.model.layout import KeptDistance

#: Added to every distance [m]: what seven decimals of a degree and the projection's way back lose, and to spare.
MARGIN_M = 0.03
#: Less than this is no ground to put an auger into [m2].
_LEAST_PART_M2 = 0.01
#: Corners of a quarter of a round buffer [-].
_CORNERS = 8
#: The library smooths a line by up to this share of the distance before it draws round it [-].
_SMOOTHED = 0.01
#: The radius of a circle of so many corners that, smoothed, still lies round the circle of radius 1 [-].
_ROUND = 1 / (math.cos(math.pi / (4 * _CORNERS)) * (1 - _SMOOTHED))
#: Areas that differ by less are the same [-].
_SAME_SHARE = 1e-9
#: The class of a place of which the class is not in the table.
_OTHER = "other"
_LEAST_RING, _LEAST_LINE = 3, 2


@dataclass(frozen=True, slots=True)
class FreeGround:
    """A zone on its grid, and what is left of it.

    Attributes:
        grid: metres centred on the zone.
        zone: the zone, made valid [m].
        free: where cores may lie [m]; may be empty.
        kept_away: what places to avoid take out of the zone, distances included [m]; may be empty.
        places: places that take something out [-].
        edge_m: distance kept from the zone's edge [m].
    """

    grid: LocalGrid
    zone: Surface
    free: Surface
    kept_away: Surface
    places: int
    edge_m: float

    @property
    def pieces(self) -> tuple[shapely.Polygon, ...]:
        """Return the pieces of what is left, the largest first."""
        return tuple(sorted(polygons_in(self.free), key=lambda part: (-part.area, part.bounds)))


def free_ground(
    outline: Outline, avoided: Iterable[AvoidedPlace], edge_m: float, classes: Mapping[str, KeptDistance]
) -> FreeGround:
    """Return what is left of the zone.

    Args:
        outline: the zone; several parts, holes and the date line are welcome.
        avoided: places that cores keep away from, each with its own distance or that of its class.
        edge_m: distance from the zone's edge [m], holes included.
        classes: distances by class; a class that is not there counts as `other`.
    """
    if not any(True for _ in positions_of(outline)):
        empty = shapely.Polygon()
        return FreeGround(LocalGrid(0.0, 0.0), empty, empty, empty, 0, edge_m)
    grid = grid_for(outline)
    zone = zone_surface(outline, grid)
    inner = shapely.buffer(zone, -drawn_round(edge_m), quad_segs=_CORNERS)
    buffers = [_kept_from(place, grid, classes) for place in avoided]
    taking = [buffer for buffer in buffers if shapely.intersects(zone, buffer)]
    taken = shapely.union_all(taking)
    free = surface_of(shapely.difference(inner, taken))
    return FreeGround(grid, zone, free, surface_of(shapely.intersection(zone, taken)), len(taking), edge_m)


def drawn_round(metres: float) -> float:
    """Return the radius of a buffer [m] so that its corners and sides all lie beyond the distance [m]."""
    return (metres + MARGIN_M) * _ROUND


def polygons_in(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """Return the polygons of any shape that are large enough for a core."""
    found: list[shapely.Polygon] = []
    for part in shapely.get_parts(shape):
        if isinstance(part, shapely.Polygon):
            found += [part] * (part.area >= _LEAST_PART_M2)
        elif isinstance(part, shapely.MultiPolygon | shapely.GeometryCollection):
            found += polygons_in(part)
    return found


def surface_of(shape: shapely.Geometry) -> Surface:
    """Return the polygons of any shape as one surface; lines and points fall away."""
    parts = polygons_in(shape)
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def zone_surface(outline: Outline, grid: LocalGrid) -> Surface:
    """Return the zone on the grid [m], valid, parts that touch joined; empty where it has no area.

    RFC 7946, section 3.1.9, cuts a surface in two at the date line. There both halves end at 180 degrees exactly, so
    in degrees they are joined without a crack; in metres rounding would leave one, and a crack is an edge.
    """
    polygons = [polygon for polygon in outline.polygons if polygon and len(polygon[0]) >= _LEAST_RING]
    halves = [polygon for polygon in polygons if any(abs(longitude) == HALF_TURN for longitude, _ in polygon[0])]
    parts = [_valid([grid.metres(ring) for ring in polygon]) for polygon in polygons if polygon not in halves]
    if len(halves) > 1:
        joined = shapely.union_all([_valid([_eastwards(ring) for ring in polygon]) for polygon in halves])
        parts += [_valid(rings) for rings in _rings_in_metres(joined, grid)]
    else:
        parts += [_valid([grid.metres(ring) for ring in polygon]) for polygon in halves]
    return surface_of(shapely.union_all([surface_of(part) for part in parts]))


def _valid(rings: Sequence[Sequence[tuple[float, float]]]) -> shapely.Geometry:
    """Return the valid shape of a polygon: outer ring first, then holes; holes without area fall away."""
    outer, *holes = rings
    return shapely.make_valid(shapely.Polygon(outer, [hole for hole in holes if len(hole) >= _LEAST_RING]))


def _eastwards(ring: Ring) -> Ring:
    """Return a ring near the date line with longitudes that run on past 180 [degree], exactly."""
    return tuple((longitude + FULL_TURN if longitude < 0 else longitude, latitude) for longitude, latitude in ring)


def _rings_in_metres(surface: shapely.Geometry, grid: LocalGrid) -> Iterator[list[list[tuple[float, float]]]]:
    """Yield the rings in metres of every polygon of a surface in degrees."""
    for part in shapely.get_parts(surface):
        if isinstance(part, shapely.Polygon):
            yield [grid.metres(list(ring.coords)) for ring in (part.exterior, *part.interiors)]


def _kept_from(place: AvoidedPlace, grid: LocalGrid, classes: Mapping[str, KeptDistance]) -> shapely.Geometry:
    """Return the place with its distance [m]."""
    metres = place.buffer_m
    if metres is None:
        metres = classes.get(place.kind, classes[_OTHER]).metres
    return shapely.buffer(_drawn(place, grid), drawn_round(max(metres, 0.0)), quad_segs=_CORNERS)


def _drawn(place: AvoidedPlace, grid: LocalGrid) -> shapely.Geometry:
    """Return a place as it is drawn [m]: lines and points as such, areas with their drawn outline."""
    rings = [_near(ring, grid) for ring in place.positions]
    lines = [_line(ring) for ring in rings if ring]
    if place.shape != "area":
        return shapely.union_all(lines)
    return shapely.union_all([*lines, _filled([ring for ring in rings if len(ring) >= _LEAST_RING])])


def _near(positions: Ring, grid: LocalGrid) -> list[tuple[float, float]]:
    """Return positions in metres; what lies at the other end of the Earth, by a slip on the map, has none."""
    return [(x, y) for x, y in grid.metres(positions) if math.isfinite(x) and math.isfinite(y)]


def _line(points: Sequence[tuple[float, float]]) -> shapely.Geometry:
    """Return points as a line, or one point where all are the same [m]: joining lines loses those without length."""
    return shapely.LineString(points) if len(set(points)) >= _LEAST_LINE else shapely.Point(points[0])


def _filled(rings: list[list[tuple[float, float]]]) -> shapely.Geometry:
    """Return the area of rings [m].

    A place to avoid carries its rings without saying which are holes. A ring that lies inside another is a hole of
    it, one inside a hole is ground to avoid again; rings that only overlap are both avoided.
    """
    areas = [shapely.make_valid(shapely.Polygon(ring), method="structure") for ring in rings]
    areas.sort(key=lambda area: -float(shapely.area(area)))
    inside = [
        [other for other in range(number) if _inside(areas[number], areas[other])] for number in range(len(areas))
    ]
    filled = []
    for number, area in enumerate(areas):
        if len(inside[number]) % 2 == 0:
            holes = [
                areas[hole]
                for hole in range(number + 1, len(areas))
                if number in inside[hole] and len(inside[hole]) == len(inside[number]) + 1
            ]
            filled.append(shapely.difference(area, shapely.union_all(holes)))
    return shapely.union_all(filled)


def _inside(one: shapely.Geometry, other: shapely.Geometry) -> bool:
    """Return whether one area lies in the other and is smaller; the same ring drawn twice is no hole."""
    return bool(shapely.area(one) < shapely.area(other) * (1 - _SAME_SHARE) and shapely.covers(other, one))
