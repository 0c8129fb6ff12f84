"""Marks and numbers of points."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from soilrota.documents.label_places import Box, Places
from soilrota.documents.map_frame import Frame, positions_of
from soilrota.documents.pack_points import claim_points, draw_points, draw_words, point_mark, spread, word_room
from soilrota.model.layout import Pattern
from soilrota.model.protocol import Layer
from tests.documents.made import example
from tests.documents.packs import a_layout, a_task

CLIENT = example("brolga-plains")
FARM = CLIENT.farms[0]
ZONE = FARM.zones[0]
PROTOCOL = CLIENT.protocols["deep-nitrogen"]


def numbers_at(width: float, cores: int) -> list[str]:
    """Return the numbers written on a map so wide [px]."""
    layout = a_layout(ZONE, FARM, (Layer(0, 10, cores),), Pattern.STRATA)
    assert ZONE.outline is not None
    frame = Frame.around(positions_of([ZONE.outline]), width, width, 16)
    places = Places(Box(0, 0, frame.width, frame.height))
    claim_points(layout, frame, places)
    drawn = "".join(draw_points(layout, a_task(CLIENT, FARM, ZONE, PROTOCOL), frame, places))
    root = ElementTree.fromstring(f"<svg>{drawn}</svg>")
    return [element.text or "" for element in root.iter("text") if "stroke" not in element.attrib]


def test_shape_and_filling_tell_points_apart() -> None:
    """Deep is a square, in the row is hollow: four marks, none alike."""
    marks = [point_mark(0, 0, deep=deep, in_row=row) for deep in (False, True) for row in (False, True)]
    assert len(set(marks)) == 4
    assert all("<rect" in mark for mark in marks[2:])
    assert all("<circle" in mark for mark in marks[:2])


def test_all_numbers_stand_where_there_is_room() -> None:
    """A large map numbers every point; the first says where to start."""
    found = numbers_at(440, 40)
    assert sorted(int(word.split()[0]) for word in found) == list(range(1, 41))
    assert "1 start" in found


@pytest.mark.parametrize("width", [130, 180, 220, 260, 320])
def test_a_crowded_map_numbers_every_fifth(width: float) -> None:
    """All points or else only first, last and every fifth: none in between misleads."""
    found = {int(word.split()[0]) for word in numbers_at(width, 60)}
    assert found == set(range(1, 61)) or found <= {1, *range(5, 61, 5)}
    assert 1 in found


def test_words_without_room_are_left_out() -> None:
    """Nothing is written over something else."""
    assert not list(draw_words("way in", (5, 5), 4, Places(Box(0, 0, 20, 20))))
    assert list(draw_words("way in", (50, 50), 4, Places(Box(0, 0, 200, 200))))


def test_spread_is_the_longer_side() -> None:
    """None without points."""
    assert spread([]) == 0
    assert spread([(0, 0), (30, 10)]) == pytest.approx(30)
    assert word_room("ab", 10) < word_room("abc", 10)
