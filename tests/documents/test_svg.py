"""Pieces of SVG."""

from __future__ import annotations

from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from soilrota.documents.svg import clip_words, hatch, picture, text


@given(st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc"])))
def test_words_are_escaped(words: str) -> None:
    """Whatever a person wrote is text inside a well-formed picture."""
    root = ElementTree.fromstring(picture(10, 10, words, [text(1, 1, words)]))
    assert root[0].text == (words or None)
    assert root[1].text == (words or None)


@given(st.floats(1, 500), st.floats(1, 20))
def test_slanting_lines_stay_in_their_rectangle(width: float, height: float) -> None:
    """The strokes of a hatched bar never leave it."""
    data = hatch(10, 20, width, height).split('d="')[1].split('"')[0]
    for stroke in data.split("M")[1:]:
        for point in stroke.split("L"):
            x, y = map(float, point.split())
            assert 10 - 0.01 <= x <= 10 + width + 0.01
            assert 20 - 0.01 <= y <= 20 + height + 0.01


def test_words_that_do_not_fit_are_cut() -> None:
    """An ellipsis stands for the rest."""
    assert clip_words("short", 100) == "short"
    assert clip_words("a very long name of a zone", 50) == "a very lon…"
