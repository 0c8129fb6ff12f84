"""Where a value stands against its line: one word and one shape for each, so that colour is never the only signal."""

from __future__ import annotations

from enum import StrEnum
from html import escape

from soilrota.documents.svg import CLOSED, INK, MUTED, OPEN, circle, line, path
from soilrota.language import marked, marked_as, say, say_as
from soilrota.model.guideline import Sense
from soilrota.model.judgement import Rating

_EVEN = 0.5


class Standing(StrEnum):
    """Where a value stands; the worst first."""

    TOO_HIGH = "too-high"
    TOO_LOW = "too-low"
    NEAR = "near"
    HIGH_ENOUGH = "high-enough"
    NOT_TOO_HIGH = "not-too-high"
    DESCRIBED = "described"
    UNRATED = "unrated"


WORDS = {
    Standing.TOO_HIGH: marked_as("standing", "too high"),
    Standing.TOO_LOW: marked_as("standing", "too low"),
    Standing.NEAR: marked_as("standing", "near the line"),
    Standing.HIGH_ENOUGH: marked_as("standing", "high enough"),
    Standing.NOT_TOO_HIGH: marked_as("standing", "not too high"),
    Standing.DESCRIBED: marked_as("standing", "described"),
    Standing.UNRATED: marked_as("standing", "not judged"),
}


def standing_of(rating: Rating) -> Standing:
    """Return where a rated value stands: by its line, where its row has one that asks for something."""
    if rating.critical is None or rating.row.sense is Sense.DESCRIPTION:
        return Standing.DESCRIBED
    if rating.near:
        return Standing.NEAR
    under = rating.result.value < rating.critical if rating.below is None else rating.below > _EVEN
    if rating.row.sense is Sense.SUFFICIENCY:
        return Standing.TOO_LOW if under else Standing.HIGH_ENOUGH
    return Standing.NOT_TOO_HIGH if under else Standing.TOO_HIGH


def standing_words(rating: Rating) -> str:
    """Return where a rated value stands in a word or two: the class where the row only describes.

    A class and a line say different things of a value; where there are both, both are said.
    """
    standing = standing_of(rating)
    word, described = standing_word(standing), say(rating.words) if rating.words else ""
    if standing is Standing.DESCRIBED:
        return described or word
    return f"{word} ({described})" if described else word


def standing_word(standing: Standing) -> str:
    """Return a standing in a word or two."""
    return say_as("standing", WORDS[standing])


def standing_mark(standing: Standing) -> str:
    """Return the mark of a standing as SVG; its alternative names the shape, since words beside it name the rest."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9" viewBox="0 0 9 9" font-family="Open Sans">'
        f"<title>{escape(say(_SHAPES[standing]))}</title>{_DRAWN[standing]}</svg>"
    )


_RING = circle(4.5, 4.5, 3.6, fill="none", stroke=OPEN, stroke_width=1.2)
_SHAPES = {
    Standing.TOO_HIGH: marked("triangle pointing up"),
    Standing.TOO_LOW: marked("triangle pointing down"),
    Standing.NEAR: marked("half-filled circle"),
    Standing.HIGH_ENOUGH: marked("ring"),
    Standing.NOT_TOO_HIGH: marked("ring"),
    Standing.DESCRIBED: marked("bar"),
    Standing.UNRATED: marked("broken bar"),
}
_DRAWN = {
    Standing.TOO_HIGH: path("M4.5 0.6L8.8 8.2H0.2Z", fill=CLOSED),
    Standing.TOO_LOW: path("M4.5 8.4L8.8 0.8H0.2Z", fill=CLOSED),
    Standing.NEAR: _RING + path("M4.5 0.9A3.6 3.6 0 0 1 4.5 8.1Z", fill=OPEN),
    Standing.HIGH_ENOUGH: _RING,
    Standing.NOT_TOO_HIGH: _RING,
    Standing.DESCRIBED: line(1, 4.5, 8, 4.5, stroke=INK, stroke_width=1.4),
    Standing.UNRATED: line(1, 4.5, 8, 4.5, stroke=MUTED, stroke_width=1.4, stroke_dasharray="1.6 1.4"),
}
