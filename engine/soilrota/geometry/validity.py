"""What is wrong with a shape, and where."""

from __future__ import annotations

import re
from dataclasses import dataclass

import shapely

from soilrota.geometry.projection import grid_for, to_metres
from soilrota.model.ground import Outline, Position

#: What the geometry library says, and what we say.
_WORDS = {
    "Self-intersection": "the outline crosses itself",
    "Ring Self-intersection": "the outline touches itself",
    "Hole lies outside shell": "a hole lies outside its polygon",
    "Nested holes": "a hole lies inside another hole",
    "Nested shells": "a polygon lies inside another polygon of the same outline",
    "Interior is disconnected": "a hole cuts the polygon in two",
    "Duplicate Rings": "the same ring is drawn twice",
    "Too few points in geometry component": "a ring has no area",
}
_REASON = re.compile(r"^(?P<what>[^\[]+)(?:\[(?P<x>\S+) (?P<y>\S+)\])?$")


@dataclass(frozen=True, slots=True)
class ShapeFault:
    """What is wrong with a shape, in words, and where: (longitude, latitude) [degree], None where not one place."""

    what: str
    position: Position | None


def shape_fault(outline: Outline) -> ShapeFault | None:
    """Return the first fault of the outline, such as a ring that crosses itself; None for a valid one."""
    grid = grid_for(outline)
    on_grid = to_metres(outline, grid)
    if on_grid.is_valid:
        return None
    match = _REASON.match(str(shapely.is_valid_reason(on_grid)))
    if match is None or match["x"] is None:
        return ShapeFault("the outline is not a valid surface", None)
    position = grid.degrees([(float(match["x"]), float(match["y"]))])[0]
    return ShapeFault(_WORDS.get(match["what"], "the outline is not a valid surface"), position)
