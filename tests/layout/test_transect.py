"""The longest straight line: never outside, and within 2 % of a slow search over angles and offsets."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings

from soilrota.geometry.projection import Surface
from soilrota.guidelines.layout import layout_figures
from soilrota.layout.ground import free_ground, surface_of
from soilrota.layout.transect import length_m, longest_line
from soilrota.model.ground import AvoidedPlace, Outline, Position
from tests.layout.shapes import LONG, grounds, zones

ANGLES, OFFSETS = (240, 160) if LONG else (120, 120)


def slow_longest(ground: Surface) -> float:
    """Return the longest line [m] among many angles and many offsets, by cutting lines with the ground."""
    x, y = ground.envelope.centroid.coords[0]
    reach = math.hypot(ground.bounds[2] - ground.bounds[0], ground.bounds[3] - ground.bounds[1])
    longest = 0.0
    for angle in np.linspace(0, math.pi, ANGLES, endpoint=False):
        cos, sin = math.cos(angle), math.sin(angle)
        offsets = np.linspace(-reach / 2, reach / 2, OFFSETS)
        middle = np.column_stack((x - sin * offsets, y + cos * offsets))
        ends = np.stack((middle - reach * np.array((cos, sin)), middle + reach * np.array((cos, sin))), axis=1)
        pieces = shapely.get_parts(shapely.intersection(shapely.linestrings(ends), ground))
        longest = max(longest, float(shapely.length(shapely.get_parts(pieces)).max(initial=0.0)))
    return longest


@settings(max_examples=150 if LONG else 30, deadline=None)
@given(case=grounds())
def test_within_two_per_cent_of_a_slow_search(case: Surface) -> None:
    """Concave, pierced, thin ground in parts: inside, and no shorter than 98 % of what the slow search finds."""
    ground = surface_of(case)
    line = longest_line(ground)
    slow = slow_longest(ground)
    assert line is not None
    assert shapely.covers(shapely.buffer(ground, 1e-6), shapely.LineString(line))
    assert length_m(line) >= 0.98 * slow


@settings(max_examples=150 if LONG else 30, deadline=None)
@given(case=zones())
def test_within_two_per_cent_in_what_is_left_of_a_zone(
    case: tuple[Outline, tuple[AvoidedPlace, ...], Position],
) -> None:
    """The same with round distances taken out, which have many corners."""
    ground = free_ground(case[0], case[1], 10.0, layout_figures().classes).free
    line = longest_line(ground)
    assert (line is None) == ground.is_empty or ground.area < 10
    if line is not None:
        assert shapely.covers(shapely.buffer(ground, 1e-6), shapely.LineString(line))
        assert length_m(line) >= 0.98 * slow_longest(ground)


@pytest.mark.parametrize(
    ("ground", "expected"),
    [
        (shapely.box(0, 0, 300, 400), 500.0),
        (shapely.Point(0, 0).buffer(100, quad_segs=16), 200.0),
        (shapely.box(0, 0, 400, 400).difference(shapely.box(100, 100, 300, 300)), math.hypot(400, 400 - 800 / 3)),
        (shapely.box(0, 0, 100, 100).union(shapely.box(300, 0, 900, 10)), math.hypot(600, 10)),
        (shapely.box(0, 0, 500, 100).union(shapely.box(0, 0, 100, 500)), math.hypot(500, 100)),
    ],
    ids=["box", "circle", "frame", "two parts", "angle"],
)
def test_lines_that_are_known(ground: Surface, expected: float) -> None:
    """Box, circle and strip have their diagonals; a frame and an angle have theirs past the inner corner."""
    line = longest_line(ground)
    assert line is not None
    assert length_m(line) >= expected * 0.999 - 0.1


def test_no_ground_no_line() -> None:
    """Nothing, and a speck thinner than what is drawn in, have no line."""
    assert longest_line(shapely.MultiPolygon()) is None
    assert longest_line(shapely.Polygon()) is None


def test_the_order_of_corners_and_parts_does_not_matter() -> None:
    """The same ground drawn from another corner, the other way round, parts in another order: the same line."""
    star = shapely.Polygon([(0, 0), (50, 20), (200, 0), (80, 60), (90, 200), (40, 70)])
    other = shapely.affinity.translate(star, 500, 0)
    corners = list(star.exterior.coords)[:-1]
    turned = shapely.Polygon((corners[3:] + corners[:3])[::-1])
    first = longest_line(shapely.MultiPolygon([star, other]))
    second = longest_line(shapely.MultiPolygon([other, turned]))
    assert first is not None
    assert second is not None
    assert np.allclose(first, second, atol=1e-6)
    assert first[0] < first[1]


def test_ground_with_very_many_corners() -> None:
    """A wavy disc of 5,000 corners is smoothed inwards; the line stays inside and loses less than 2 %."""
    angles = np.linspace(0, 2 * math.pi, 5000, endpoint=False)
    radii = 300 + 5 * np.sin(40 * angles)
    ground = shapely.Polygon(np.column_stack((radii * np.cos(angles), radii * np.sin(angles))))
    line = longest_line(ground)
    assert line is not None
    assert shapely.covers(ground, shapely.LineString(line))
    assert length_m(line) >= 0.98 * 610
    assert all(one <= other for one, other in pairwise(line))


def test_a_winding_lane_with_very_many_corners() -> None:
    """A rough lane about 3 m wide with some 6,000 corners cannot be smoothed by much: a line is found all the same."""
    way = np.linspace(0, 20 * math.pi, 3000)
    middle = np.column_stack((10 * way, 40 * np.sin(way)))
    normal = np.column_stack((-40 * np.cos(way), np.full(3000, 10.0)))
    normal /= np.hypot(*normal.T)[:, None]
    wide = np.random.default_rng(1).uniform(1.3, 1.7, (2, 3000, 1))
    ring = np.concatenate((middle + wide[0] * normal, (middle - wide[1] * normal)[::-1]))
    ground = surface_of(shapely.make_valid(shapely.Polygon(ring)))
    line = longest_line(ground)
    assert line is not None
    assert shapely.covers(shapely.buffer(ground, 1e-6), shapely.LineString(line))
    assert length_m(line) > 0.95 * 85.44  # what the slow search finds in half a minute
