"""The wanted pattern where it fits, or the first other one that does, with the reasons."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely

from soilrota.layout.along import Point, nearer_end_first, on_walk, places_along, walk_m
from soilrota.layout.cluster import centre_moved_m, cluster
from soilrota.layout.ground import FreeGround
from soilrota.layout.misfit import Misfit
from soilrota.layout.strata import strata
from soilrota.layout.transect import longest_line
from soilrota.layout.walking import walking_order
from soilrota.layout.zigzag import zigzag
from soilrota.model.layout import Fact, LayoutFigures, LayoutReason, LayoutRule, LayoutWish, Pattern

#: In this order other patterns are tried where the wanted one does not fit.
_OTHERS = (Pattern.TRANSECT, Pattern.ZIGZAG, Pattern.STRATA, Pattern.CLUSTER)
#: The fixed point counts as moved from here on [m].
_MOVED_M = 0.01


@dataclass(frozen=True, slots=True)
class Laid:
    """Points in walking order, and the way through them, on the grid of the zone [m]; with the reasons."""

    pattern: Pattern
    points: tuple[Point, ...]
    line: tuple[Point, ...]
    reasons: tuple[LayoutReason, ...]


@dataclass(frozen=True, slots=True)
class Fitting:
    """What a zone's points are laid from.

    Attributes:
        wish: what is wanted.
        ground: what is left of the zone, not empty.
        figures: distances and spacings.
    """

    wish: LayoutWish
    ground: FreeGround
    figures: LayoutFigures

    @property
    def access(self) -> Point | None:
        """Return the way in on the grid [m]; None where it is not known, or at the other end of the Earth."""
        if self.wish.access is None:
            return None
        x, y = self.ground.grid.metres([self.wish.access])[0]
        return (x, y) if math.isfinite(x) and math.isfinite(y) else None

    def least_m(self, pattern: Pattern) -> float:
        """Return the smallest distance between two cores of a pattern [m]."""
        return self.figures.least_spacing_m.get(pattern, 0.0)

    def reason(self, rule: LayoutRule, **facts: Fact) -> LayoutReason:
        """Return a reason about the zone."""
        return LayoutReason(rule, facts, self.wish.outline.place)

    def first_fit(self) -> tuple[Laid | None, tuple[LayoutReason, ...]]:
        """Return the points of the first pattern that fits, the wanted one first, and why others before it do not.

        The reasons of those that do not fit carry the `pattern` beside the facts of their rule.
        """
        wanted = self.wish.pattern
        reasons: list[LayoutReason] = []
        for pattern in (wanted, *(other for other in _OTHERS if other is not wanted)):
            laid = self.lay(pattern)
            if isinstance(laid, Laid):
                if pattern is not wanted:
                    reasons.append(self.reason(LayoutRule.OTHER_PATTERN, pattern=pattern.value, wanted=wanted.value))
                return laid, tuple(reasons)
            reasons.append(self.reason(laid.rule, **laid.facts, pattern=pattern.value))
        return None, tuple(reasons)

    def lay(self, pattern: Pattern) -> Laid | Misfit:
        """Return the points of one pattern, or why it does not fit."""
        if pattern is Pattern.TRANSECT:
            return self._transect()
        if pattern is Pattern.ZIGZAG:
            return self._zigzag()
        return self._cluster() if pattern is Pattern.CLUSTER else self._strata()

    def _transect(self) -> Laid | Misfit:
        """Return cores along the longest straight line."""
        free, cores, asked = self.ground.free, self.wish.cores, self.wish.spacing_m
        least = self.least_m(Pattern.TRANSECT)
        line = longest_line(free)
        if line is None:
            return Misfit(LayoutRule.LINE_TOO_SHORT, {"longest_m": 0.0, "needed_m": (cores - 1) * least})
        pieces = nearer_end_first((line,), self.access)
        places = places_along(walk_m(pieces), cores, asked, least)
        if isinstance(places, Misfit):
            return places
        points = tuple(point for _, point in on_walk(pieces, places.metres))
        reasons = self._in_pieces(points[0]) + self._spacing(places.spacing_m, other=places.other)
        return Laid(Pattern.TRANSECT, points, points, reasons)

    def _zigzag(self) -> Laid | Misfit:
        """Return cores on a zigzag walk."""
        walk = zigzag(
            self.ground.free,
            self.wish.cores,
            self.wish.spacing_m,
            self.least_m(Pattern.ZIGZAG),
            narrow_m=self.figures.narrow_m,
            least_legs=self.figures.least_legs,
            access=self.access,
        )
        if isinstance(walk, Misfit):
            return walk
        reasons = self._in_pieces(walk.points[0]) + self._spacing(walk.spacing_m, other=walk.other)
        return Laid(Pattern.ZIGZAG, walk.points, walk.line, reasons)

    def _cluster(self) -> Laid | Misfit:
        """Return the cores of a cluster, in a short walk."""
        wish, free = self.wish, self.ground.free
        centre = None if wish.fixed_point is None else self.ground.grid.metres([wish.fixed_point])[0]
        points = cluster(free, centre, wish.cores, self.least_m(Pattern.CLUSTER), self.figures.cluster_radius_m)
        if isinstance(points, Misfit):
            return points
        moved_m = centre_moved_m(free, centre)
        moved = (self.reason(LayoutRule.FIXED_POINT_MOVED, metres=moved_m),) if moved_m > _MOVED_M else ()
        return self._walked(Pattern.CLUSTER, points, moved)

    def _strata(self) -> Laid:
        """Return one random core in each of as many strata as there are cores, in a short walk."""
        return self._walked(Pattern.STRATA, strata(self.ground.free, self.wish.cores, self.wish.seed), ())

    def _walked(self, pattern: Pattern, points: list[Point], reasons: tuple[LayoutReason, ...]) -> Laid:
        """Return the points in the order in which they are walked."""
        ordered = tuple(points[number] for number in walking_order(points, self.access))
        return Laid(pattern, ordered, ordered, reasons)

    def _in_pieces(self, first: Point) -> tuple[LayoutReason, ...]:
        """Return that the walk keeps to one of several pieces, where there are several."""
        pieces = self.ground.pieces
        if len(pieces) < 2:  # noqa: PLR2004  one piece is the whole
            return ()
        used = min(pieces, key=lambda piece: float(shapely.distance(piece, shapely.Point(first))))
        share = used.area / self.ground.free.area
        return (self.reason(LayoutRule.IN_PIECES, pieces=len(pieces), share=share),)

    def _spacing(self, used_m: float, *, other: bool) -> tuple[LayoutReason, ...]:
        """Return that the cores lie at another distance than the one asked for, where they do."""
        asked = self.wish.spacing_m
        if asked is None or not other:
            return ()
        return (self.reason(LayoutRule.SPACING_REDUCED, asked_m=asked, used_m=used_m),)
