"""The year strip."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

from soilrota.documents.strips import ROWS_A_PICTURE, StripRow, strip_key, year_strips
from soilrota.documents.words import SHORT_STATES, STATES
from soilrota.language import say, speaking
from soilrota.model.windows import Span, State

SEASON = Span(date(2027, 1, 20), date(2027, 3, 31))
ROW = StripRow(
    "A <Flat>",
    SEASON,
    (Span(date(2027, 3, 8), date(2027, 3, 31)),),
    (Span(date(2027, 1, 20), date(2027, 3, 7)),),
    date(2027, 2, 20),
    "Open now",
)


def test_a_strip_is_one_picture_with_its_words() -> None:
    """The text alternative says the open days and the best one; names are escaped."""
    (strip,) = year_strips([ROW], "en-AU")
    root = ElementTree.fromstring(strip)
    title = root.find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text == "Year strip. A <Flat>: 20 January to 7 March 2027, best on 20 February 2027."


def test_days_stand_in_their_order_inside_the_picture() -> None:
    """The closed days begin where the open ones end, and nothing leaves the picture."""
    (strip,) = year_strips([ROW], "en-AU")
    bars = [
        (float(x), float(width)) for x, width in re.findall(r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', strip)
    ]
    assert all(0 <= x and x + width <= 660 for x, width in bars)
    season, closed, opened = bars
    assert abs(opened[0] + opened[1] - closed[0]) < 0.05
    assert abs(season[1] - closed[1] - opened[1]) < 0.05


def test_many_rows_go_over_several_pictures() -> None:
    """Thirty rows a picture, the months repeated in each."""
    strips = year_strips([ROW] * (ROWS_A_PICTURE + 1), "en-AU")
    assert len(strips) == 2
    assert all(">Feb</text>" in strip for strip in strips)
    assert year_strips([], "en-AU") == ()


def test_a_season_beyond_the_strip_is_named_by_its_year() -> None:
    """A task due in three years says so, instead of an empty row."""
    far = StripRow("B", Span(date(2029, 8, 10), date(2029, 11, 30)), (), (), None, "Results in")
    (strip,) = year_strips([ROW, far], "en-AU")
    assert "in 2029</text>" in strip


def test_no_state_is_cut_at_the_right_end() -> None:
    """In either language the short words of a state have room."""
    for language in ("en", "es"):
        with speaking(language):
            for state in State:
                note = say(SHORT_STATES.get(state, STATES[state]))
                (strip,) = year_strips([replace(ROW, note=note)], language)
                assert f"{note}</text>" in strip


def test_the_key_explains_every_shape() -> None:
    """Season, closed, open, best day."""
    for word in ("season", "closed", "open for sampling", "best day"):
        assert word in strip_key()
