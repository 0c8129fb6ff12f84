"""A zigzag walk: every core in the ground, far enough from every other, from side to side; or why not."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.geometry.projection import Surface
from soilrota.layout.ground import surface_of
from soilrota.layout.misfit import Misfit
from soilrota.layout.zigzag import Walk, closest_m, zigzag
from soilrota.model.layout import LayoutRule
from tests.layout.shapes import EXAMPLES, as_points, closest_pair_m, grounds, metres

FIELD = shapely.box(0, 0, 600, 200)


def walk_over(ground: Surface, n: int, asked: float | None = None, access: tuple[float, float] | None = None) -> Walk:
    """Return the walk over ground where one fits."""
    walk = zigzag(ground, n, asked, 5.0, narrow_m=20.0, least_legs=4, access=access)
    assert isinstance(walk, Walk)
    return walk


@settings(max_examples=EXAMPLES, deadline=None)
@given(case=grounds(), n=st.integers(1, 40), asked=st.none() | metres(1, 60), least=st.sampled_from((0.0, 2.0, 5.0)))
def test_count_place_and_spacing_hold(case: Surface, n: int, asked: float | None, least: float) -> None:
    """All cores lie in the ground and keep the least spacing, pair by pair; or the misfit's facts are true."""
    ground = surface_of(case)
    walk = zigzag(ground, n, asked, least, narrow_m=20.0, least_legs=4, access=None)
    if isinstance(walk, Misfit):
        assert walk.rule in {LayoutRule.TOO_NARROW, LayoutRule.WALK_TOO_SHORT}
        longest = walk.facts["width_m"] if walk.rule is LayoutRule.TOO_NARROW else walk.facts["longest_m"]
        assert float(longest) < float(walk.facts["needed_m"])
        return
    assert len(walk.points) == n
    assert shapely.dwithin(ground, as_points(list(walk.points)), 1e-6).all()
    closest = closest_pair_m(list(walk.points))
    assert closest >= least - 1e-5
    assert math.isclose(closest_m(walk.points), closest) or n == 1
    through = shapely.LineString(walk.line) if n > 1 else shapely.Point(walk.line[0])
    assert shapely.dwithin(through, as_points(list(walk.points)), 1e-6).all()


def test_from_side_to_side() -> None:
    """On an open field the turns lie on both long sides in turn, and the cores at equal distances along the walk."""
    walk = walk_over(FIELD, 24)
    turns = [point for point in walk.line if point not in walk.points]
    assert len(turns) == 3  # a walk of four legs, like a W
    assert all(abs(after[1] - before[1]) == pytest.approx(200) for before, after in pairwise(turns))
    steps = [math.dist(*pair) for pair in pairwise(walk.line)]
    assert sum(steps) == pytest.approx(23 * walk.spacing_m)


def test_a_long_strip_has_more_legs() -> None:
    """A strip ten times as long as wide is crossed about ten times."""
    walk = walk_over(shapely.box(0, 0, 600, 60), 40)
    assert 8 <= len([point for point in walk.line if point not in walk.points]) <= 11


def test_it_starts_at_the_way_in() -> None:
    """The first core lies at the end nearer to the way in, whichever that is."""
    west, east = walk_over(FIELD, 20, access=(-50.0, 100.0)), walk_over(FIELD, 20, access=(700.0, 100.0))
    assert west.points[0][0] < 100
    assert east.points[0][0] > 500
    assert np.allclose(west.points, east.points[::-1])


def test_no_core_where_a_leg_crosses_what_is_taken_out() -> None:
    """A hole in the middle of the field has no core; all cores are there."""
    hole = shapely.Point(300, 100).buffer(60)
    walk = walk_over(FIELD.difference(hole), 30)
    assert len(walk.points) == 30
    assert not shapely.contains(hole.buffer(-1e-6), as_points(list(walk.points))).any()


def test_too_narrow_too_short() -> None:
    """A lane of 12 m is too narrow; 400 cores 5 m apart do not fit on a field of a third of a hectare."""
    lane = zigzag(shapely.box(0, 0, 300, 12), 20, None, 5.0, narrow_m=20.0, least_legs=4, access=None)
    assert isinstance(lane, Misfit)
    assert lane.rule is LayoutRule.TOO_NARROW
    assert lane.facts["width_m"] == pytest.approx(12, abs=0.2)
    small = zigzag(shapely.box(0, 0, 60, 60), 400, None, 5.0, narrow_m=20.0, least_legs=4, access=None)
    assert isinstance(small, Misfit)
    assert small.rule is LayoutRule.WALK_TOO_SHORT
    assert small.facts["needed_m"] == pytest.approx(399 * 5)


def test_the_distance_asked_for_or_said() -> None:
    """Cores every 20 m where they fit; every 200 m do not fit, and another distance is used and said."""
    assert (walk_over(FIELD, 20, 20.0).spacing_m, walk_over(FIELD, 20, 20.0).other) == (20.0, False)
    wide = walk_over(FIELD, 20, 200.0)
    assert wide.other
    assert wide.spacing_m < 200


def test_a_frame_the_library_gets_wrong() -> None:
    """For this lane GEOS 3.14.1 gives a smallest rectangle without width; the walk is there all the same."""
    corners = [
        (0, 0),
        (8.725794855238869, 7.066009350707575),
        (276.8949464913509, -324.0953134751441),
        (268.169151636112, -331.1613228258517),
        (11.385642478368402, -14.060097521861833),
        (23.108919658560673, -10.69623635857923),
        (5.577828002346821, -6.888043939739674),
    ]
    walk = zigzag(shapely.Polygon(corners), 20, None, 5.0, narrow_m=5.0, least_legs=4, access=None)
    assert isinstance(walk, Walk)
    assert math.dist(walk.points[0], walk.points[-1]) > 350
