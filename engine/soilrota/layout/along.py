"""Cores along a walk: at the distance asked for, or spread over the whole length.

A walk is one or more straight pieces that a crew walks one after the other; only what lies on the pieces counts, the
way between them does not. Places along a walk are distances from its start.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule

#: Rounding in lengths [m].
_ROUNDING_M = 1e-6

Point = tuple[float, float]
Piece = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Places:
    """Where cores lie along a walk.

    Attributes:
        metres: distances from its start [m].
        spacing_m: distance between two cores [m].
        other: whether that is not the distance asked for.
    """

    metres: tuple[float, ...]
    spacing_m: float
    other: bool


def places_along(length_m: float, n: int, asked_m: float | None, least_m: float) -> Places | Misfit:
    """Return where n cores lie along a walk, or that it is too short for them.

    With a distance asked for, the first core lies at the start and the rest at that distance; what is left of the
    walk stays without cores. Where the walk is too short for that, and without a distance asked for, each core lies
    in the middle of its share of the walk; where that brings them too near to each other, from end to end.

    Args:
        length_m: length of the walk [m].
        n: cores wanted [-].
        asked_m: distance between cores [m], the least where it is less; None to spread them over the whole walk.
        least_m: smallest distance between cores [m].
    """
    needed = (n - 1) * least_m
    if needed > length_m + _ROUNDING_M:
        return Misfit(LayoutRule.LINE_TOO_SHORT, {"longest_m": length_m, "needed_m": needed})
    asked = None if asked_m is None else max(asked_m, least_m)
    if asked is not None and (n - 1) * asked <= length_m + _ROUNDING_M:
        return Places(tuple(min(i * asked, length_m) for i in range(n)), asked, other=asked != asked_m)
    spacing, first = length_m / n, length_m / n / 2
    if spacing < least_m and n > 1:
        spacing, first = length_m / (n - 1), 0.0
    return Places(tuple(min(first + i * spacing, length_m) for i in range(n)), spacing, other=asked is not None)


def nearer_end_first(pieces: Sequence[Piece], access: Point | None) -> tuple[Piece, ...]:
    """Return the walk from the end nearer to the way in [m]; as it is where the way in is not known or both are."""
    if access is None or not pieces:
        return tuple(pieces)
    if math.dist(pieces[0][0], access) <= math.dist(pieces[-1][1], access) + _ROUNDING_M:
        return tuple(pieces)
    return tuple((end, start) for start, end in reversed(pieces))


def walk_m(pieces: Sequence[Piece]) -> float:
    """Return the length of the pieces together [m]."""
    return math.fsum(math.dist(*piece) for piece in pieces)


def on_walk(pieces: Sequence[Piece], metres: Sequence[float]) -> list[tuple[int, Point]]:
    """Return where distances along a walk lie: the number of the piece, from 0, and the place [m].

    Args:
        pieces: straight pieces of the walk, at least one [m].
        metres: distances from its start, growing [m].
    """
    ends = list(accumulate(math.dist(*piece) for piece in pieces))
    found = []
    number = 0
    for along in metres:
        while number < len(pieces) - 1 and along > ends[number]:
            number += 1
        (x0, y0), (x1, y1) = pieces[number]
        length = math.dist((x0, y0), (x1, y1))
        share = 1.0 if length <= 0 else min(max(1 - (ends[number] - along) / length, 0.0), 1.0)
        found.append((number, (x0 + share * (x1 - x0), y0 + share * (y1 - y0))))
    return found
