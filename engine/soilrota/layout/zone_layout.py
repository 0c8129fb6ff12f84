"""Where the cores of one zone come from: ground, pattern, points, layers, rows, and the reasons in order of thought."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from soilrota.geometry.measure import SQUARE_METRES_A_HECTARE
from soilrota.geometry.projection import Surface, to_degrees
from soilrota.layout.along import Point
from soilrota.layout.earlier import Again, again
from soilrota.layout.fitting import Fitting, Laid
from soilrota.layout.ground import free_ground
from soilrota.layout.rows import points_in_row
from soilrota.layout.spreading import points_of_layers
from soilrota.layout.walking import walk_length
from soilrota.layout.zigzag import closest_m
from soilrota.model.ground import Outline, Position
from soilrota.model.layout import (
    CorePoint,
    LayoutFigures,
    LayoutReason,
    LayoutRule,
    LayoutWish,
    MovedPoint,
    ZoneLayout,
)


def layout_of(wish: LayoutWish, figures: LayoutFigures) -> ZoneLayout:
    """Return the points of a zone, or none and why.

    Every point lies in the zone and keeps the distance from its edge and from every place to avoid. The same wish
    gives the same points.
    """
    edge_m = figures.edge.metres if wish.edge_m is None else max(wish.edge_m, 0.0)
    ground = free_ground(wish.outline, wish.avoided, edge_m, figures.classes)
    fitting = Fitting(wish, ground, figures)
    start = _without_points(fitting)
    if ground.free.is_empty:
        nothing = fitting.reason(LayoutRule.NOTHING_LEFT, edge_m=edge_m, area_ha=_hectares(ground.zone))
        return replace(start, reasons=(*start.reasons, nothing))
    laid, reasons = fitting.first_fit()
    kept = again(fitting, laid) if wish.earlier else None
    if wish.earlier and kept is None:
        reasons = (*reasons, fitting.reason(LayoutRule.ALL_NEW, points=0 if laid is None else wish.cores))
    start = replace(start, reasons=start.reasons + reasons)
    if kept is not None:
        return _with_points(fitting, _as_laid(fitting, laid, kept), kept, start)
    return start if laid is None else _with_points(fitting, laid, None, start)


def _as_laid(fitting: Fitting, fresh: Laid | None, kept: Again) -> Laid:
    """Return earlier points as a layout, of the pattern that fits this ground."""
    pattern = fitting.wish.pattern if fresh is None else fresh.pattern
    return Laid(pattern, kept.points, kept.points, (kept.reason,))


def _without_points(fitting: Fitting) -> ZoneLayout:
    """Return a layout without points: the ground alone, and what was taken out of the zone."""
    ground, wish = fitting.ground, fitting.wish
    whole = ground.zone.area
    share = 1 - ground.free.area / whole if whole > 0 else 1.0
    taken = fitting.reason(
        LayoutRule.TAKEN_OUT, places=ground.places, edge_m=ground.edge_m, taken_share=min(max(share, 0.0), 1.0)
    )
    return ZoneLayout(
        wanted=wish.pattern,
        pattern=None,
        points=(),
        walk=(),
        walk_m=0.0,
        approach_m=None,
        spacing_m=0.0,
        free=_outline(ground.free, fitting),
        free_ha=_hectares(ground.free),
        kept_away=_outline(ground.kept_away, fitting),
        moved=(),
        reasons=(taken,),
    )


def _with_points(fitting: Fitting, laid: Laid, kept: Again | None, start: ZoneLayout) -> ZoneLayout:
    """Return the layout with its points, layers, rows and walk."""
    grid, access = fitting.ground.grid, fitting.access
    taken = points_of_layers([layer.cores for layer in fitting.wish.layers])
    in_row, banded = _rows(fitting, taken, kept)
    moved_m = () if kept is None else kept.moved_m
    positions = _positions(fitting, laid.points, kept)
    return replace(
        start,
        pattern=laid.pattern,
        points=_core_points(fitting, positions, taken, in_row),
        walk=positions if kept is not None else tuple(grid.degrees(laid.line)),
        walk_m=walk_length(laid.line),
        approach_m=None if access is None else math.dist(access, laid.points[0]),
        spacing_m=closest_m(laid.points) if len(laid.points) > 1 else 0.0,
        moved=tuple(MovedPoint(number, metres) for number, metres in enumerate(moved_m, start=1) if metres > 0),
        reasons=start.reasons + laid.reasons + banded,
    )


def _positions(fitting: Fitting, points: Sequence[Point], kept: Again | None) -> tuple[Position, ...]:
    """Return the points [degree]; one that stays keeps its very digits, so that nothing drifts over the years."""
    positions = fitting.ground.grid.degrees(points)
    for place, (point, metres) in enumerate(zip(kept.earlier, kept.moved_m, strict=False) if kept is not None else ()):
        if metres == 0:
            positions[place] = point.position
    return tuple(positions)


def _core_points(
    fitting: Fitting, positions: Sequence[Position], taken: Sequence[Sequence[int]], in_row: frozenset[int]
) -> tuple[CorePoint, ...]:
    """Return the points with their layers, numbered from 1."""
    layers = tuple(zip(fitting.wish.layers, map(frozenset, taken), strict=True))
    return tuple(
        CorePoint(
            number=place + 1,
            position=position,
            layers=tuple((layer.top_cm, layer.bottom_cm) for layer, places in layers if place in places),
            in_row=place in in_row,
        )
        for place, position in enumerate(positions)
    )


def _rows(
    fitting: Fitting, taken: Sequence[Sequence[int]], kept: Again | None
) -> tuple[frozenset[int], tuple[LayoutReason, ...]]:
    """Return which points lie in the row, and the reason; points that stay keep theirs where the number is right."""
    rows, bands = fitting.wish.rows, fitting.figures.bands
    if rows is None or not bands:
        return frozenset(), ()
    in_row = points_in_row(taken, rows.spacing_cm, bands)
    before = frozenset() if kept is None else frozenset(i for i, point in enumerate(kept.earlier) if point.in_row)
    if len(before) == len(in_row):
        in_row = before
    between = fitting.wish.cores - len(in_row)
    reason = fitting.reason(
        LayoutRule.BANDED, in_row=len(in_row), between=between, row_spacing_cm=float(rows.spacing_cm)
    )
    return in_row, (reason,)


def _outline(surface: Surface, fitting: Fitting) -> Outline | None:
    """Return a surface in degrees; None where there is none."""
    if surface.is_empty:
        return None
    return Outline(to_degrees(surface, fitting.ground.grid), fitting.wish.outline.place)


def _hectares(surface: Surface) -> float:
    """Return an area [ha]."""
    return float(surface.area) / SQUARE_METRES_A_HECTARE
