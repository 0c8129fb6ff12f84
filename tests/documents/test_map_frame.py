"""Where positions stand on maps, and hatching."""

from __future__ import annotations

import re

import pytest

from soilrota.documents.map_frame import Frame, crossings, level_lines, scale_bar, slanting_lines

SQUARE = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0), (0.0, 0.0)]
HOLE = [(40.0, 40.0), (60.0, 40.0), (60.0, 60.0), (40.0, 60.0), (40.0, 40.0)]


def test_land_fills_the_frame_and_north_is_up() -> None:
    """The corners stand at the margins; a degree of longitude is shorter than one of latitude."""
    frame = Frame.around([(143.0, -37.0), (143.01, -37.01)], 400, 300, 10)
    x, y = frame.point((143.01, -37.01))
    assert frame.point((143.0, -37.0))[1] == pytest.approx(10)
    assert y == pytest.approx(290)
    assert (x - frame.point((143.0, -37.0))[0]) / (y - 10) == pytest.approx(0.7986, abs=1e-3)


def test_flat_land_makes_a_low_picture() -> None:
    """The picture is no higher than the land needs."""
    assert Frame.around([(0, 0), (0.02, 0.001)], 400, 300, 10).height < 40


def test_hatching_leaves_holes_out() -> None:
    """Level and slanting lines cover the surface without its hole; lengths add up to area over step."""
    rings = [SQUARE, HOLE]
    level = [list(map(float, re.findall(r"-?[\d.]+", one))) for one in level_lines(rings, 2)]
    assert sum(x2 - x1 for x1, _, x2, _ in level) * 2 == pytest.approx(9600, rel=0.03)
    slanting = [list(map(float, re.findall(r"-?[\d.]+", one))) for one in slanting_lines(rings, 2).split("M")[1:]]
    assert sum(abs(x2 - x1) for x1, _, x2, _ in slanting) * 2 == pytest.approx(9600, rel=0.03)
    for x1, y1, x2, y2 in slanting:
        assert x2 - x1 == pytest.approx(y2 - y1, abs=0.2)


def test_a_line_crosses_a_height_twice() -> None:
    """A convex ring is crossed on both sides."""
    assert sorted(crossings(SQUARE, 50.0)) == [0.0, 100.0]


def test_the_scale_bar_is_a_round_length() -> None:
    """The longest round length under a fifth of the width."""
    frame = Frame.around([(0, 0), (0.01, 0.01)], 400, 400, 0)
    assert "200 m" in "".join(scale_bar(frame, 0, 0))
