"""A zigzag walk: from side to side along the long axis of the largest piece of what is left.

Legs run straight from a place on one side to a place on the other. Where a leg crosses ground that is taken out, no
core lies there, and the walk goes straight on. Cores lie at equal distances along what is left of the legs; because
two legs meet at an angle, cores on both sides of a turn are nearer to each other than along the walk, so the number of
legs and the first core are chosen such that every two cores keep the least spacing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely

from soilrota.geometry.projection import Surface
from soilrota.layout.along import Piece, Places, Point, nearer_end_first, on_walk, places_along, walk_m
from soilrota.layout.ground import polygons_in
from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule

#: The first and the last turn lie so far from the ends of the long axis, as a share of its length [-].
_END_SHARE = 0.01
#: The first core is moved along the walk by these shares of the spacing until every two cores are far enough [-].
_SHIFTS = (0.0, 0.125, -0.125, 0.25, -0.25, 0.375, -0.375, 0.5, -0.5)
#: So many numbers of legs above the preferred one are tried [-].
_MORE_LEGS = 4
#: Rounding in lengths [m].
_ROUNDING_M = 1e-6


@dataclass(frozen=True, slots=True)
class Walk:
    """Cores on a walk.

    Attributes:
        points: the cores in order [m].
        line: the way through them, turns included [m].
        spacing_m: distance between cores along the walk [m].
        other: whether that is not the distance asked for.
    """

    points: tuple[Point, ...]
    line: tuple[Point, ...]
    spacing_m: float
    other: bool


@dataclass(frozen=True, slots=True)
class _Legs:
    """What is left of the legs, piece by piece with the number of the leg, and the turns, both ends included [m]."""

    pieces: tuple[Piece, ...]
    leg_of: tuple[int, ...]
    turns: tuple[Point, ...]


def zigzag(
    free: Surface,
    n: int,
    asked_m: float | None,
    least_m: float,
    *,
    narrow_m: float,
    least_legs: int,
    access: Point | None,
) -> Walk | Misfit:
    """Return a zigzag walk and its cores, from the end nearer to the way in, or why none fits.

    Args:
        free: where cores may lie, with some ground [m].
        n: cores wanted [-].
        asked_m: distance between cores along the walk [m]; None to spread them over all of it.
        least_m: smallest distance between two cores [m].
        narrow_m: ground of which no part is wider is too narrow [m].
        least_legs: legs at least [-].
        access: the way in [m]; None where it is not known.
    """
    piece = max(polygons_in(free), key=lambda part: (part.area, part.bounds))
    width_m = 2 * float(shapely.length(shapely.maximum_inscribed_circle(piece)))
    if width_m < narrow_m:
        return Misfit(LayoutRule.TOO_NARROW, {"width_m": width_m, "needed_m": narrow_m})
    frame = _Frame.of(piece)
    longest, closest_share = 0.0, 1.0
    for asked in dict.fromkeys((asked_m, None)):
        for number in frame.leg_numbers(n, least_legs):
            legs = _turned(frame.legs(piece, number), access)
            length = walk_m(legs.pieces)
            longest = max(longest, length)
            places = places_along(length, n, asked, least_m)
            if isinstance(places, Misfit) or not legs.pieces:
                continue
            walk, closest_m = _with_cores(legs, places, length, least_m)
            if walk is not None:
                return Walk(walk.points, walk.line, walk.spacing_m, other=asked_m not in {None, walk.spacing_m})
            closest_share = min(closest_share, closest_m / least_m)
    needed = max((n - 1) * least_m, longest / max(closest_share, _ROUNDING_M) if closest_share < 1 else 0.0)
    return Misfit(LayoutRule.WALK_TOO_SHORT, {"longest_m": longest, "needed_m": needed})


def closest_m(points: Sequence[Point]) -> float:
    """Return the smallest distance between two points [m]; infinite for fewer than two."""
    at = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    one, other = np.triu_indices(len(at), k=1)
    return float(np.hypot(*(at[one] - at[other]).T).min(initial=math.inf))


def _with_cores(legs: _Legs, places: Places, length: float, least_m: float) -> tuple[Walk | None, float]:
    """Return the walk with the first core moved until all keep the least spacing, and the best that was reached [m]."""
    best = 0.0
    for share in _SHIFTS:
        shift = share * places.spacing_m
        if places.metres[0] + shift < 0 or places.metres[-1] + shift > length:
            continue
        found = on_walk(legs.pieces, [metres + shift for metres in places.metres])
        points = tuple(point for _, point in found)
        closest = closest_m(points)
        if closest >= least_m - _ROUNDING_M:
            line = _line([legs.leg_of[number] for number, _ in found], points, legs.turns)
            return Walk(points, line, places.spacing_m, other=places.other), closest
        best = max(best, closest)
    return None, best


def _line(on_legs: Sequence[int], points: Sequence[Point], turns: Sequence[Point]) -> tuple[Point, ...]:
    """Return the way through the cores [m], by the turns between their legs."""
    line = [points[0]]
    for number in range(1, len(points)):
        line += [turns[leg + 1] for leg in range(on_legs[number - 1], on_legs[number])]
        line.append(points[number])
    return tuple(line)


def _turned(legs: _Legs, access: Point | None) -> _Legs:
    """Return the legs from the end nearer to the way in."""
    pieces = nearer_end_first(legs.pieces, access)
    if pieces == legs.pieces:
        return legs
    last = len(legs.turns) - 2
    return _Legs(pieces, tuple(last - leg for leg in reversed(legs.leg_of)), legs.turns[::-1])


@dataclass(frozen=True, slots=True)
class _Frame:
    """The smallest rectangle round a piece.

    Attributes:
        corner: one corner [m].
        along: unit vector along its longer side [-].
        across: unit vector along its shorter side [-].
        long_m: its longer side [m].
        short_m: its shorter side [m].
    """

    corner: Point
    along: Point
    across: Point
    long_m: float
    short_m: float

    @classmethod
    def of(cls, piece: shapely.Polygon) -> _Frame:
        """Return the frame of a piece with some area: one of its sides lies along a side of the hull.

        The library has a function for this, but for some shapes it gives a rectangle without width (GEOS 3.14.1).
        """
        hull = shapely.get_coordinates(shapely.convex_hull(piece))
        sides = np.diff(hull, axis=0)
        unit = sides / np.hypot(*sides.T)[:, None]
        left = np.column_stack((-unit[:, 1], unit[:, 0]))
        on_unit, on_left = hull @ unit.T, hull @ left.T
        long, short = np.ptp(on_unit, axis=0), np.ptp(on_left, axis=0)
        best = int(np.argmin(long * short))
        low, low_left = on_unit[:, best].min(), on_left[:, best].min()
        x, y = (low * unit[best] + low_left * left[best]).tolist()
        along, across = (axis[best].tolist() for axis in (unit, left))
        if long[best] < short[best]:
            along, across = across, along
        return cls(
            (x, y),
            tuple(along),
            tuple(across),
            float(max(long[best], short[best])),
            float(min(long[best], short[best])),
        )

    def leg_numbers(self, n: int, least: int) -> Iterator[int]:
        """Yield numbers of legs to try for n cores [-]: as many as the piece is longer than wide, fewer, more."""
        preferred = max(min(round(self.long_m / self.short_m), n // 2), least)
        yield from range(preferred, least - 1, -1)
        yield from range(preferred + 1, preferred + _MORE_LEGS + 1)

    def legs(self, piece: shapely.Polygon, number: int) -> _Legs:
        """Return so many legs from side to side, and what the piece leaves of them."""
        shares = _END_SHARE + (1 - 2 * _END_SHARE) * np.arange(number + 1) / number
        turns = tuple(self._side(piece, share * self.long_m, far=i % 2 == 0) for i, share in enumerate(shares.tolist()))
        pieces: list[Piece] = []
        leg_of: list[int] = []
        for leg, (start, end) in enumerate(pairwise(turns)):
            left = _pieces_of(piece, start, end)
            pieces += left
            leg_of += [leg] * len(left)
        return _Legs(tuple(pieces), tuple(leg_of), turns)

    def _side(self, piece: shapely.Polygon, along_m: float, *, far: bool) -> Point:
        """Return where the piece ends on one side [m], so far along the longer side of the frame [m]."""
        foot = np.array(self.corner) + along_m * np.array(self.along)
        across = np.array(self.across)
        section = shapely.LineString([foot - across, foot + (self.short_m + 1) * across])
        met = shapely.get_coordinates(shapely.intersection(piece, section))
        depth = (met - foot) @ across
        x, y = met[np.argmax(depth) if far else np.argmin(depth)].tolist()
        return x, y


def _pieces_of(piece: shapely.Polygon, start: Point, end: Point) -> list[Piece]:
    """Return what the ground leaves of a leg, in the order of walking [m]."""
    left = shapely.intersection(piece, shapely.LineString([start, end]))
    lines = [part for part in shapely.get_parts(left) if isinstance(part, shapely.LineString)]
    ends = [sorted(line.coords, key=lambda point: math.dist(point, start)) for line in lines]
    pieces = [((line[0][0], line[0][1]), (line[-1][0], line[-1][1])) for line in ends]
    return sorted((piece for piece in pieces if math.dist(*piece) > _ROUNDING_M), key=lambda p: math.dist(p[0], start))
