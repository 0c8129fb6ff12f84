"""The map of a farm report on its first page."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.documents import FarmReportView, report_view
from soilrota.documents.report_fit import BEGIN, END, LEAST, Places, with_fitting_map
from tests.documents.reports import grounds

_MM = 96 / 25.4
_BOTTOM = 277 * _MM


def shown() -> FarmReportView:
    """Return a report with a map."""
    of_client = grounds("anvil-creek")
    return report_view(of_client, of_client.client.farms[1])


def fitted(view: FarmReportView, places: Places) -> str:
    """Return the height to which the map of a report is held."""
    return with_fitting_map(view, lambda _: places).map.height


def with_map(width: float, height: float) -> FarmReportView:
    """Return a report with a map of a size [px]."""
    view = shown()
    drawn = f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}" height="{height:g}"></svg>'
    return replace(view, map=replace(view.map, map=drawn))


@pytest.mark.parametrize(
    ("room", "height"),
    [(500.0, ""), (401.0, ""), (396.0, "104.8mm"), (300.0, "79.4mm"), (281.0, "74.3mm"), (279.0, ""), (20.0, "")],
)
def test_a_map_takes_the_room_there_is(room: float, height: str) -> None:
    """Its own height where that fits; what is left down to seven tenths of it; else the next page, whole."""
    end = _BOTTOM - room - 2 * _MM + 10
    assert fitted(with_map(400, 400), {BEGIN: (0, 0), END: (0, end)}) == height
    assert LEAST == 0.7


def test_a_wide_map_is_as_high_as_the_page_lets_it_be() -> None:
    """A picture wider than the page is drawn smaller already, so that it may fit as it is."""
    room = 380.0
    end = _BOTTOM - room - 2 * _MM + 10
    assert fitted(with_map(400, 400), {BEGIN: (0, 0), END: (0, end)}) != ""
    assert fitted(with_map(800, 400), {BEGIN: (0, 0), END: (0, end)}) == ""


@pytest.mark.parametrize("places", [{}, {BEGIN: (0.0, 900.0)}])
def test_where_there_is_no_room_the_map_stays_as_it_is(places: Places) -> None:
    """Words that fill the first page push the map, or all that belongs to it, to the next."""
    assert fitted(with_map(400, 400), places) == ""


def test_a_report_without_a_map_is_not_laid_out() -> None:
    """Nothing is tried for nothing."""

    def refuse(_: FarmReportView) -> Places:
        raise AssertionError

    view = shown()
    view = replace(view, map=replace(view.map, map=""))
    assert with_fitting_map(view, refuse) is view


def test_what_is_laid_out_has_the_words_of_the_first_page() -> None:
    """And little else: it is made to be quick."""
    seen: list[FarmReportView] = []

    def look(view: FarmReportView) -> Places:
        seen.append(view)
        return {}

    view = shown()
    with_fitting_map(view, look)
    (tried,) = seen
    assert (tried.matters, tried.absent, tried.spreads, tried.map.key) == (
        view.matters,
        view.absent,
        view.spreads,
        view.map.key,
    )
    assert (tried.zones, tried.tables) == ((), ())
