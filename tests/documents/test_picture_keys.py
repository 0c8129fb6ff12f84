"""The key of a picture leaves room for its words."""

from __future__ import annotations

from xml.etree import ElementTree as ET

from soilrota.documents.fonts import width_em
from soilrota.documents.picture_keys import KeyPart, key_parts
from soilrota.documents.svg import circle


def lefts(*words: str) -> list[tuple[float, float]]:
    """Return where the marks and the words of a key stand, whose marks are 30 px apart where there is room."""
    parts = key_parts(
        KeyPart(30.0 * number, lambda left: circle(left, 8, 3), 9, said) for number, said in enumerate(words)
    )
    found = [ET.fromstring(part) for part in parts]
    marks, said = found[::2], found[1::2]
    return [(float(mark.get("cx", "")), float(text.get("x", ""))) for mark, text in zip(marks, said, strict=True)]


def test_short_words_leave_every_mark_in_its_place() -> None:
    """Words begin beside their mark."""
    assert lefts("a", "b", "c") == [(0, 9), (30, 39), (60, 69)]


def test_long_words_push_what_follows_to_the_right() -> None:
    """The next mark begins after them, and those after it where they would be covered."""
    long = "closed for one reason or another"
    (_, said), (mark, _), (last, _) = lefts(long, "b", "c")
    assert mark > said + width_em(long) * 9.5
    assert last > mark
