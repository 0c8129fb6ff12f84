"""Words on maps cover neither marks nor each other."""

from __future__ import annotations

import itertools

from hypothesis import given
from hypothesis import strategies as st

from soilrota.documents.label_places import Box, Places, around, word_width

ROOM = Box(0, 0, 300, 200)
PLACES = st.tuples(st.floats(0, 300), st.floats(0, 200))


@given(st.lists(PLACES, min_size=1, max_size=25), st.floats(8, 14))
def test_words_cover_nothing(points: list[tuple[float, float]], size: float) -> None:
    """Whatever the marks: words lie in the room, off every mark and off each other."""
    marks = [around(point, 4) for point in points]
    places = Places(ROOM, list(marks))
    found = [box for point in points if (box := places.place(point, 4, "12", size)) is not None]
    assert all(box.inside(ROOM) for box in found)
    assert not any(box.covers(mark) for box in found for mark in marks)
    assert not any(one.covers(other) for one, other in itertools.combinations(found, 2))


def test_a_line_is_avoided_where_there_is_room() -> None:
    """The word goes to the side of a mark on which no line runs."""
    places = Places(ROOM)
    places.keep_clear([(150, 100), (300, 0)])
    box = places.place((150, 100), 4, "7", 10)
    assert box is not None
    assert not box.crossed((150, 100), (300, 0))


def test_no_room_gives_no_place() -> None:
    """A room smaller than the words."""
    assert Places(Box(0, 0, 10, 10)).place((5, 5), 4, "way in", 13) is None


def test_crossing() -> None:
    """Through, beside, and along an edge."""
    box = Box(10, 10, 20, 20)
    assert box.crossed((0, 0), (30, 30))
    assert not box.crossed((0, 0), (30, 0))
    assert not box.crossed((0, 0), (5, 5))
    assert box.crossed((15, 0), (15, 30))


def test_wider_words_are_wider() -> None:
    """The width grows with letters and size."""
    assert word_width("12", 10) < word_width("123", 10) < word_width("123", 12)
