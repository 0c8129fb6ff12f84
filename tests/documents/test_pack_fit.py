"""How a zone's page is filled."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.pack_fit import (
    LEAST_MAP,
    PAGE_WIDTH,
    PX_A_MM,
    PageParts,
    Words,
    fit_page,
    fit_without_map,
    room_to_write,
)

SENTENCE = "Twenty words that say something of this zone and fill a line or so of the page over its whole width."
WORDS = Words((SENTENCE,) * 3, (SENTENCE,) * 2, (SENTENCE,) * 2, (SENTENCE,))
BEFORE = "Buried services located and marked. Farmer asked for private pipes and cables."
PARTS = PageParts("A Paddock one Topsoil", "14 ha · clay", 1, "", 9, WORDS, (300.0, 300.0))


def test_a_square_zone_has_words_beside_its_map() -> None:
    """Every sentence stands once; the map is under its words' width."""
    fit = fit_page(PARTS)
    assert fit.beside
    assert (*fit.beside, *fit.below) == (*WORDS.walk, *WORDS.why, *WORDS.last)
    assert fit.elsewhere == ()
    assert fit.lists_points


def test_a_long_zone_takes_the_whole_width() -> None:
    """A wide, low zone would be small beside words."""
    fit = fit_page(replace(PARTS, land=(900.0, 200.0)))
    assert fit.beside == ()
    assert fit.map_width == PAGE_WIDTH * PX_A_MM


def test_grounds_go_elsewhere_before_the_map_shrinks() -> None:
    """Of many grounds on a full page the last stand in the back; how to walk stays, and nothing is lost."""
    words = replace(WORDS, why=tuple(f"{number}. {SENTENCE}" for number in range(12)))
    fit = fit_page(replace(PARTS, words=words, layers=3, before=BEFORE, point_lines=14))
    assert fit.elsewhere
    assert (*fit.beside, *fit.below, *fit.elsewhere) == (
        *words.walk,
        *words.why[: 12 - len(fit.elsewhere)],
        *words.last,
        *fit.elsewhere,
    )
    assert fit.map_height > LEAST_MAP * PX_A_MM


def test_points_go_on_where_the_map_would_be_too_small() -> None:
    """Six layers and sixty points are too much for one page."""
    fit = fit_page(replace(PARTS, layers=6, before=BEFORE, point_lines=20))
    assert not fit.lists_points
    assert fit.map_height > LEAST_MAP * PX_A_MM
    usual = fit_page(replace(PARTS, layers=3, before=BEFORE, point_lines=14))
    assert usual.lists_points


def test_a_long_line_to_tick_takes_its_room() -> None:
    """Another language may need a second line for it; the map gives way."""
    short, long = (fit_page(replace(PARTS, before=before)) for before in (BEFORE, BEFORE * 2))
    assert fit_page(PARTS).map_height > short.map_height > long.map_height


def test_what_is_left_is_room_to_write() -> None:
    """A page without a map leaves much, a full one the least; never more than the page has."""
    empty = fit_without_map(PARTS)
    assert empty.below == (*WORDS.walk, *WORDS.why, *WORDS.last)
    assert room_to_write(empty, 0.0) == "90mm"
    full = fit_page(PARTS)
    assert room_to_write(full, full.map_height) == "16mm"
    assert float(room_to_write(full, full.map_height - 50).removesuffix("mm")) > 16
