"""Colours of the practice: readable on white, or refused with one that is."""

from __future__ import annotations

import pytest

from soilrota.book.rules.colours import LEAST_CONTRAST, contrast_with_white, darkened
from soilrota.model.documents import Colours
from tests.book.small_book import Book


@pytest.mark.parametrize(
    ("colour", "contrast"),
    [
        ("#000000", 21.0),
        ("#ffffff", 1.0),
        ("#ff0000", 3.998),
        ("#0000ff", 8.592),
        ("#008000", 5.137),
        ("#777777", 4.478),
    ],
)
def test_contrast(colour: str, contrast: float) -> None:
    """Ratios that anybody can work out from the definitions of WCAG 2.2."""
    assert contrast_with_white(colour) == pytest.approx(contrast, abs=0.001)


def test_the_engine_s_own_colours_can_be_read() -> None:
    """The defaults keep the rule."""
    assert min(map(contrast_with_white, (Colours().heading, Colours().accent))) >= LEAST_CONTRAST


@pytest.mark.parametrize("colour", ["#ffffff", "#ffe000", "#777777", "#ff0000", "#00ff7f"])
def test_too_pale(book: Book, colour: str) -> None:
    """The line of the colour, and a shade of it that can be read and is taken."""
    book.add("practice.yaml", f'colours:\n  heading: "#26332c"\n  accent: "{colour}"\n')
    problem = book.only(shared=True)
    assert (problem.code, problem.place.line) == ("colour-too-pale", book.line("practice.yaml", "accent:"))
    assert darkened(colour) in problem.mend
    assert LEAST_CONTRAST <= contrast_with_white(darkened(colour)) < LEAST_CONTRAST + 0.5
    book.edit("practice.yaml", colour, darkened(colour))
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert shared.practice.colours == Colours(accent=darkened(colour))


@pytest.mark.parametrize(
    "written", ['heading: "red"', 'heading: "#abc"', 'heading: "#26332c; } body { display: none"', "heading: #26332c"]
)
def test_no_colour(book: Book, written: str) -> None:
    """Names, short forms, styles and what YAML takes for a comment are refused where they stand."""
    book.add("practice.yaml", f"colours:\n  {written}\n")
    shared, problems = book.shared()
    assert shared is None
    assert [problem.place.line for problem in problems] == [book.line("practice.yaml", "heading:")]
