"""How large, how long, how much in common, how far."""

from __future__ import annotations

from functools import lru_cache

import pyproj
import shapely

from soilrota.geometry.projection import Surface, beside, bounds, grid_for, to_metres
from soilrota.model.ground import Outline, Position

SQUARE_METRES_A_HECTARE = 10_000.0
METRES_A_KILOMETRE = 1_000.0


@lru_cache(maxsize=256)
def surface(outline: Outline) -> Surface:
    """Return the outline in metres [m] on the grid centred on itself."""
    return to_metres(outline, grid_for(outline))


def area_ha(outline: Outline) -> float:
    """Return the area on the WGS 84 ellipsoid [ha], holes taken out; a self-crossing outline has no useful area."""
    return float(surface(outline).area) / SQUARE_METRES_A_HECTARE


def perimeter_m(outline: Outline) -> float:
    """Return the length of all rings [m], holes included."""
    return float(surface(outline).length)


def overlap_ha(one: Outline, other: Outline) -> float:
    """Return the area that two valid outlines have in common [ha]."""
    grid = grid_for(one, other)
    common = shapely.intersection(to_metres(one, grid), to_metres(other, grid))
    return float(common.area) / SQUARE_METRES_A_HECTARE


def covered_share(outline: Outline, cover: Outline) -> float:
    """Return the share of a valid outline's area that a valid cover covers, from 0 to 1 [-]."""
    whole = area_ha(outline)
    return min(overlap_ha(outline, cover) / whole, 1.0) if whole > 0 else 0.0


def inside(position: Position, outline: Outline) -> bool:
    """Return whether the position lies in the outline or on its edge."""
    grid = grid_for(outline)
    x, y = grid.metres([position])[0]
    return bool(shapely.intersects_xy(to_metres(outline, grid), x, y))


def extent_km(outline: Outline) -> float:
    """Return the length of the diagonal of the outline's bounding box [km]."""
    west, south, east, north = bounds(outline)
    return _apart_km((west, south), (east, north))


def distance_km(outline: Outline, position: Position) -> float:
    """Return the distance from the position to the nearest point of the outline's bounding box [km]; 0 inside it."""
    west, south, east, north = bounds(outline)
    longitude = beside(position[0], (west + east) / 2)
    nearest = min(max(longitude, west), east), min(max(position[1], south), north)
    return _apart_km(nearest, position)


def apart_m(one: Position, other: Position) -> float:
    """Return the length of the geodesic between two positions on the WGS 84 ellipsoid [m]."""
    *_, metres = _ellipsoid().inv(*one, *other)
    return float(metres)


def _apart_km(one: Position, other: Position) -> float:
    """Return the length of the geodesic between two positions [km]."""
    return apart_m(one, other) / METRES_A_KILOMETRE


@lru_cache(maxsize=1)
def _ellipsoid() -> pyproj.Geod:
    """Return the WGS 84 ellipsoid."""
    return pyproj.Geod(ellps="WGS84")
