"""Cores of a cluster: a square lattice round a fixed point, as wide as its radius and the free ground allow.

A fixed spot that is sampled year after year takes its cores from a small area: 25 to 30 cores from a fixed square of
5 m x 5 m are published. Here the cores fill the disc round the fixed point, so that the zone's figure for the
radius holds in every direction; only where the free ground cuts into the disc do they lie closer together.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
import numpy.typing as npt
import shapely

from soilrota.geometry.projection import Surface
from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule

#: Points on the edge of free ground count as in it; rounding puts them so far outside at most [m].
ON_THE_EDGE_M = 1e-6
#: Two cores of a cluster are two holes: an auger is narrower than this [m] (common practice, no source).
CLOSEST_M = 0.1
#: Places as deep inside as the deepest, to this share [-], are deep enough: of them the middle one is taken.
_NEARLY_DEEPEST = 0.98
#: Each spacing tried is this share of the one before [-].
_STEP = 0.98
#: Directions closer than this are one [rad].
_SAME_TURN = 1e-9

_Point = tuple[float, float]
_Array = npt.NDArray[np.float64]


def cluster(free: Surface, centre: _Point | None, n: int, least_m: float, radius_m: float) -> list[_Point] | Misfit:
    """Return the cores of a cluster, those nearest the fixed point first, or why too few fit.

    The lattice starts at the fixed point. It lies along the axes of the grid or along the free ground round the
    fixed point, whichever leaves more room between the cores.

    Args:
        free: where cores may lie [m].
        centre: the fixed point [m]; outside free ground the nearest place in it is used; None: the deepest inside.
        n: cores wanted [-].
        least_m: smallest distance between two cores [m]; `CLOSEST_M` where it is less.
        radius_m: how far from the fixed point a core may lie at most [m].
    """
    if free.is_empty:
        return _too_few(n, 0, radius_m)
    middle = centre_used(free, centre)
    disc = _Disc(free, middle, radius_m)
    most = 0
    for spacing in _spacings(n, max(least_m, CLOSEST_M), radius_m):
        for turn in disc.turns:
            points = disc.lattice(spacing, turn)
            if len(points) >= n:
                return points[:n]
            most = max(most, len(points))
    return _too_few(n, most, radius_m)


def centre_used(free: Surface, centre: _Point | None) -> _Point:
    """Return where the cluster's middle comes to lie [m].

    Args:
        free: where cores may lie [m]; not empty.
        centre: the fixed point [m]; None for the point deepest inside; of several as deep the one in the middle.
    """
    if centre is None:
        return _deepest(free)
    point = shapely.Point(centre)
    if shapely.intersects(free, point):
        return centre
    nearest = shapely.shortest_line(free, point)
    return float(nearest.coords[0][0]), float(nearest.coords[0][1])


def centre_moved_m(free: Surface, centre: _Point | None) -> float:
    """Return how far the fixed point lies from the middle of the cluster [m]; 0 in free ground and for None."""
    return 0.0 if centre is None else math.dist(centre, centre_used(free, centre))


def _too_few(wanted: int, fit: int, radius_m: float) -> Misfit:
    """Return the misfit of a cluster."""
    return Misfit(LayoutRule.TOO_FEW_FIT, {"wanted": wanted, "fit": fit, "radius_m": radius_m})


def _deepest(free: Surface) -> _Point:
    """Return the point farthest from the edge [m], in the middle of the places that are as deep.

    A long strip is equally deep along its whole middle line; at the end of that line half the disc would be lost.
    """
    circle = shapely.maximum_inscribed_circle(free)
    x, y = circle.coords[0]
    inner = shapely.buffer(free, -_NEARLY_DEEPEST * circle.length)
    parts = [part for part in shapely.get_parts(inner) if isinstance(part, shapely.Polygon) and not part.is_empty]
    if parts:
        largest = max(parts, key=lambda part: part.area)
        x, y = shapely.shortest_line(largest, largest.centroid).coords[0]
    return float(x), float(y)


def _spacings(n: int, least_m: float, radius_m: float) -> Iterator[float]:
    """Yield the spacings to try [m], from the radius down to the least.

    On open ground n cores fit where a ring of the lattice, at the root of a sum of two squares times the spacing,
    comes to lie on the disc's edge; so those spacings are tried exactly, and even steps between them.
    """
    steps = math.floor(math.log(max(radius_m / least_m, 1.0)) / -math.log(_STEP))
    even = {radius_m * _STEP**step for step in range(steps + 1)}
    reach = math.isqrt(n) + 1
    rings = {i * i + j * j for i in range(reach + 1) for j in range(i + 1)} - {0}
    exact = {radius_m / math.sqrt(ring) for ring in rings}
    yield from sorted((spacing for spacing in {*even, *exact, least_m} if spacing >= least_m), reverse=True)


class _Disc:
    """The free ground within the radius of a middle, and the lattices in it."""

    def __init__(self, free: Surface, middle: _Point, radius_m: float) -> None:
        """Find the directions of the lattices."""
        self._middle = middle
        self._radius = radius_m
        self._free = free
        x, y = middle
        box = shapely.box(x - radius_m, y - radius_m, x + radius_m, y + radius_m)
        self.turns = _turns(shapely.intersection(free, box))
        shapely.prepare(free)

    def lattice(self, spacing: float, turn: float) -> list[_Point]:
        """Return the lattice's points in the free disc [m], nearest first, round from the lattice's own axis."""
        reach = math.floor(self._radius / spacing + 1e-9)
        i, j = (steps.ravel() for steps in np.mgrid[-reach : reach + 1, -reach : reach + 1])
        within = (i * i + j * j) * spacing * spacing <= self._radius * self._radius * (1 + 1e-12)
        i, j = i[within], j[within]
        order = np.lexsort((i, j, i * i + j * j))
        steps = np.column_stack((i[order], j[order])) * spacing
        cos, sin = math.cos(turn), math.sin(turn)
        points: _Array = steps @ np.array(((cos, sin), (-sin, cos))) + self._middle
        inside = shapely.dwithin(self._free, shapely.points(points), ON_THE_EDGE_M)
        return [(x, y) for x, y in points[inside].tolist()]


def _turns(near: shapely.Geometry) -> tuple[float, ...]:
    """Return the directions of the lattice [rad]: the grid's, and that of the free ground near the middle."""
    frame = shapely.minimum_rotated_rectangle(near)
    if not isinstance(frame, shapely.Polygon) or frame.is_empty:
        return (0.0,)
    (x0, y0), (x1, y1) = frame.exterior.coords[:2]
    turn = math.atan2(y1 - y0, x1 - x0) % (math.pi / 2)
    return (0.0, turn) if _SAME_TURN < turn < math.pi / 2 - _SAME_TURN else (0.0,)
