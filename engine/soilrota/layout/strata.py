"""Random cores in strata of equal area: every part of the zone has its core, and every place the same chance.

The zone is halved again and again across its longer side, into areas in proportion to the number of strata on each
side; in every stratum lies one point, uniform over its area. Because the strata are equal in area, the plain mean of
the cores is unbiased for the zone, and its variance is at most that of as many cores at random (Cochran [1], chapter
5, from memory, unverified).

Chance comes from SHA-256 of the seed's text: the same text gives the same points on every machine. A point is found
by turning round the cumulated area, so it depends on the shape alone and not on how a library cuts it into triangles.

References:
    1. Cochran, W. G. (1977). Sampling Techniques, third edition. Wiley.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from scipy.optimize import brentq

from soilrota.geometry.projection import Surface

#: A cut is placed to this [m].
_CUT_M = 1e-9
#: Draws for one point; a second is needed only where rounding puts the first into a gap between two parts.
_DRAWS = 8
#: Bits of a number of double precision.
_BITS = 53

_Point = tuple[float, float]
_Array = npt.NDArray[np.float64]


def strata(free: Surface, n: int, seed: str) -> list[_Point]:
    """Return one uniformly random point in each of n strata of equal area [m].

    Args:
        free: where cores may lie [m]; valid, of any number of parts, with or without holes.
        n: cores wanted [-].
        seed: the same text, the same points.
    """
    return [_point_in(stratum, f"{seed}\n{number}") for number, stratum in enumerate(strata_of(free, n))]


def strata_of(free: Surface, n: int) -> list[Surface]:
    """Return n strata of equal area that together are the free ground [m]; none for empty ground or n below 1."""
    if n < 1 or free.area <= 0:
        return []
    if n == 1:
        return [free]
    west, south, east, north = free.bounds
    upright = east - west < north - south
    first = n // 2
    cut = _Edges.of(free, upright=upright).left_of(first / n)
    if upright:
        boxes = (west, south, east, cut), (west, cut, east, north)
    else:
        boxes = (west, south, cut, north), (cut, south, east, north)
    one, other = (_surface(shapely.intersection(free, shapely.box(*box))) for box in boxes)
    return strata_of(one, first) + strata_of(other, n - first)


def _surface(shape: shapely.Geometry) -> Surface:
    """Return the polygons of a shape; a cut that only touches a corner leaves a point or a line beside them."""
    if isinstance(shape, shapely.Polygon | shapely.MultiPolygon):
        return shape
    return shapely.MultiPolygon([part for part in shapely.get_parts(shape) if isinstance(part, shapely.Polygon)])


def _point_in(stratum: Surface, text: str) -> _Point:
    """Return a uniformly random point of the stratum [m]: x by the cumulated area, then y on the section there."""
    edges = _Edges.of(stratum, upright=False)
    for draw in range(_DRAWS):
        across, along = _chances(f"{text}\n{draw}")
        x = edges.left_of(across)
        y = edges.on_section(x, along)
        if y is not None:
            return x, y
    point = stratum.representative_point()
    return float(point.x), float(point.y)


def _chances(text: str) -> tuple[float, float]:
    """Return two numbers between 0 and 1, neither included, that the text decides."""
    digest = hashlib.sha256(text.encode()).digest()
    first, second = (int.from_bytes(digest[at : at + 8]) >> (64 - _BITS) for at in (0, 8))
    return (first + 0.5) / 2**_BITS, (second + 0.5) / 2**_BITS


@dataclass(frozen=True, slots=True)
class _Edges:
    """The edges of a surface, each from its lower to its higher x.

    Attributes:
        low, high: x of both ends [m].
        y_low, y_high: y of both ends [m].
        sign: 1 where the ground lies below the edge, -1 where it lies above [-].
    """

    low: _Array
    high: _Array
    y_low: _Array
    y_high: _Array
    sign: _Array

    @classmethod
    def of(cls, surface: Surface, *, upright: bool) -> _Edges:
        """Return the edges of the surface, x and y changed over where it is to be cut across its height."""
        starts, ends = [], []
        for polygon in shapely.get_parts(shapely.orient_polygons(surface)):
            for ring in shapely.get_rings(polygon):
                corners = shapely.get_coordinates(ring)
                starts.append(corners[:-1])
                ends.append(corners[1:])
        start, end = np.concatenate(starts), np.concatenate(ends)
        if upright:  # changing over x and y turns every ring round
            start, end = end[:, ::-1], start[:, ::-1]
        leaning = start[:, 0] != end[:, 0]  # no area lies below an edge that stands upright
        start, end = start[leaning], end[leaning]
        back = start[:, 0] > end[:, 0]  # rings run anticlockwise: the ground lies left of an edge
        lower, higher = np.where(back[:, None], end, start), np.where(back[:, None], start, end)
        return cls(lower[:, 0], higher[:, 0], lower[:, 1], higher[:, 1], np.where(back, 1.0, -1.0))

    def left_of(self, share: float) -> float:
        """Return the x [m] left of which the share of the area lies [-]."""
        west, east = float(self.low.min()), float(self.high.max())
        target = share * self._area(east)
        if not self._area(west) < target < self._area(east):
            return west if share <= 0 else east
        return float(brentq(lambda x: self._area(x) - target, west, east, xtol=_CUT_M))

    def on_section(self, x: float, share: float) -> float | None:
        """Return the y [m] below which the share of the section at x lies [-]; None where the section is empty."""
        met = (self.low <= x) & (x < self.high)
        slope = (x - self.low[met]) / (self.high[met] - self.low[met])
        crossings = np.sort(self.y_low[met] + slope * (self.y_high[met] - self.y_low[met]))
        below, above = crossings[0::2], crossings[1::2]
        cumulated = np.cumsum(above - below)
        if not len(cumulated) or cumulated[-1] <= 0:
            return None
        wanted = share * cumulated[-1]
        part = min(int(np.searchsorted(cumulated, wanted)), len(cumulated) - 1)
        return float(above[part] - (cumulated[part] - wanted))

    def _area(self, x: float) -> float:
        """Return the area left of x [m2]: what lies below the upper edges less what lies below the lower ones."""
        base = self.y_low.min()
        until = np.clip(x, self.low, self.high)
        width = until - self.low
        height = self.y_low + (self.y_high - self.y_low) * (width / (self.high - self.low))
        return float(np.sum(self.sign * width * ((self.y_low + height) / 2 - base)))
