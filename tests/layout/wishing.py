"""Wishes for the layout tests: short ways to say what is wanted of a zone."""

from __future__ import annotations

from typing import Any

import shapely

from soilrota.geometry.projection import LocalGrid
from soilrota.guidelines.layout import layout_figures
from soilrota.layout import layout_of
from soilrota.layout.fitting import Fitting
from soilrota.layout.ground import free_ground
from soilrota.model.layout import EarlierPoint, LayoutReason, LayoutRule, LayoutWish, Pattern, ZoneLayout
from soilrota.model.protocol import Layer
from tests.layout.shapes import outline

FIGURES = layout_figures()
MIDDLE = (145.0, -37.0)
FARM = LocalGrid(*MIDDLE)
#: A field of 12 ha, and its way in at the south-west corner.
FIELD = shapely.box(-300, -100, 300, 100)


def wish(ground: shapely.Geometry = FIELD, *, cores: int = 25, pattern: str = "transect", **more: Any) -> LayoutWish:
    """Return a wish for one layer of cores on ground in metres round the test farm's middle."""
    given = {"avoided": (), "access": None, "layers": (Layer(0, 10, cores),), "seed": "a"} | more
    return LayoutWish(outline=outline(ground, MIDDLE), pattern=Pattern(pattern), **given)


def laid(ground: shapely.Geometry = FIELD, **more: Any) -> ZoneLayout:
    """Return the layout of a wish."""
    return layout_of(wish(ground, **more), FIGURES)


def fitting(one: LayoutWish) -> Fitting:
    """Return a wish with its ground."""
    return Fitting(one, free_ground(one.outline, one.avoided, FIGURES.edge.metres, FIGURES.classes), FIGURES)


def as_earlier(layout: ZoneLayout) -> tuple[EarlierPoint, ...]:
    """Return the points of a layout as they are read from the records of the year after: to seven decimals."""
    return tuple(
        EarlierPoint(point.number, (round(point.position[0], 7), round(point.position[1], 7)), point.in_row)
        for point in layout.points
    )


def reason(layout: ZoneLayout, rule: LayoutRule) -> LayoutReason:
    """Return the one reason of a rule."""
    (found,) = (reason for reason in layout.reasons if reason.rule is rule)
    return found


def rules(layout: ZoneLayout) -> list[LayoutRule]:
    """Return the rules of the reasons in order."""
    return [reason.rule for reason in layout.reasons]
