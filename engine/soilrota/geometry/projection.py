"""A local grid in metres for one farm: equal-area, centred on it, the same everywhere on Earth.

Lambert's azimuthal equal-area projection on the WGS 84 ellipsoid keeps areas exactly and, over the few kilometres
of a farm, lengths to better than one part in a million [1]. A grid of our own a farm has no zone borders, works at
the date line and needs no data files. The way back to degrees is true to a millimetre or two.

References:
    1. Snyder, J. P. (1987). Map Projections: A Working Manual. U.S. Geological Survey Professional Paper 1395,
       pages 182-190.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt
import pyproj
import shapely

from soilrota.model.ground import Outline, Polygon, Position, Ring

HALF_TURN = 180.0
FULL_TURN = 360.0

#: A surface in metres.
Surface = shapely.Polygon | shapely.MultiPolygon


@dataclass(frozen=True, slots=True)
class LocalGrid:
    """A grid in metres, x to the east and y to the north of its centre.

    Attributes:
        longitude, latitude: the centre [degree]; x and y are 0 there.
    """

    longitude: float
    latitude: float

    def metres(self, positions: Sequence[Position]) -> list[tuple[float, float]]:
        """Return (x, y) [m] of each position (longitude, latitude) [degree]."""
        return _pairs(self._projected(positions, inverse=False))

    def degrees(self, points: Sequence[tuple[float, float]]) -> list[Position]:
        """Return (longitude, latitude) [degree], longitudes from -180 to 180, of each point (x, y) [m]."""
        there = self._projected(points, inverse=True)
        there[:, 0] = np.clip(there[:, 0], -HALF_TURN, HALF_TURN)  # rounding goes past the date line by a last bit
        return _pairs(there)

    def _projected(self, pairs: Sequence[tuple[float, float]], *, inverse: bool) -> npt.NDArray[np.float64]:
        """Return the pairs on the other side of the projection, one a row."""
        columns = np.asarray(pairs, dtype=np.float64).reshape(-1, 2)
        there = _projection(self.longitude, self.latitude)
        return np.column_stack(there(columns[:, 0].copy(), columns[:, 1].copy(), inverse=inverse))


@lru_cache(maxsize=256)
def _projection(longitude: float, latitude: float) -> pyproj.Proj:
    """Return the projection centred there; PROJ wraps longitudes around the centre."""
    return pyproj.Proj(proj="laea", lon_0=longitude, lat_0=latitude, ellps="WGS84")


def _pairs(columns: npt.NDArray[np.float64]) -> list[tuple[float, float]]:
    """Return the rows of an array of two columns as tuples."""
    return [(x, y) for x, y in columns.tolist()]


def positions_of(outline: Outline) -> Iterable[Position]:
    """Yield every position of the outline, rings one after the other."""
    for polygon in outline.polygons:
        for ring in polygon:
            yield from ring


def beside(longitude: float, reference: float) -> float:
    """Return the longitude [degree] plus or minus whole turns so that it lies within half a turn of the reference."""
    return reference + (longitude - reference + HALF_TURN) % FULL_TURN - HALF_TURN


def bounds(*outlines: Outline) -> tuple[float, float, float, float]:
    """Return west, south, east, north [degree] of the outlines together.

    Across the date line, west and east run on past 180 rather than around the Earth: -180.1 to -179.9.

    Raises:
        ValueError: where the outlines hold no position.
    """
    positions = [position for outline in outlines for position in positions_of(outline)]
    if not positions:
        raise ValueError("an outline without positions has no bounds")
    first = positions[0][0]
    longitudes = [beside(longitude, first) for longitude, _ in positions]
    latitudes = [latitude for _, latitude in positions]
    return min(longitudes), min(latitudes), max(longitudes), max(latitudes)


def grid_for(*outlines: Outline) -> LocalGrid:
    """Return the grid centred on the bounding box of the outlines together.

    The outlines are meant to lie within a few hundred kilometres of each other.
    """
    west, south, east, north = bounds(*outlines)
    return LocalGrid(beside((west + east) / 2, 0.0), (south + north) / 2)


def to_metres(outline: Outline, grid: LocalGrid) -> Surface:
    """Return the outline on the grid [m].

    Parts that touch or overlap become one: RFC 7946, section 3.1.9, cuts a surface in two at the date line.

    Raises:
        ValueError: where a ring has fewer than three corners.
    """
    parts = [_polygon(polygon, grid) for polygon in outline.polygons]
    if len(parts) == 1:
        return parts[0]
    together = shapely.MultiPolygon(parts)
    if together.is_valid or not all(part.is_valid for part in parts):
        return together
    joined = shapely.union_all(parts)
    return joined if isinstance(joined, shapely.Polygon | shapely.MultiPolygon) else together


def _polygon(polygon: Polygon, grid: LocalGrid) -> shapely.Polygon:
    """Return one polygon on the grid [m]."""
    outer, *holes = (grid.metres(ring) for ring in polygon)
    return shapely.Polygon(outer, holes)


def to_degrees(surface: Surface, grid: LocalGrid) -> tuple[Polygon, ...]:
    """Return the polygons of a surface on the grid [m] as rings of (longitude, latitude) [degree]."""
    parts = surface.geoms if isinstance(surface, shapely.MultiPolygon) else (surface,)
    return tuple(_rings(part, grid) for part in parts)


def _rings(part: shapely.Polygon, grid: LocalGrid) -> tuple[Ring, ...]:
    """Return the rings of one polygon in degrees."""
    rings = (part.exterior, *part.interiors)
    return tuple(tuple(grid.degrees([(x, y) for x, y, *_ in ring.coords])) for ring in rings)
