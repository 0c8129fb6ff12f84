"""Clusters: on a lattice, in free ground, within the radius, as far apart as they can be."""

from __future__ import annotations

import math
import time
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.geometry.projection import Surface
from soilrota.layout.cluster import CLOSEST_M, centre_moved_m, centre_used, cluster
from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule
from tests.layout.regions import EXAMPLES, closest_pair_m, in_ground, metres, regions

WIDE = shapely.box(-100, -100, 100, 100)
CENTRES = st.none() | st.tuples(metres(-80, 80), metres(-80, 80))


def fitting(free: Surface, middle: tuple[float, float], spacing: float, radius: float) -> int:
    """Count the points of an upright lattice in the free disc, one at a time."""
    reach = int(radius / spacing) + 1
    count = 0
    for i in range(-reach, reach + 1):
        for j in range(-reach, reach + 1):
            point = shapely.Point(middle[0] + i * spacing, middle[1] + j * spacing)
            count += math.hypot(i, j) * spacing <= radius and bool(free.intersects(point))
    return count


@settings(max_examples=EXAMPLES, deadline=None)
@given(
    free=regions(),
    centre=CENTRES,
    n=st.integers(1, 30),
    least=st.sampled_from((0.0, 0.5, 1.0, 2.0)),
    radius=metres(2, 12),
)
def test_every_core_keeps_the_rules(
    free: Surface, centre: tuple[float, float] | None, n: int, least: float, radius: float
) -> None:
    """As many as wanted, in free ground, in reach, apart, nearest first; or a misfit that counts right."""
    cores = cluster(free, centre, n, least, radius)
    middle = centre_used(free, centre)
    closest = max(least, CLOSEST_M)
    if isinstance(cores, Misfit):
        assert cores.rule is LayoutRule.TOO_FEW_FIT
        assert cores.facts == {"wanted": n, "fit": cores.facts["fit"], "radius_m": radius}
        assert isinstance(cores.facts["fit"], int)
        assert 1 <= cores.facts["fit"] < n
        for spacing in (max(closest, 0.5), radius):  # counting one by one at a tenth of a metre takes too long
            if spacing in (closest, radius):
                assert fitting(free, middle, spacing, radius) <= cores.facts["fit"]
        return
    assert len(cores) == n
    assert in_ground(free, cores)
    away = [math.dist(core, middle) for core in cores]
    assert away[0] == 0.0
    assert all(one <= other + 1e-9 for one, other in pairwise(away))
    assert max(away) <= radius + 1e-6
    assert closest_pair_m(cores) >= closest - 1e-9
    assert cores == cluster(free, centre, n, least, radius)


@settings(max_examples=EXAMPLES, deadline=None)
@given(free=regions(), centre=CENTRES)
def test_the_middle_moves_no_farther_than_it_must(free: Surface, centre: tuple[float, float] | None) -> None:
    """A point in free ground stays; another goes to the nearest place of it; without one it is nearly the deepest."""
    used, moved = centre_used(free, centre), centre_moved_m(free, centre)
    assert in_ground(free, [used])
    if centre is None:
        assert moved == 0.0
        depth = shapely.distance(free.boundary, shapely.Point(used))
        assert depth >= 0.95 * shapely.maximum_inscribed_circle(free).length
        return
    assert moved == pytest.approx(free.distance(shapely.Point(centre)), abs=1e-6)
    assert moved == pytest.approx(math.dist(used, centre), abs=1e-9)
    if free.intersects(shapely.Point(centre)):
        assert used == centre


@pytest.mark.parametrize("n", range(1, 61))
def test_on_open_ground_the_spacing_is_the_widest_there_is(n: int) -> None:
    """The n-th point of a lattice, by its distance in steps, lies on the disc's edge or no ring lies beyond it."""
    squares = sorted(i * i + j * j for i in range(-12, 13) for j in range(-12, 13))
    cores = cluster(WIDE, (3.0, -4.0), n, 0.5, 10.0)
    assert not isinstance(cores, Misfit)
    if n > 1:
        assert closest_pair_m(cores) == pytest.approx(10 / math.sqrt(squares[n - 1]))
        assert max(math.dist(core, (3.0, -4.0)) for core in cores) == pytest.approx(10.0)


def test_the_square_that_is_published_holds_as_many() -> None:
    """25 to 30 cores from a square of 5 m by 5 m (published): 25 and 30 fit there, half a metre apart at least."""
    square = shapely.box(0, 0, 5, 5)
    for n in (25, 30):
        cores = cluster(square, None, n, 0.5, 5 / math.sqrt(2))
        assert not isinstance(cores, Misfit)
        assert closest_pair_m(cores) > 0.7


def test_a_slanting_strip_is_used_along_its_length() -> None:
    """A strip 1 m wide at 30 degrees: the cores lie along it, as far apart as on the same strip laid flat."""
    flat = shapely.box(-50, -0.5, 50, 0.5)
    slanting = shapely.affinity.rotate(flat, 30, origin=(0, 0))
    one, other = cluster(flat, (0.0, 0.0), 15, 0.2, 10.0), cluster(slanting, (0.0, 0.0), 15, 0.2, 10.0)
    assert not isinstance(one, Misfit)
    assert not isinstance(other, Misfit)
    assert closest_pair_m(other) == pytest.approx(closest_pair_m(one), rel=1e-6)
    assert closest_pair_m(one) > 1


def test_the_deepest_of_a_strip_is_its_middle() -> None:
    """Equally deep along its middle line, a strip is sampled in the middle of that."""
    assert centre_used(shapely.box(0, 0, 500, 10), None) == pytest.approx((250, 5), abs=0.1)
    assert centre_used(shapely.box(0, 0, 8, 8), None) == pytest.approx((4, 4), abs=0.1)


def test_too_few_fit() -> None:
    """Ground of 2 m by 2 m has room for nine cores a metre apart, not for ten; nothing fits in no ground."""
    ground = shapely.box(0, 0, 2, 2)
    misfit = cluster(ground, (1.0, 1.0), 10, 1.0, 5.0)
    assert misfit == Misfit(LayoutRule.TOO_FEW_FIT, {"wanted": 10, "fit": 9, "radius_m": 5.0})
    nothing = cluster(shapely.Polygon(), None, 3, 1.0, 5.0)
    assert nothing == Misfit(LayoutRule.TOO_FEW_FIT, {"wanted": 3, "fit": 0, "radius_m": 5.0})
    near = cluster(WIDE, (0.0, 0.0), 2, 3.0, 2.0)
    assert near == Misfit(LayoutRule.TOO_FEW_FIT, {"wanted": 2, "fit": 1, "radius_m": 2.0})


def test_the_most_that_fit_are_counted() -> None:
    """Five small spots 3 m apart hold five cores 3 m apart; at the least distance only the middle one fits."""
    spots = shapely.MultiPoint([(0, 0), (3, 0), (-3, 0), (0, 3), (0, -3)]).buffer(0.4)
    assert isinstance(spots, shapely.MultiPolygon)
    misfit = cluster(spots, (0.0, 0.0), 6, 1.8, 4.0)
    assert misfit == Misfit(LayoutRule.TOO_FEW_FIT, {"wanted": 6, "fit": 5, "radius_m": 4.0})


def test_a_misfit_is_found_in_a_moment() -> None:
    """The most work there is: no least distance, ground too small for the cores, a radius of 20 m."""
    begin = time.perf_counter()
    assert isinstance(cluster(shapely.box(0, 0, 20, 0.05), None, 500, 0.0, 20.0), Misfit)
    assert time.perf_counter() - begin < 30
