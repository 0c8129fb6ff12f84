"""Where positions stand on a drawn map, and what every map has: north, scale, struck-out ground, the way in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from soilrota.documents.svg import INK, line, path, polyline, text
from soilrota.language import say, say_as
from soilrota.model.ground import Outline, Position

#: Metres in one degree of latitude [m]; the map is for finding one's way, not for measuring.
METRES_A_DEGREE = 111_132.0
_BARS_M = (1, 2, 5, 10, 20, 50, 100, 200, 250, 500, 1000, 2000, 5000)
_KILOMETRE = 1000
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """Where positions stand on the page.

    Attributes:
        west, north: the upper left corner of the land [degree].
        metres_x: metres in one degree of longitude [m].
        scale: pixels a metre.
        left, top: where that corner stands [px].
        width, height: of the picture [px].
    """

    west: float
    north: float
    metres_x: float
    scale: float
    left: float
    top: float
    width: float
    height: float

    @classmethod
    def around(cls, positions: Iterable[Position], width: float, height: float, margin: float) -> Frame:
        """Return the frame that holds all positions in a picture of a size [px], so far from its edges [px].

        The picture is as high as the land needs, at most `height`; the land stands in the middle of its width.
        """
        points = list(positions)
        wests = [longitude for longitude, _ in points]
        if max(wests) - min(wests) > 180:  # noqa: PLR2004  # half the globe: the land lies across the date line
            wests = [longitude % 360 for longitude in wests]
        norths = [latitude for _, latitude in points]
        metres_x = METRES_A_DEGREE * math.cos(math.radians((min(norths) + max(norths)) / 2))
        width_m = max((max(wests) - min(wests)) * metres_x, 1)
        height_m = max((max(norths) - min(norths)) * METRES_A_DEGREE, 1)
        scale = min((width - 2 * margin) / width_m, (height - 2 * margin) / height_m)
        left = (width - width_m * scale) / 2
        return cls(min(wests), max(norths), metres_x, scale, left, margin, width, height_m * scale + 2 * margin)

    def point(self, position: Position) -> Point:
        """Return where a position stands [px]."""
        longitude = position[0] + (360 if position[0] < self.west - 180 else 0)
        return (
            self.left + (longitude - self.west) * self.metres_x * self.scale,
            self.top + (self.north - position[1]) * METRES_A_DEGREE * self.scale,
        )

    def outline(self, outline: Outline) -> str:
        """Return the drawing commands of an outline."""
        rings = [ring for polygon in outline.polygons for ring in polygon]
        return "".join(polyline(map(self.point, ring[:-1]), closed=True) for ring in rings)

    def rings(self, outline: Outline) -> list[list[Point]]:
        """Return the rings of an outline [px]."""
        return [[self.point(position) for position in ring] for polygon in outline.polygons for ring in polygon]


def positions_of(outlines: Iterable[Outline]) -> Iterator[Position]:
    """Yield every position of outlines."""
    for outline in outlines:
        for polygon in outline.polygons:
            for ring in polygon:
                yield from ring


def land_size(outline: Outline) -> tuple[float, float]:
    """Return how wide and high the box round an outline is on the ground [m]."""
    frame = Frame.around(positions_of([outline]), 1000, 1000, 0)
    points = [point for ring in frame.rings(outline) for point in ring]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (max(xs) - min(xs)) / frame.scale, (max(ys) - min(ys)) / frame.scale


def crossings(points: Sequence[Point], y: float) -> Iterator[float]:
    """Yield where a closed line crosses a height."""
    for (x1, y1), (x2, y2) in pairwise(points):
        if (y1 > y) != (y2 > y):
            yield x1 + (y - y1) / (y2 - y1) * (x2 - x1)


def level_lines(rings: list[list[Point]], step: float) -> Iterator[str]:
    """Yield level lines across a surface, holes left out, so many pixels apart: it reads as struck out."""
    heights = [y for ring in rings for _, y in ring]
    y = min(heights) + step / 1.4
    while y < max(heights):
        found = sorted(x for ring in rings for x in crossings(ring, y))
        for first, last in zip(found[::2], found[1::2], strict=False):
            yield f"M{first:.1f} {y:.1f}L{last:.1f} {y:.1f}"
        y += step


def slanting_lines(rings: list[list[Point]], step: float) -> str:
    """Return lines at 45 degrees across a surface, holes left out, so many pixels apart."""
    # Turned by 45 degrees the slanting lines are level ones.
    turned = [[(x + y, y - x) for x, y in ring] for ring in rings]
    heights = [v for ring in turned for _, v in ring]
    v = math.ceil(min(heights) / step) * step
    drawn = []
    while v < max(heights):
        found = sorted(u for ring in turned for u in crossings(ring, v))
        for first, last in zip(found[::2], found[1::2], strict=False):
            drawn.append(f"M{(first - v) / 2:.1f} {(first + v) / 2:.1f}L{(last - v) / 2:.1f} {(last + v) / 2:.1f}")
        v += step
    return "".join(drawn)


def access_mark(point: Point, size: float = 9.5) -> Iterator[str]:
    """Yield the way in: an arrow head with its word."""
    x, y = point
    yield path(polyline([(x - 5, y - 8), (x + 5, y - 8), (x, y)], closed=True), fill=INK)
    yield text(x, y - 11, say("way in"), size, text_anchor="middle", font_weight="bold")


def north_mark(x: float, y: float) -> Iterator[str]:
    """Yield the north arrow."""
    yield path(polyline([(x, y - 8), (x + 5, y + 8), (x, y + 4.5), (x - 5, y + 8)], closed=True), fill=INK)
    yield text(x, y + 21, say_as("north", "N"), 10, text_anchor="middle", font_weight="bold")


def scale_bar(frame: Frame, x: float, y: float, size: float = 9.5) -> Iterator[str]:
    """Yield the scale bar: the longest round length under a fifth of the width."""
    metres = max((bar for bar in _BARS_M if bar * frame.scale < frame.width / 5), default=_BARS_M[0])
    width = metres * frame.scale
    yield line(x, y, x + width, y, stroke=INK, stroke_width=1.2)
    for end in (x, x + width):
        yield line(end, y - 3, end, y + 3, stroke=INK, stroke_width=1.2)
    words = f"{metres // _KILOMETRE} km" if metres >= _KILOMETRE else f"{metres} m"
    yield text(x + width + 4, y + 3, words, size)
