"""The order in which points are walked: short, not proven to be the shortest.

Nearest neighbour gives a walk; 2-opt turns pieces of it round (Croes [1]) and Or-opt moves one to three points
elsewhere (Or [2]) for as long as that shortens it (both from memory, unverified). A walk need not come back to its
start, so its end is free.

References:
    1. Croes, G. A. (1958). A method for solving traveling-salesman problems. Operations Research 6, 791-812.
    2. Or, I. (1976). Traveling salesman-type combinatorial problems. Dissertation, Northwestern University.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt

#: Distances are compared in whole micrometres, so that the last bit of a machine's roots decides nothing [-].
_MICROMETRES = 1e6
#: A change that saves less than a millimetre is not made [micrometre].
_WORTH_IT = 1000
#: So many points in a row are moved elsewhere together at most [-].
_MOVED_TOGETHER = 3

_Point = tuple[float, float]
_Lengths = npt.NDArray[np.int64]
_Walk = npt.NDArray[np.intp]


def walking_order(points: Sequence[_Point], start: _Point | None) -> list[int]:
    """Return the numbers of the points, from 0, in the order of a short open walk.

    No turning round of a piece of the walk and no moving of one to three points shortens it by a millimetre or more,
    and it is never longer than the walk that always goes to the nearest point left.

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
    return _shortened(_nearest_next(lengths, first), lengths, free_start=start is None)


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


def _shortened(order: list[int], lengths: _Lengths, *, free_start: bool) -> list[int]:
    """Return the walk after turning round and moving pieces of it until nothing more is worth it."""
    beyond = len(lengths) - 1
    walk: _Walk = np.array([beyond] * free_start + order + [beyond], dtype=np.intp)
    better = walk if len(order) > 1 else None
    while better is not None:
        walk = _turned_round(better, lengths)
        better = _one_moved(walk, lengths)
    return [number for number in walk.tolist() if number != beyond]


def _turned_round(walk: _Walk, lengths: _Lengths) -> _Walk:
    """Return the walk after turning round, each time, the piece that saves most, until none is worth it."""
    walk = walk.copy()
    while True:
        before, begin, end, after = walk[:-2], walk[1:-1], walk[1:-1], walk[2:]
        now = lengths[before, begin][:, None] + lengths[end, after][None, :]
        then = lengths[np.ix_(before, end)] + lengths[np.ix_(begin, after)]
        saved = np.triu(now - then)
        i, j = divmod(int(np.argmax(saved)), len(begin))
        if saved[i, j] < _WORTH_IT:
            return walk
        walk[i + 1 : j + 2] = walk[i + 1 : j + 2][::-1].copy()


def _one_moved(walk: _Walk, lengths: _Lengths) -> _Walk | None:
    """Return the walk with the first piece that is better elsewhere moved to its best place; None where none is."""
    for size in range(1, _MOVED_TOGETHER + 1):
        for at in range(1, len(walk) - size):
            piece = walk[at : at + size]
            rest = np.concatenate((walk[:at], walk[at + size :]))
            begin, end = piece[0], piece[-1]
            before, after = rest[:-1], rest[1:]
            left = lengths[walk[at - 1], begin] + lengths[end, walk[at + size]] - lengths[walk[at - 1], walk[at + size]]
            forward = lengths[before, begin] + lengths[end, after]
            turned = lengths[before, end] + lengths[begin, after]
            saved = left - np.minimum(forward, turned) + lengths[before, after]
            best = int(np.argmax(saved))
            if saved[best] >= _WORTH_IT:
                laid = piece if forward[best] <= turned[best] else piece[::-1]
                return np.concatenate((rest[: best + 1], laid, rest[best + 1 :]))
    return None
