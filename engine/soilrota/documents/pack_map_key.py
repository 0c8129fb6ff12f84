"""The key of a zone's map: only what the map shows, in rows below it."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.map_frame import slanting_lines
from soilrota.documents.pack_points import BIG, point_mark, word_room
from soilrota.documents.pack_words import is_deep_point
from soilrota.documents.svg import CLOSED, MUTED, SEASON, path, rectangle, text
from soilrota.language import say_as
from soilrota.model.field_pack import PackTask
from soilrota.model.layout import ZoneLayout

KEY_ROW = 19.0
_MARK_ROOM = 22.0


def map_key(layout: ZoneLayout, task: PackTask, width: float, start: float) -> tuple[list[str], float]:
    """Return the key of a map, from its upper left corner on, and how high it is [px].

    Args:
        layout: what the map shows.
        task: what is sampled; says which points are deep.
        width: width of the picture [px].
        start: where the first row begins, right of the scale bar [px].
    """
    x, y = start, KEY_ROW / 2
    parts: list[str] = []
    for mark, words in _entries(layout, task):
        room = _MARK_ROOM + word_room(words, BIG)
        if x > _MARK_ROOM and x + room > width:
            x, y = 4.0, y + KEY_ROW
        parts += [
            f'<g transform="translate({x:.1f} {y:.1f})">{mark}</g>',
            text(x + _MARK_ROOM - 3, y + 4.5, words, BIG),
        ]
        x += room
    return parts, y + KEY_ROW / 2


def _entries(layout: ZoneLayout, task: PackTask) -> Iterator[tuple[str, str]]:
    """Yield the marks that a map shows, drawn round (8, 0), with their words."""
    deep = {is_deep_point(point.layers, task) for point in layout.points}
    rows = any(point.in_row for point in layout.points)
    if deep == {True, False}:
        yield point_mark(8, 0, deep=False, in_row=False), say_as("key", "top layer only")
        yield point_mark(8, 0, deep=True, in_row=False), say_as("key", "deeper layers too")
    if rows:
        yield point_mark(8, 0, deep=deep == {True}, in_row=True), say_as("key", "in the row")
        yield point_mark(8, 0, deep=deep == {True}, in_row=False), say_as("key", "between rows")
    box = [[(0.0, -6.0), (16.0, -6.0), (16.0, 6.0), (0.0, 6.0), (0.0, -6.0)]]
    if layout.kept_away is not None:
        frame = rectangle(0, -6, 16, 12, fill="none", stroke=CLOSED, stroke_width=0.6)
        yield (
            path(slanting_lines(box, 6), fill="none", stroke=CLOSED, stroke_width=1) + frame,
            say_as("key", "keep away"),
        )
    if layout.free is not None:
        yield (
            rectangle(0, -6, 16, 12, fill=SEASON, stroke=MUTED, stroke_width=0.8, stroke_dasharray="4 3"),
            say_as("key", "ground for cores"),
        )
