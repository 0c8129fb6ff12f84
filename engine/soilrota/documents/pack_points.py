"""The points of a zone on its map: marks by shape, numbers beside them, the walk with its direction."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from soilrota.documents.label_places import Box, Places, around, word_width
from soilrota.documents.map_frame import Frame, Point
from soilrota.documents.pack_words import is_deep_point
from soilrota.documents.svg import INK, PAPER, circle, path, polyline, rectangle, text
from soilrota.language import say
from soilrota.model.field_pack import PackTask
from soilrota.model.layout import CorePoint, ZoneLayout

#: Sizes of words, 10 pt and 8 pt [px]; the small one where numbers would not all find room.
BIG, SMALL = 13.3, 10.7
MARK = 4.0
_ARROW_EVERY = 70.0
_BASE = 0.74
#: Where numbers have no room beside all marks, those of every fifth point are written.
_EVERY = 5
#: Words farther from their mark than this have a line to it [px].
_FAR = 55.0


def point_mark(x: float, y: float, *, deep: bool, in_row: bool) -> str:
    """Return the mark of a point: a square where deeper layers are taken too, hollow where it lies in the row."""
    fill = PAPER if in_row else INK
    if deep:
        return rectangle(x - MARK, y - MARK, 2 * MARK, 2 * MARK, fill=fill, stroke=INK, stroke_width=1.4)
    return circle(x, y, MARK - 0.3, fill=fill, stroke=INK, stroke_width=1.4)


def draw_points(layout: ZoneLayout, task: PackTask, frame: Frame, places: Places) -> Iterator[str]:
    """Yield the walk and the numbered points of a layout inside a frame.

    Args:
        layout: the points and the walk.
        task: what is sampled; says which points are deep.
        frame: where positions stand.
        places: the room for words, with the marks claimed; numbers are taken from it.
    """
    walk = [frame.point(position) for position in layout.walk]
    marks = [(point, frame.point(point.position)) for point in layout.points]
    yield path(polyline(walk), fill="none", stroke=INK, stroke_width=0.9)
    yield from _arrows(walk)
    for point, at in marks:
        yield point_mark(*at, deep=is_deep_point(point.layers, task), in_row=point.in_row)
    if marks:
        yield circle(*marks[0][1], MARK + 3.5, fill="none", stroke=INK, stroke_width=1.4)
    yield from _numbers(marks, places)


def claim_points(layout: ZoneLayout, frame: Frame, places: Places) -> None:
    """Take the room of a layout's marks, and keep words clear of its walk, before any word is placed."""
    places.keep_clear(frame.point(position) for position in layout.walk)
    places.taken += [around(frame.point(point.position), MARK + 1) for point in layout.points]


def draw_words(words: str, at: Point, radius: float, places: Places, size: float = BIG, **more: str) -> Iterator[str]:
    """Yield words beside a mark where there is room; nothing where there is none."""
    box = places.place(at, radius, words, size)
    if box is not None:
        yield from _words_in(box, words, size, **more)


def _words_in(box: Box, words: str, size: float, **more: str) -> Iterator[str]:
    """Yield words in the middle of a box, with a pale edge round them so that lines behind do not disturb."""
    x, y = (box.left + box.right) / 2, box.top + size * _BASE
    yield text(x, y, words, size, text_anchor="middle", **{**more, "stroke": PAPER, "stroke_width": "3"})
    yield text(x, y, words, size, text_anchor="middle", **more)


def _number(point: CorePoint) -> str:
    """Return the words beside a point."""
    return say("{number} start", number=point.number) if point.number == 1 else str(point.number)


def _numbers(marks: list[tuple[CorePoint, Point]], places: Places) -> Iterator[str]:
    """Yield the numbers, large or else small, each right beside its mark; or else of every fifth point alone."""
    last = marks[-1][0].number if marks else 0
    some = [one for one in marks if one[0].number in {1, last} or one[0].number % _EVERY == 0]
    for chosen, size in ((marks, BIG), (marks, SMALL), (some, BIG), (some, SMALL)):
        trial = Places(places.room, list(places.taken), places.lines)
        boxes = [trial.place(at, _radius(point), _number(point), size, _steps(point)) for point, at in chosen]
        if all(box is not None for box in boxes):
            break
    places.taken += [box for box in boxes if box is not None]
    for (point, at), box in zip(chosen, boxes, strict=True):
        if box is not None:
            yield from _leader(at, box)
            yield from _words_in(box, _number(point), size, font_weight="bold")


def _leader(at: Point, box: Box) -> Iterator[str]:
    """Yield a thin line from a mark to words that stand far from it."""
    middle = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    if math.dist(at, middle) > _FAR:
        yield path(polyline([at, middle]), fill="none", stroke=INK, stroke_width=0.5)


def _steps(point: CorePoint) -> tuple[float, ...]:
    """Return how far from its mark a number may stand [px]: the start farther, since its mark has a ring."""
    return (0.0, 5.0, 12.0, 24.0, 40.0, 60.0, 80.0) if point.number == 1 else (0.0, 5.0)


def _radius(point: CorePoint) -> float:
    """Return half the width of a point's mark, with the ring of the first [px]."""
    return MARK + (3 if point.number == 1 else 0)


def _arrows(walk: list[Point]) -> Iterator[str]:
    """Yield arrow heads along the walk, in the middle of its pieces, not too many."""
    since = _ARROW_EVERY
    for (x1, y1), (x2, y2) in pairwise(walk):
        length = math.hypot(x2 - x1, y2 - y1)
        since += length
        if since < _ARROW_EVERY or length < 4 * MARK:
            continue
        since = 0.0
        ux, uy = (x2 - x1) / length, (y2 - y1) / length
        x, y = (x1 + x2) / 2 + 4 * ux, (y1 + y2) / 2 + 4 * uy
        head = [(x, y), (x - 8 * ux + 3.5 * uy, y - 8 * uy - 3.5 * ux), (x - 8 * ux - 3.5 * uy, y - 8 * uy + 3.5 * ux)]
        yield path(polyline(head, closed=True), fill=INK)


def spread(points: list[Point]) -> float:
    """Return the longer side of the box round points [px]; 0 without points."""
    if not points:
        return 0.0
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return max(max(xs) - min(xs), max(ys) - min(ys))


def word_room(words: str, size: float) -> float:
    """Return how much width words of a key take [px], with room after them."""
    return word_width(words, size) * 0.88 + 10
