"""Cores along a walk: as many as asked for, as far apart as asked for or at least as far as they must be."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.layout.along import Places, nearer_end_first, on_walk, places_along, walk_m
from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule
from tests.layout.shapes import metres

CORNER = (((0.0, 0.0), (30.0, 0.0)), ((30.0, 10.0), (30.0, 50.0)))


def test_spread_over_the_whole_line() -> None:
    """A line of 400 m and 20 cores: 20 m apart, as L / n says; the first half of that from the start."""
    places = places_along(400.0, 20, None, 5.0)
    assert isinstance(places, Places)
    assert (places.spacing_m, places.metres[0], places.metres[-1], places.other) == (20.0, 10.0, 390.0, False)


def test_at_the_distance_asked_for() -> None:
    """A core every 10 m from the start on; the rest of the line stays without."""
    places = places_along(400.0, 20, 10.0, 5.0)
    assert isinstance(places, Places)
    assert places.metres == tuple(10.0 * i for i in range(20))


def test_a_distance_that_does_not_fit_is_reduced() -> None:
    """30 m for 20 cores need 570 m; on 400 m they lie 20 m apart, and it is said; so it is where 2 m become 5 m."""
    places = places_along(400.0, 20, 30.0, 5.0)
    assert isinstance(places, Places)
    assert (places.spacing_m, places.other) == (20.0, True)
    wider = places_along(400.0, 20, 2.0, 5.0)
    assert isinstance(wider, Places)
    assert (wider.spacing_m, wider.other) == (5.0, True)


def test_too_short() -> None:
    """20 cores 5 m apart need 95 m."""
    assert places_along(94.0, 20, None, 5.0) == Misfit(LayoutRule.LINE_TOO_SHORT, {"longest_m": 94.0, "needed_m": 95.0})
    tight = places_along(95.0, 20, None, 5.0)
    assert isinstance(tight, Places)
    assert (tight.metres[0], tight.metres[-1]) == (0.0, 95.0)


@given(
    length=metres(0, 2000),
    n=st.integers(1, 60),
    asked=st.none() | metres(0.1, 100),
    least=st.sampled_from((0.0, 0.5, 5.0, 12.5)),
)
def test_count_and_spacing_hold(length: float, n: int, asked: float | None, least: float) -> None:
    """Whatever is asked: all n cores on the walk, none nearer to the next than the least; or the walk is too short."""
    places = places_along(length, n, asked, least)
    if isinstance(places, Misfit):
        assert (n - 1) * least > length
        return
    assert len(places.metres) == n
    assert 0 <= places.metres[0] <= places.metres[-1] <= length
    assert all(after - before >= least - 1e-5 for before, after in pairwise(places.metres))


@pytest.mark.parametrize(("access", "first"), [(None, 0.0), ((29.0, 60.0), 30.0), ((0.0, -9.0), 0.0)])
def test_the_walk_starts_at_the_end_nearer_to_the_way_in(access: tuple[float, float] | None, first: float) -> None:
    """The walk is turned round where its other end is nearer."""
    walk = nearer_end_first(CORNER, access)
    assert walk[0][0][0] == first
    assert walk_m(walk) == walk_m(CORNER) == 70.0
    assert nearer_end_first((), access) == ()


def test_the_way_between_pieces_does_not_count() -> None:
    """Metre 35 of a walk of 30 m and 40 m, 10 m apart, is 5 m into the second piece."""
    assert on_walk(CORNER, (0.0, 30.0, 35.0, 70.0)) == [
        (0, (0.0, 0.0)),
        (0, (30.0, 0.0)),
        (1, (30.0, 15.0)),
        (1, (30.0, 50.0)),
    ]
    assert on_walk((((1.0, 1.0), (1.0, 1.0)),), (0.0,)) == [(0, (1.0, 1.0))]
    assert math.isclose(walk_m(CORNER), 70)
