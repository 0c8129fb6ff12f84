"""The order in which points are walked: short, not proven to be the shortest.

Nearest neighbour gives a walk; 2-opt turns pieces of it round for as long as that shortens it (Croes [1], from memory,
unverified). A walk need not come back to its start, so its end is free.

References:
    1. Croes, G. A. (1958). A method for solving traveling-salesman problems. Operations Research 6, 791-812.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt

#: Distances are compared in whole micrometres, so that the last bit of a machine's roots decides nothing [-].
_MICROMETRES = 1e6
#: A turn that saves less than a millimetre is not made [micrometre].
_WORTH_IT = 1000

_Point = tuple[float, float]
_Lengths = npt.NDArray[np.int64]


def walking_order(points: Sequence[_Point], start: _Point | None) -> list[int]:
    """Return the numbers of the points, from 0, in the order of a short open walk.

    No turning round of a piece of the walk shortens it by a millimetre or more, and it is never longer than the walk
    that always goes to the nearest point left.

    Args:
        points: where the cores lie [m].
        start: where the crew comes from [m]; the walk begins at the point nearest to it. None: both ends are free.
    """
    if not points:
        return []
    lengths = _lengths(points)
    if start is None:
        first = min(range(len(points)), key=lambda number: (points[number], number))
    else:
        away = [round(math.dist(point, start) * _MICROMETRES) for point in points]
        first = min(range(len(points)), key=lambda number: (away[number], number))
    return _turned_round(_nearest_next(lengths, first), lengths, free_start=start is None)


def walk_length(points: Sequence[_Point]) -> float:
    """Return the length of the walk through the points in their order [m]; 0 for fewer than two."""
    return math.fsum(math.dist(one, other) for one, other in pairwise(points))


def _lengths(points: Sequence[_Point]) -> _Lengths:
    """Return the distances between the points [micrometre], and a last one that lies at no distance from any.

    That last point stands beyond an open end: going there costs nothing, so an end is turned round like any piece.
    """
    at = np.asarray(points, dtype=np.float64)
    apart = np.hypot(*(at[:, None, axis] - at[None, :, axis] for axis in (0, 1)))
    return np.pad(np.rint(apart * _MICROMETRES).astype(np.int64), (0, 1))


def _nearest_next(lengths: _Lengths, first: int) -> list[int]:
    """Return the walk that always goes to the nearest point left, the lower number where two are as near."""
    left = np.ones(len(lengths) - 1, dtype=bool)
    order = [first]
    left[first] = False
    while len(order) < len(left):
        away = np.where(left, lengths[order[-1], :-1], np.iinfo(np.int64).max)
        order.append(int(np.argmin(away)))
        left[order[-1]] = False
    return order


def _turned_round(order: list[int], lengths: _Lengths, *, free_start: bool) -> list[int]:
    """Return the walk after turning round, each time, the piece that saves most, until none is worth it."""
    beyond = len(lengths) - 1
    walk = np.array([beyond] * free_start + order + [beyond])
    while len(order) > 1:
        before, begin, end, after = walk[:-2], walk[1:-1], walk[1:-1], walk[2:]
        now = lengths[before, begin][:, None] + lengths[end, after][None, :]
        then = lengths[np.ix_(before, end)] + lengths[np.ix_(begin, after)]
        saved = np.triu(now - then)
        i, j = divmod(int(np.argmax(saved)), len(begin))
        if saved[i, j] < _WORTH_IT:
            break
        walk[i + 1 : j + 2] = walk[i + 1 : j + 2][::-1].copy()
    return [int(number) for number in walk if number != beyond]
