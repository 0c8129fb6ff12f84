"""Patterns that tell zones of a map apart without colour, and the same patterns as swatches for its key."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.documents.map_frame import Point, slanting_lines
from soilrota.documents.report_standing import Standing
from soilrota.documents.svg import CLOSED, INK, MUTED, OPEN, SEASON, path, picture, rectangle
from soilrota.language import marked_as, say_as

_SWATCH_WIDTH, _SWATCH_HEIGHT = 30.0, 13.0


@dataclass(frozen=True, slots=True)
class Shade:
    """How a zone is patterned: by a standing, and the words that stand in it."""

    pattern: Standing
    words: str


def shade_strokes(pattern: Standing, rings: list[list[Point]]) -> str:
    """Return the pattern of a standing on a surface; plain for a value in order."""
    if pattern is Standing.TOO_LOW:
        return _lines(rings, 7, CLOSED)
    if pattern is Standing.TOO_HIGH:
        mirrored = [[(-x, y) for x, y in ring] for ring in rings]
        other = f'<g transform="scale(-1 1)">{_lines(mirrored, 7, CLOSED)}</g>'
        return _lines(rings, 7, CLOSED) + other
    if pattern is Standing.NEAR:
        return _lines(rings, 9, OPEN, "0.1 6", 2.4)
    if pattern is Standing.UNRATED:
        return _lines(rings, 16, MUTED, "5 7")
    return ""


def is_patterned(pattern: Standing) -> bool:
    """Return whether a standing has lines or dots, so that words on it need a bare ground."""
    return pattern in {Standing.TOO_LOW, Standing.TOO_HIGH, Standing.NEAR, Standing.UNRATED}


def _lines(rings: list[list[Point]], step: float, stroke: str, dashes: str = "", width: float = 0.9) -> str:
    """Return slanting lines over a surface."""
    more = {"stroke_dasharray": dashes, "stroke_linecap": "round"} if dashes else {}
    return path(slanting_lines(rings, step), fill="none", stroke=stroke, stroke_width=width, **more)


def swatch(pattern: Standing) -> str:
    """Return a swatch of a pattern for the key; the words beside it say what it means."""
    width, height = _SWATCH_WIDTH, _SWATCH_HEIGHT
    box = [(0.5, 0.5), (width - 0.5, 0.5), (width - 0.5, height - 0.5), (0.5, height - 0.5)]
    parts = [
        rectangle(0.5, 0.5, width - 1, height - 1, fill=SEASON),
        shade_strokes(pattern, [[*box, box[0]]]),
        rectangle(0.5, 0.5, width - 1, height - 1, fill="none", stroke=INK, stroke_width=0.8),
    ]
    return picture(width, height, say_as("pattern", _NAMES[pattern]), parts)


_NAMES = {
    Standing.TOO_LOW: marked_as("pattern", "slanting lines"),
    Standing.TOO_HIGH: marked_as("pattern", "crossed lines"),
    Standing.NEAR: marked_as("pattern", "dots"),
    Standing.HIGH_ENOUGH: marked_as("pattern", "plain"),
    Standing.NOT_TOO_HIGH: marked_as("pattern", "plain"),
    Standing.DESCRIBED: marked_as("pattern", "plain"),
    Standing.UNRATED: marked_as("pattern", "broken lines"),
}
