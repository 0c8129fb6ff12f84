"""The map of a farm: boundary, lettered zones, places to avoid, way in, north and scale; no imagery behind it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from soilrota.documents.svg import (
    CLOSED,
    INK,
    MUTED,
    PAPER,
    SEASON,
    circle,
    clip_words,
    line,
    path,
    picture,
    polyline,
    text,
)
from soilrota.documents.words import AVOIDED
from soilrota.model.client import Farm
from soilrota.model.ground import AvoidedPlace, Outline, Position

WIDTH, HEIGHT = 660.0, 400.0
_MARGIN = 14.0
#: Metres in one degree of latitude [m]; the map is for finding one's way, not for measuring.
_METRES = 111_132.0
_BARS_M = (20, 50, 100, 200, 250, 500, 1000, 2000, 5000)
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def zone_letters(count: int) -> tuple[str, ...]:
    """Return the letters of so many zones, A to Z, then AA, AB and so on.

    >>> zone_letters(3), zone_letters(28)[-2:]
    (('A', 'B', 'C'), ('AA', 'AB'))
    """
    return tuple(
        _LETTERS[index] if index < len(_LETTERS) else _LETTERS[index // len(_LETTERS) - 1] + _LETTERS[index % 26]
        for index in range(count)
    )


def farm_map(farm: Farm) -> str:
    """Return the map of a farm as SVG; empty where the map file draws no zone of it."""
    drawn = [(letter, zone) for letter, zone in zip(zone_letters(len(farm.zones)), farm.zones, strict=True)]
    outlines = [zone.outline for _, zone in drawn if zone.outline is not None]
    if not outlines:
        return ""
    frame = _Frame.around([*outlines, *([farm.boundary] if farm.boundary else [])])
    parts = []
    if farm.boundary is not None:
        parts.append(
            path(frame.outline(farm.boundary), fill=PAPER, stroke=MUTED, stroke_width=1, stroke_dasharray="6 3")
        )
    for _, zone in drawn:
        if zone.outline is not None:
            parts.append(
                path(frame.outline(zone.outline), fill=SEASON, stroke=INK, stroke_width=1.1, fill_rule="evenodd")
            )
    for place in farm.avoided:
        parts += _avoided(place, frame)
    for letter, zone in drawn:
        if zone.outline is not None:
            parts += _label(letter, zone.name, zone.outline, frame)
    if farm.access is not None:
        parts += _access(frame.point(farm.access))
    parts += [*_north(), *_scale(frame)]
    names = ", ".join(f"{letter} {zone.name}" for letter, zone in drawn)
    return picture(WIDTH, frame.height, f"Map of {farm.name}. Zones: {names}.", parts)


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where positions stand on the page.

    Attributes:
        west, north: the upper left corner [degree].
        metres_x, metres_y: metres in one degree [m].
        scale: pixels a metre.
        left, height: left edge of the land and height of the picture [px].
    """

    west: float
    north: float
    metres_x: float
    metres_y: float
    scale: float
    left: float
    height: float

    @classmethod
    def around(cls, outlines: list[Outline]) -> _Frame:
        """Return the frame that holds all outlines."""
        positions = [
            position for outline in outlines for polygon in outline.polygons for ring in polygon for position in ring
        ]
        wests = [longitude for longitude, _ in positions]
        if max(wests) - min(wests) > 180:  # noqa: PLR2004  # half the globe: the land lies across the date line
            wests = [longitude % 360 for longitude in wests]
        norths = [latitude for _, latitude in positions]
        metres_x = _METRES * math.cos(math.radians((min(norths) + max(norths)) / 2))
        width_m = max((max(wests) - min(wests)) * metres_x, 1)
        height_m = max((max(norths) - min(norths)) * _METRES, 1)
        scale = min((WIDTH - 2 * _MARGIN) / width_m, (HEIGHT - 2 * _MARGIN) / height_m)
        left = (WIDTH - width_m * scale) / 2
        return cls(min(wests), max(norths), metres_x, _METRES, scale, left, height_m * scale + 2 * _MARGIN + 14)

    def point(self, position: Position) -> tuple[float, float]:
        """Return where a position stands [px]."""
        longitude = position[0] + (360 if position[0] < self.west - 180 else 0)
        return (
            self.left + (longitude - self.west) * self.metres_x * self.scale,
            _MARGIN + (self.north - position[1]) * self.metres_y * self.scale,
        )

    def outline(self, outline: Outline) -> str:
        """Return the drawing commands of an outline."""
        rings = [ring for polygon in outline.polygons for ring in polygon]
        return "".join(polyline(map(self.point, ring[:-1]), closed=True) for ring in rings)


def _inner_point(outline: Outline, frame: _Frame) -> tuple[float, float, float]:
    """Return a point well inside the largest polygon, and how wide the polygon is there [px]."""
    ring = max((polygon[0] for polygon in outline.polygons), key=len)
    points = [frame.point(position) for position in ring]
    low, high = min(y for _, y in points), max(y for _, y in points)
    best = (points[0][0], points[0][1], 0.0)
    steps = 12
    for step in range(1, steps):
        y = low + (high - low) * step / steps
        crossings = sorted(_crossings(points, y))
        for first, last in zip(crossings[::2], crossings[1::2], strict=False):
            favour = (last - first) * (1 - abs(step / steps - 0.5))
            if favour > best[2] * (1 - abs((best[1] - low) / (high - low) - 0.5)):
                best = ((first + last) / 2, y, last - first)
    return best


def _crossings(points: list[tuple[float, float]], y: float) -> Iterator[float]:
    """Yield where a closed line crosses a height."""
    for (x1, y1), (x2, y2) in pairwise(points):
        if (y1 > y) != (y2 > y):
            yield x1 + (y - y1) / (y2 - y1) * (x2 - x1)


def _label(letter: str, name: str, outline: Outline, frame: _Frame) -> Iterator[str]:
    """Yield a zone's letter, and its name where it fits."""
    x, y, width = _inner_point(outline, frame)
    yield circle(x, y - 4, 10, fill=INK)
    yield text(x, y, letter, 11.5, text_anchor="middle", font_weight="bold", fill=PAPER)
    words = clip_words(name, width - 10, 10)
    if words == name:
        yield text(x, y + 18, name, 10, text_anchor="middle", stroke=SEASON, stroke_width=2)
        yield text(x, y + 18, name, 10, text_anchor="middle")


def _avoided(place: AvoidedPlace, frame: _Frame) -> Iterator[str]:
    """Yield a place to avoid: a crossed ring, a heavy broken line, or a crossed surface; its name beside it."""
    name = place.name or AVOIDED.get(place.kind, place.kind)
    points = [frame.point(position) for position in place.positions[0]]
    if place.shape == "point":
        x, y = points[0]
        cross = f"M{x - 3:.1f} {y - 3:.1f}l6 6M{x + 3:.1f} {y - 3:.1f}l-6 6"
        yield circle(x, y, 4.4, fill=PAPER, stroke=CLOSED, stroke_width=1.2)
        yield path(cross, fill="none", stroke=CLOSED, stroke_width=1.2)
        x, y = x + 8, y + 3
    elif place.shape == "line":
        yield path(polyline(points), fill="none", stroke=CLOSED, stroke_width=2.2, stroke_dasharray="7 3")
        x, y = points[len(points) // 2]
        x, y = x + 6, y + 11
    else:
        yield path(polyline(points[:-1], closed=True), fill=PAPER, stroke=CLOSED, stroke_width=1.2)
        yield path("".join(_slants(points)), fill="none", stroke=CLOSED, stroke_width=0.8)
        x, y = max(points)
        x, y = x + 5, y + 3
    x = max(min(x, WIDTH - 4 - len(name) * 5), 2)
    yield text(x, y, name, 9, fill=CLOSED, font_style="italic", stroke=SEASON, stroke_width=2)
    yield text(x, y, name, 9, fill=CLOSED, font_style="italic")


def _slants(points: list[tuple[float, float]]) -> Iterator[str]:
    """Yield level lines across a surface, so that it reads as struck out."""
    y = min(y for _, y in points) + 2.5
    while y < max(y for _, y in points):
        crossings = sorted(_crossings(points, y))
        for first, last in zip(crossings[::2], crossings[1::2], strict=False):
            yield f"M{first:.1f} {y:.1f}L{last:.1f} {y:.1f}"
        y += 3.5


def _access(point: tuple[float, float]) -> Iterator[str]:
    """Yield the way in: an arrow head with its word."""
    x, y = point
    yield path(polyline([(x - 5, y - 8), (x + 5, y - 8), (x, y)], closed=True), fill=INK)
    yield text(x, y - 11, "way in", 9.5, text_anchor="middle", font_weight="bold")


def _north() -> Iterator[str]:
    """Yield the north arrow."""
    x, y = WIDTH - 18, 12
    yield path(polyline([(x, y - 8), (x + 5, y + 8), (x, y + 4.5), (x - 5, y + 8)], closed=True), fill=INK)
    yield text(x, y + 21, "N", 10, text_anchor="middle", font_weight="bold")


def _scale(frame: _Frame) -> Iterator[str]:
    """Yield the scale bar: the longest round length under a fifth of the width."""
    metres = max((bar for bar in _BARS_M if bar * frame.scale < WIDTH / 5), default=_BARS_M[0])
    width, y = metres * frame.scale, frame.height - 6
    yield line(4, y, 4 + width, y, stroke=INK, stroke_width=1.2)
    for x in (4, 4 + width):
        yield line(x, y - 3, x, y + 3, stroke=INK, stroke_width=1.2)
    words = f"{metres // 1000} km" if metres >= 1000 else f"{metres} m"  # noqa: PLR2004  # a kilometre
    yield text(8 + width, y + 3, words, 9.5)
