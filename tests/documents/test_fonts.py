"""Which letters can be drawn."""

from __future__ import annotations

from soilrota.documents import missing_glyphs
from soilrota.documents.fonts import fitted, width_em, width_mm
from tests.documents.made import CLIENTS, example, view


def test_european_names_can_be_drawn() -> None:
    """Latin with all its accents, Greek and Cyrillic are there."""
    assert missing_glyphs("Ñandú Łódź Žďár İstanbul Ω Привет ≥ 7.5 m²") == ()


def test_other_scripts_are_named() -> None:
    """A character without a glyph is named by its code point."""
    assert missing_glyphs("水 farm") == ("U+6C34 cjk unified ideograph-6c34",)


def test_the_example_book_can_be_drawn() -> None:
    """Every word of every example programme has its glyphs."""
    for name in CLIENTS:
        assert missing_glyphs(view(example(name))) == ()


def test_words_fit_their_line() -> None:
    """No cut line is wider than its room; a line that fits is left alone; bold is wider."""
    for words in ("North flat by the old school", "WWWWWWWWWWWW", "水水水水水水水水"):
        for room in (3.0, 8.0, 15.0):
            kept = fitted(words, room, 8)
            assert kept == words or (kept.endswith("…") and width_mm(kept, 8) <= room)
    assert fitted("", 5, 8) == ""
    assert width_mm("Ridge", 8, bold=True) > width_mm("Ridge", 8)


def test_widths_are_those_of_the_font() -> None:
    """A digit is as wide as any other, bold letters are wider, letters that are not there count as the widest."""
    assert width_em("1111") == width_em("2345")
    assert width_em("Paddock", bold=True) > width_em("Paddock")
    assert width_em("\u6c34") >= width_em("W")
