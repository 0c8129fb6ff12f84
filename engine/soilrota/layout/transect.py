"""The longest straight line that fits into what is left of a zone.

A longest segment in a polygon lies on a line through two of its corners: moved aside or turned round one corner, a
segment is never longest in between, because its length is a sum of functions without a maximum inside. The corners
are of two sorts. At a corner that points out, the segment ends; at one that points in, it passes with both edges on
one side. So a pair of corners is a candidate only where both corners allow it, which leaves few; those are bounded by
the straight way through the hull and looked at from the longest bound down, until no bound beats what was found.

The corners are those of the ground drawn in by 2 cm, while lines are cut at the ground itself: so no candidate
touches an edge, and rounding decides nothing. The answer is no shorter than the longest line of the ground drawn in.
Ground with very many corners is drawn in by more, and smoothed by less than that, so that it stays within; only where
that would leave nothing is a part of the corners passed over.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely

from soilrota.geometry.projection import Surface

#: The ground is drawn in by so much [m], then again by four times as much, until few enough corners are left.
_DRAWN_IN_M, _STEP = 0.02, 4
#: It is smoothed by this share of what it is drawn in by [-].
_SMOOTHED_SHARE = 0.75
#: Corners that can be looked at pair by pair [-].
_MOST_CORNERS = 400
#: A line ends so far inside the ground [m].
_END_M = 1e-3
#: Lengths closer than this are the same [m].
_SAME_M = 1e-3
#: A corner lies on a line where the sine of the angle is less [-].
_STRAIGHT = 1e-9
#: Directions in which the ground's extent bounds a line [-].
_DIRECTIONS = 8
#: Candidates that are looked at first [-]; then twice as many each time.
_FIRST_BATCH = 32
#: Pairs of a candidate and an edge that are looked at together [-].
_AT_ONCE = 60_000

Segment = tuple[tuple[float, float], tuple[float, float]]
_Array = npt.NDArray[np.float64]
_Whole = npt.NDArray[np.intp]


def longest_line(free: Surface) -> Segment | None:
    """Return the longest straight line within the ground [m], west end first; None where there is no ground.

    Lines that are as long to the millimetre are told apart by their ends, so the answer does not depend on the order
    of corners or parts.
    """
    best: tuple[float, Segment] | None = None
    parts = [part for part in shapely.get_parts(free) if isinstance(part, shapely.Polygon) and not part.is_empty]
    for part in sorted(parts, key=lambda part: (-_diagonal(part), part.bounds)):
        least = 0.0 if best is None else best[0]
        if _diagonal(part) > least:
            found = _longest_in(part, least)
            if found is not None and (best is None or found[0] > best[0] + _SAME_M):
                best = found
    return None if best is None else best[1]


def length_m(segment: Segment) -> float:
    """Return the length of a line [m]."""
    return math.dist(*segment)


def _diagonal(part: shapely.Polygon) -> float:
    """Return the length that no line in the part exceeds [m]."""
    west, south, east, north = part.bounds
    return math.hypot(east - west, north - south)


def _longest_in(part: shapely.Polygon, least: float) -> tuple[float, Segment] | None:
    """Return the longest line in one part and its length [m]; None where none is longer than the least [m]."""
    corners = _corners(part)
    one, other, bound = _candidates(corners)
    order = np.argsort(-bound, kind="stable")
    one, other, bound = one[order], other[order], bound[order]
    edges = _Edges.of(part)
    batch = max(1, _AT_ONCE // len(edges.start))
    best: tuple[float, Segment] | None = None
    at, size = 0, min(_FIRST_BATCH, batch)
    while at < len(bound) and bound[at] > least - _SAME_M:
        chosen = slice(at, at + size)
        lengths, ends = edges.lines(corners.at[one[chosen]], corners.at[other[chosen]])
        for number in np.nonzero(lengths > least - _SAME_M)[0].tolist():
            found = float(lengths[number]), _in_order(ends[number])
            if best is None or _better(found, best):
                best = found
        least = max(least, 0.0 if best is None else best[0])
        at, size = at + size, min(2 * size, batch)
    return best if best is not None and best[0] > 0 else None


def _better(one: tuple[float, Segment], other: tuple[float, Segment]) -> bool:
    """Return whether a line is longer, or as long and its ends come first."""
    if abs(one[0] - other[0]) > _SAME_M:
        return one[0] > other[0]
    return one[1] < other[1]


def _in_order(ends: _Array) -> Segment:
    """Return both ends of a line [m], the western first, the southern of two as far west."""
    (x0, y0), (x1, y1) = sorted(ends.tolist())
    return (x0, y0), (x1, y1)


@dataclass(frozen=True, slots=True)
class _Corners:
    """The corners of the ground drawn in.

    Attributes:
        at: where [m].
        before, after: from the corner before, and to the corner after, with the ground on the left [m].
        out: whether a corner points out.
    """

    at: _Array
    before: _Array
    after: _Array
    out: npt.NDArray[np.bool_]


def _corners(part: shapely.Polygon) -> _Corners:
    """Return the corners of a part drawn in by as little as leaves few enough of them.

    Where drawing in would leave nothing before that, the corners that stand out most are looked at, the others not.
    """
    drawn: shapely.Geometry = part
    metres = _DRAWN_IN_M
    while True:
        inner = shapely.simplify(shapely.buffer(drawn, -metres, join_style="mitre"), metres * _SMOOTHED_SHARE)
        if inner.is_empty:
            break
        drawn = inner
        if shapely.get_num_coordinates(inner) <= _MOST_CORNERS:
            break
        metres *= _STEP
    at, before, after = [], [], []
    for polygon in shapely.get_parts(shapely.orient_polygons(drawn)):
        for ring in shapely.get_rings(polygon):
            positions = shapely.get_coordinates(ring)[:-1]
            at.append(positions)
            before.append(positions - np.roll(positions, 1, axis=0))
            after.append(np.roll(positions, -1, axis=0) - positions)
    into, onward = np.concatenate(before), np.concatenate(after)
    turning = _cross(into, onward)
    most = np.sort(np.argsort(-np.abs(turning), kind="stable")[:_MOST_CORNERS])
    return _Corners(np.concatenate(at)[most], into[most], onward[most], turning[most] > 0)


def _cross(one: _Array, other: _Array) -> _Array:
    """Return the cross products of vectors; positive where the other lies on the left."""
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])


def _candidates(corners: _Corners) -> tuple[_Whole, _Whole, _Array]:
    """Return pairs of corners on whose line a longest segment may lie, and a length it does not exceed [m]."""
    across = corners.at[None, :, :] - corners.at[:, None, :]
    length = np.hypot(across[..., 0], across[..., 1])
    slack = _STRAIGHT * length * np.hypot(*corners.before.T)[:, None]
    slack_after = _STRAIGHT * length * np.hypot(*corners.after.T)[:, None]
    # Where the edges of the first corner lie, seen along the line to the second.
    before = _cross(corners.before[:, None, :], across)
    after = _cross(corners.after[:, None, :], across)
    ends_here = (before >= -slack) & (after >= -slack_after)
    passes = ((before >= -slack) & (after <= slack_after)) | ((before <= slack) & (after >= -slack_after))
    allowed = np.where(corners.out[:, None], ends_here, passes) & (length > _SAME_M)
    one, other = np.nonzero(np.triu(allowed & allowed.T, k=1))
    return one, other, _bounds(corners, one, other)


def _bounds(corners: _Corners, one: _Whole, other: _Whole) -> _Array:
    """Return for each pair a length that its segment does not exceed [m].

    From a corner that points out the segment goes one way only, so between two such corners it ends at both; past a
    corner that points in, it goes on to the end of the ground's extent at most.
    """
    start, end = corners.at[one], corners.at[other]
    along = end - start
    length = np.hypot(along[:, 0], along[:, 1])
    unit = along / length[:, None]
    low, high = np.full(len(one), -np.inf), np.full(len(one), np.inf)
    for number in range(_DIRECTIONS):
        turn = math.pi * number / _DIRECTIONS
        direction = np.array((math.cos(turn), math.sin(turn)))
        extent = corners.at @ direction
        faster = unit @ direction
        faster = np.where(np.abs(faster) < _STRAIGHT, np.inf, faster)  # along the side: this direction bounds nothing
        behind, ahead = (extent.min() - extent[one]) / faster, (extent.max() - extent[one]) / faster
        free = np.isinf(faster)
        low = np.maximum(low, np.where(free, -np.inf, np.minimum(behind, ahead)))
        high = np.minimum(high, np.where(free, np.inf, np.maximum(behind, ahead)))
    low = np.where(corners.out[one], 0.0, np.minimum(low, 0.0))
    high = np.where(corners.out[other], length, np.maximum(high, length))
    return np.asarray(high - low)


@dataclass(frozen=True, slots=True)
class _Edges:
    """The edges of the ground, from start to end [m]."""

    start: _Array
    end: _Array

    @classmethod
    def of(cls, part: shapely.Polygon) -> _Edges:
        """Return the edges of a part."""
        rings = [shapely.get_coordinates(ring) for ring in shapely.get_rings(part)]
        return cls(np.concatenate([ring[:-1] for ring in rings]), np.concatenate([ring[1:] for ring in rings]))

    def lines(self, one: _Array, other: _Array) -> tuple[_Array, _Array]:
        """Return the longest segments through pairs of places within the ground.

        Args:
            one: places inside the ground, one a row [m].
            other: places inside the ground, the second of each pair [m].

        Returns:
            Lengths [m], not positive where an edge lies between the two, and both ends [m], line by end by axis.
        """
        along = other - one
        apart = np.hypot(along[:, 0], along[:, 1])
        unit = along / apart[:, None]
        to_start, to_end = (place[None, :, :] - one[:, None, :] for place in (self.start, self.end))
        side, side_after = (_cross(unit[:, None, :], way) for way in (to_start, to_end))
        crossed = (side >= 0) != (side_after >= 0)
        share = side / np.where(crossed, side - side_after, 1.0)
        where, where_after = ((unit[:, None, :] * way).sum(axis=2) for way in (to_start, to_end))
        met = where + (where_after - where) * share
        low = np.where(crossed & (met <= 0), met, -np.inf).max(axis=1) + _END_M
        high = np.where(crossed & (met >= apart[:, None]), met, np.inf).min(axis=1) - _END_M
        cut = (crossed & (met > 0) & (met < apart[:, None])).any(axis=1)
        fits = ~cut & np.isfinite(low) & np.isfinite(high)
        low, high = np.where(fits, low, 0.0), np.where(fits, high, 0.0)
        ends = one[:, None, :] + unit[:, None, :] * np.stack((low, high), axis=1)[:, :, None]
        return high - low, ends
