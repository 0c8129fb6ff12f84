"""The points of an earlier sampling, taken again: a trend over years is worth more where the places are the same.

The rules, in order:

- as many points as before: each stays where it is, in its old order; one that no longer lies in what is left moves to
  the nearest place that does;
- fewer than before: some of the old points, spread evenly over the old walk;
- more than before: all old points, then those of a layout made afresh that lie farthest from the points so far; where
  too few of them keep the least spacing, all points are new;
- where one old point has no place within reach, all points are new.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from soilrota.layout.along import Point
from soilrota.layout.fitting import Fitting, Laid
from soilrota.layout.keeping import keep
from soilrota.layout.spreading import spread
from soilrota.layout.walking import walking_order
from soilrota.model.layout import EarlierPoint, LayoutReason, LayoutRule, Pattern

#: A point so close to what is left still lies in it [m]: seven decimals of a degree in a file; less than `MARGIN_M`.
ROUNDED_M = 0.02


@dataclass(frozen=True, slots=True)
class Again:
    """Points of an earlier sampling, taken again.

    Attributes:
        points: old points in their order, then added ones [m].
        moved_m: how far each lies from its old place [m]; 0 for those added.
        earlier: the old points that are taken again, in the same order.
        reason: what became of the old points.
    """

    points: tuple[Point, ...]
    moved_m: tuple[float, ...]
    earlier: tuple[EarlierPoint, ...]
    reason: LayoutReason


def again(fitting: Fitting, fresh: Laid | None) -> Again | None:
    """Return the earlier points taken again; None where all points must be new.

    Args:
        fitting: what is wanted, with earlier points, and the ground.
        fresh: the layout as it would be without earlier points; None where no pattern fits.
    """
    wanted = fitting.wish.cores
    earlier = sorted(fitting.wish.earlier, key=lambda point: point.number)
    chosen = [earlier[place] for place in spread(min(wanted, len(earlier)), len(earlier))]
    pattern = fitting.wish.pattern if fresh is None else fresh.pattern
    least_m = fitting.least_m(pattern)
    reach_m = fitting.figures.cluster_radius_m if pattern is Pattern.CLUSTER else fitting.figures.reach_m
    before = fitting.ground.grid.metres([point.position for point in chosen])
    kept = keep(before, fitting.ground.free, least_m, reach_m, within_m=ROUNDED_M)
    if kept is None:
        return None
    points = [point for point, _ in kept]
    moved_m = [metres for _, metres in kept]
    added = _added(points, fresh, wanted - len(points), least_m)
    if added is None:
        return None
    reason = _reason(fitting, moved_m, len(added), len(earlier) - len(chosen))
    return Again((*points, *added), (*moved_m, *[0.0] * len(added)), tuple(chosen), reason)


def _added(points: Sequence[Point], fresh: Laid | None, more: int, least_m: float) -> list[Point] | None:
    """Return so many points of a fresh layout [m], each the farthest from all so far; None where they lie too near."""
    candidates = [] if fresh is None else list(fresh.points)
    so_far = list(points)
    found: list[Point] = []
    while len(found) < more:
        if not candidates:
            return None
        best = max(candidates, key=lambda point: (round(_away(point, so_far), 6), point))
        if _away(best, so_far) < max(least_m, ROUNDED_M):
            return None
        candidates.remove(best)
        so_far.append(best)
        found.append(best)
    return [found[number] for number in walking_order(found, points[-1])]


def _away(point: Point, others: Sequence[Point]) -> float:
    """Return the distance to the nearest of the others [m]."""
    return min(math.dist(point, other) for other in others)


def _reason(fitting: Fitting, moved_m: Sequence[float], added: int, left_out: int) -> LayoutReason:
    """Return what became of the old points; points added or left out stand beside the facts of the rule."""
    moved = sum(metres > 0 for metres in moved_m)
    if moved:
        return fitting.reason(
            LayoutRule.MOVED, moved=moved, points=len(moved_m), metres=max(moved_m), added=added, left_out=left_out
        )
    return fitting.reason(LayoutRule.KEPT, points=len(moved_m), added=added, left_out=left_out)
