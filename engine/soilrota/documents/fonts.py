"""Which letters the shipped fonts have."""

from __future__ import annotations

import unicodedata
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from soilrota.files import shipped

_REGULAR = "OpenSans-Regular.ttf"
_BOLD = "OpenSans-Bold.ttf"
#: Millimetres of a printer's point.
_MM_A_POINT = 25.4 / 72
#: Blanks and breaks that need no glyph.
_NO_GLYPH = frozenset("\n\r\t\u00ad")


@cache
def _letters() -> frozenset[int]:
    """Return the code points that the regular font can draw."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415  # only asked for when something is rendered

    with TTFont(shipped("report_templates") / "fonts" / _REGULAR, lazy=True) as font:
        return frozenset(font.getBestCmap())


def missing_glyphs(value: Any) -> tuple[str, ...]:
    """Return the characters in a view, or a text, that the fonts cannot draw, as `U+6C34 cjk unified …`, sorted."""
    found = {
        character
        for words in _texts(value)
        for character in words
        if ord(character) not in _letters() and character not in _NO_GLYPH
    }
    return tuple(f"U+{ord(one):04X} {unicodedata.name(one, 'unnamed').lower()}" for one in sorted(found))


@cache
def _advances(file: str) -> tuple[dict[int, float], float]:
    """Return how wide each letter of a font is, and the widest of all [em]."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415  # as above

    with TTFont(shipped("report_templates") / "fonts" / file, lazy=True) as font:
        em, widths = font["head"].unitsPerEm, font["hmtx"].metrics
        found = {code: widths[glyph][0] / em for code, glyph in font.getBestCmap().items()}
    return found, max(found.values())


def width_em(words: str, *, bold: bool = False) -> float:
    """Return how wide words are [em]; a letter that the font has not is taken as the widest.

    >>> round(width_em("A1"), 2), round(width_em("A1", bold=True), 2)
    (1.2, 1.26)
    """
    advances, widest = _advances(_BOLD if bold else _REGULAR)
    return sum(advances.get(ord(letter), widest) for letter in words)


def _texts(value: Any) -> list[str]:
    """Return every text inside a value of views."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, tuple | list):
        return [words for inner in value for words in _texts(inner)]
    if is_dataclass(value):
        return [words for part in fields(value) for words in _texts(getattr(value, part.name))]
    return []


def width_mm(words: str, size_pt: float, *, bold: bool = False) -> float:
    """Return how wide words are in letters of a size [mm], kerning apart."""
    return width_em(words, bold=bold) * size_pt * _MM_A_POINT


def fitted(words: str, room_mm: float, size_pt: float, *, bold: bool = False) -> str:
    """Return words that fit a line [mm], cut with an ellipsis where they must be.

    >>> fitted("North flat", 40, 8), fitted("North flat", 10, 8)
    ('North flat', 'North…')
    """
    if width_mm(words, size_pt, bold=bold) <= room_mm:
        return words
    kept = words
    while kept and width_mm(f"{kept}…", size_pt, bold=bold) > room_mm:
        kept = kept[:-1].rstrip()
    return f"{kept}…"
