"""Points kept: what lies in free ground stays, the rest moves no farther than it must."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from soilrota.geometry.projection import Surface
from soilrota.layout.keeping import STAYS_WITHIN_M, keep
from soilrota.layout.strata import strata
from tests.layout.regions import EXAMPLES, LONG, in_ground, metres, polygons_of, regions

Point = tuple[float, float]
FIELD = shapely.box(0, 0, 100, 60)
POINTS = st.lists(st.tuples(metres(-90, 90), metres(-90, 90)), min_size=1, max_size=12)
STEP = 0.4 if LONG else 1.0


def places_around(point: Point, reach: float) -> np.ndarray:
    """A fine lattice of places within reach of the point."""
    steps = np.arange(-reach, reach + STEP, STEP)
    x, y = (axis.ravel() for axis in np.meshgrid(steps, steps))
    held = np.hypot(x, y) <= reach
    return np.column_stack((x[held] + point[0], y[held] + point[1]))


def nearest_by_trying(point: Point, free: Surface, others: list[Point], least: float, reach: float) -> float:
    """How far the nearest of many places is that are free and keep the distance; infinite where there is none [m]."""
    places = places_around(point, reach)
    fits = shapely.intersects_xy(free, places)
    for other in others:
        fits &= np.hypot(places[:, 0] - other[0], places[:, 1] - other[1]) >= least
    away = np.hypot(places[:, 0] - point[0], places[:, 1] - point[1])[fits]
    return float(away.min()) if len(away) else math.inf


@settings(max_examples=EXAMPLES, deadline=None)
@given(free=regions(), earlier=POINTS, least=st.sampled_from((0.0, 1.0, 5.0)), reach=metres(1, 40))
def test_the_rules_and_the_slow_search(free: Surface, earlier: list[Point], least: float, reach: float) -> None:
    """Those in free ground stay exactly; of the others none goes farther than a search over many places finds."""
    kept = keep(earlier, free, least, reach)
    stays = [free.distance(shapely.Point(point)) <= STAYS_WITHIN_M for point in earlier]
    others = [point for point, stay in zip(earlier, stays, strict=True) if stay]
    if kept is None:
        movers = [point for point, stay in zip(earlier, stays, strict=True) if not stay]
        assert movers
        if len(movers) == 1:
            assert nearest_by_trying(movers[0], free, others, least, reach) == math.inf
        return
    assert len(kept) == len(earlier)
    for before, stay, (now, moved) in zip(earlier, stays, kept, strict=True):
        assert moved == pytest.approx(math.dist(before, now), abs=1e-9)
        if stay:
            assert (now, moved) == (before, 0.0)
            continue
        assert moved <= reach + 1e-5
        assert in_ground(free, [now])
        assert all(math.dist(now, other) >= least - 1e-5 for other in others)
        assert moved <= nearest_by_trying(before, free, others, least, reach) + 1e-5
        others.append(now)
    again = keep([now for now, _ in kept], free, least, reach)
    assert again == [(now, 0.0) for now, _ in kept]


@settings(max_examples=EXAMPLES, deadline=None)
@given(
    free=regions(),
    place=st.tuples(metres(-70, 70), metres(-70, 70), metres(1, 20)),
    n=st.integers(2, 15),
    gone=st.booleans(),
)
def test_a_place_more_or_less_moves_only_the_points_in_it(
    free: Surface, place: tuple[float, float, float], n: int, gone: bool
) -> None:
    """A place to avoid that is new moves the points in it and no other; one that is gone moves none."""
    disc = shapely.Point(place[:2]).buffer(place[2])
    smaller = polygons_of(free.difference(disc))
    assume(smaller.area > 1)
    before, after = (smaller, free) if gone else (free, smaller)
    points = strata(before, n, "earlier")
    kept = keep(points, after, 0.0, 500.0)  # no distance: a narrow strip may be full
    assert kept is not None
    for point, (now, moved) in zip(points, kept, strict=True):
        in_it = not gone and after.distance(shapely.Point(point)) > STAYS_WITHIN_M
        assert not in_it or disc.distance(shapely.Point(point)) < 1e-6
        assert (moved > 0) == in_it
        assert (now == point) != in_it


def test_straight_to_the_edge() -> None:
    """A point 3 m outside goes 3 m to the edge; one in a corner's reach goes to the corner; the rest stays."""
    kept = keep([(10.0, 5.0), (50.0, 63.0), (103.0, 64.0)], FIELD, 1.0, 10.0)
    assert kept == [((10.0, 5.0), 0.0), ((50.0, 60.0), 3.0), ((100.0, 60.0), 5.0)]


def test_it_makes_way_for_those_that_stay() -> None:
    """Where a point stands at the place, the next best on the edge is as far from it as has to be."""
    kept = keep([(50.0, 60.0), (51.0, 63.0)], FIELD, 5.0, 10.0)
    assert kept is not None
    assert kept[1] == (pytest.approx((55.0, 60.0)), pytest.approx(5.0))
    crowded = keep([(50.0, 60.0), (50.0, 60.0), (50.0, 66.0)], FIELD, 0.0, 10.0)
    assert crowded == [((50.0, 60.0), 0.0), ((50.0, 60.0), 0.0), ((50.0, 60.0), 6.0)]


def test_between_two_circles() -> None:
    """In a wide gap that two others leave, the nearest place can be where their circles cross."""
    earlier = [(46.0, 60.0), (54.0, 60.0), (50.0, 61.0)]
    kept = keep(earlier, FIELD, 5.0, 20.0)
    assert kept is not None
    assert kept[2] == (pytest.approx((50.0, 57.0)), pytest.approx(4.0))


def test_straight_on_out_of_a_circle() -> None:
    """In a small hole beside a point that stays, the way out is straight on, away from that point."""
    free = polygons_of(FIELD.difference(shapely.box(49.5, 29.5, 50.5, 30.5)))
    kept = keep([(48.0, 30.0), (50.0, 30.0)], free, 5.0, 10.0)
    assert kept is not None
    assert kept[1] == (pytest.approx((53.0, 30.0)), pytest.approx(3.0))


def test_past_a_crowd() -> None:
    """Where points stand close all round, the nearest place is far, and found all the same."""
    crowd = [(float(x), float(y)) for x in range(30, 71, 4) for y in range(44, 61, 4)]
    kept = keep([*crowd, (50.0, 60.5)], FIELD, 5.0, 60.0)
    assert kept is not None
    assert [moved for _, moved in kept[:-1]] == [0.0] * len(crowd)
    tried = nearest_by_trying((50.0, 60.5), FIELD, crowd, 5.0, 60.0)
    assert 15 < tried - 1.5 * STEP < kept[-1][1] <= tried


def test_the_middle_of_a_tree() -> None:
    """A point in the middle of a new tree's disc: all ways out are as long, the same one is taken each time."""
    free = polygons_of(FIELD.difference(shapely.Point(50, 30).buffer(4)))
    one, other = (keep([(50.0, 30.0)], free, 1.0, 10.0) for _ in range(2))
    assert one is not None
    assert one == other
    assert one[0][1] == pytest.approx(4.0, rel=0.01)


def test_out_of_reach() -> None:
    """A point with no place within reach, for want of ground or of distance, and no ground at all."""
    assert keep([(50.0, 71.0)], FIELD, 1.0, 10.0) is None
    assert keep([(1.0, 1.0), (4.0, 1.0)], shapely.box(0, 0, 2, 2), 5.0, 10.0) is None
    assert keep([(1.0, 1.0)], shapely.Polygon(), 1.0, 10.0) is None
    assert keep([], FIELD, 1.0, 10.0) == []


def test_a_millimetre_is_no_move() -> None:
    """The way to degrees and back moves a point by less than what counts; a caller may allow more."""
    outside = (50.0, 60.0009)
    assert keep([outside], FIELD, 1.0, 10.0) == [(outside, 0.0)]
    assert keep([(50.0, 60.002)], FIELD, 1.0, 10.0) == [((50.0, 60.0), pytest.approx(0.002))]
    assert keep([(50.0, 60.01)], FIELD, 1.0, 10.0, within_m=0.02) == [((50.0, 60.01), 0.0)]
