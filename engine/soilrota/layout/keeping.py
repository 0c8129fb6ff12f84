"""Points sampled before, kept: what still lies in free ground stays, the rest moves no farther than it must.

A trend over years is worth more where every year's cores come from the same places; so a change on the map moves
only the points that lie in it.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
import shapely

from soilrota.geometry.projection import Surface

#: A point so close to free ground lies in it [m]: the way to degrees and back is true to about as much.
STAYS_WITHIN_M = 1e-3
#: Rounding in what is found on edges and circles [m].
_ROUNDING_M = 1e-6

_Point = tuple[float, float]
_Array = npt.NDArray[np.float64]


def keep(
    earlier: Sequence[_Point],
    free: Surface,
    least_m: float,
    reach_m: float,
    *,
    within_m: float = STAYS_WITHIN_M,
) -> list[tuple[_Point, float]] | None:
    """Return where each earlier point lies now [m] and how far it moved [m], in the same order.

    A point in free ground stays exactly, however near to others it lies. Every other goes, one after the other, to
    the nearest place in free ground that keeps the distance from those that stay and those moved before it.

    Args:
        earlier: points of the sampling before [m].
        free: where cores may lie [m].
        least_m: smallest distance between a moved point and any other [m]; 0 for none.
        reach_m: how far a point may move at most [m].
        within_m: a point so close to free ground still lies in it [m].

    Returns:
        The points; None where one of them has no place within reach.
    """
    shapely.prepare(free)
    stays = [bool(shapely.dwithin(free, shapely.Point(point), within_m)) for point in earlier]
    others = [point for point, stay in zip(earlier, stays, strict=True) if stay]
    found: list[tuple[_Point, float]] = []
    for point, stay in zip(earlier, stays, strict=True):
        if stay:
            found.append((point, 0.0))
            continue
        place = _search(point, free, others, least_m, reach_m)
        if place is None:
            return None
        others.append(place[0])
        found.append(place)
    return found


def _search(
    point: _Point, free: Surface, others: Sequence[_Point], least_m: float, reach_m: float
) -> tuple[_Point, float] | None:
    """Return the nearest place as `_nearest_place` does, looking near by first: most points move by little."""
    near_m = float(shapely.distance(free, shapely.Point(point))) + least_m  # not a number where no ground is left
    while near_m < reach_m:
        place = _nearest_place(point, free, others, least_m, near_m)
        if place is not None:
            return place
        near_m *= 2
    return _nearest_place(point, free, others, least_m, reach_m)


def _nearest_place(
    point: _Point, free: Surface, others: Sequence[_Point], least_m: float, reach_m: float
) -> tuple[_Point, float] | None:
    """Return the nearest place in free ground that keeps the distance from the others, and how far it is [m].

    What is allowed is free ground less the discs round the others. Its place nearest to a point outside free ground
    is the foot of that point on an edge or on a circle, or a corner where edges and circles meet: those are all the
    candidates there are.
    """
    at = np.array(point)
    centres = np.array(others, dtype=np.float64).reshape(-1, 2)
    centres = centres[_norm(centres - at) <= reach_m + least_m + _ROUNDING_M] if least_m > 0 else centres[:0]
    starts, ends = _edges_near(free, at, reach_m)
    places = np.concatenate(
        (
            _feet_on_edges(at, starts, ends),
            _feet_on_circles(at, centres, least_m),
            _edges_on_circles(starts, ends, centres, least_m),
            _circles_on_circles(centres, least_m),
        )
    )
    away = _norm(places - at)
    places = places[near := away <= reach_m + _ROUNDING_M]
    away = away[near]
    fits = shapely.dwithin(free, shapely.points(places), _ROUNDING_M)
    places, away = places[fits], away[fits]
    apart = _norm(places[:, None, :] - centres[None, :, :])
    fits = (apart >= least_m - _ROUNDING_M).all(axis=1)
    if not fits.any():
        return None
    places, away = places[fits], away[fits]
    best = int(np.lexsort((places[:, 1], places[:, 0], np.rint(away / _ROUNDING_M)))[0])
    return (float(places[best, 0]), float(places[best, 1])), float(away[best])


def _norm(vectors: _Array) -> _Array:
    """Return the lengths of vectors [m]."""
    return np.hypot(vectors[..., 0], vectors[..., 1])


def _edges_near(free: Surface, at: _Array, reach_m: float) -> tuple[_Array, _Array]:
    """Return both ends of the edges of free ground that come within reach [m]."""
    starts, ends = [np.empty((0, 2))], [np.empty((0, 2))]
    for polygon in shapely.get_parts(free):
        for ring in shapely.get_rings(polygon):
            corners = shapely.get_coordinates(ring)
            starts.append(corners[:-1])
            ends.append(corners[1:])
    start, end = np.concatenate(starts), np.concatenate(ends)
    near = _norm(_feet_on_edges(at, start, end) - at) <= reach_m + _ROUNDING_M
    return start[near], end[near]


def _feet_on_edges(at: _Array, starts: _Array, ends: _Array) -> _Array:
    """Return the place on each edge that is nearest to a point [m]."""
    along = ends - starts
    square = np.maximum((along**2).sum(axis=1), np.finfo(np.float64).tiny)
    share = np.clip(((at - starts) * along).sum(axis=1) / square, 0.0, 1.0)
    return np.asarray(starts + share[:, None] * along)


def _feet_on_circles(at: _Array, centres: _Array, radius: float) -> _Array:
    """Return the place on each circle that is nearest to a point [m]; none where the point is its centre."""
    away = _norm(at - centres)
    apart = away > _ROUNDING_M
    return np.asarray(centres[apart] + radius * (at - centres[apart]) / away[apart, None])


def _edges_on_circles(starts: _Array, ends: _Array, centres: _Array, radius: float) -> _Array:
    """Return where edges cross circles [m]."""
    along = ends - starts
    length = _norm(along)
    starts, along, length = starts[length > 0], along[length > 0], length[length > 0]
    unit = along / length[:, None]
    offset = centres[None, :, :] - starts[:, None, :]
    foot = (offset * unit[:, None, :]).sum(axis=2)
    beside = offset[..., 0] * unit[:, None, 1] - offset[..., 1] * unit[:, None, 0]
    half = np.sqrt(np.maximum(radius**2 - beside**2, 0.0))
    met = np.abs(beside) <= radius
    found = [np.empty((0, 2))]
    for share in (foot - half, foot + half):
        edge, circle = np.nonzero(met & (share >= 0) & (share <= length[:, None]))
        found.append(starts[edge] + share[edge, circle][:, None] * unit[edge])
    return np.concatenate(found)


def _circles_on_circles(centres: _Array, radius: float) -> _Array:
    """Return where circles of one radius cross each other [m]."""
    one, other = np.triu_indices(len(centres), k=1)
    across = centres[other] - centres[one]
    away = _norm(across)
    met = (away > _ROUNDING_M) & (away <= 2 * radius)
    middle = (centres[one] + centres[other])[met] / 2
    sideways = np.column_stack((-across[met][:, 1], across[met][:, 0])) / away[met][:, None]
    height = np.sqrt(np.maximum(radius**2 - away[met] ** 2 / 4, 0.0))[:, None]
    return np.concatenate((middle - height * sideways, middle + height * sideways))
