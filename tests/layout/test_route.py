"""The order of zones and the walk on a farm."""

from __future__ import annotations

import pytest
from pyproj import Geod

from soilrota.layout.route import route, walk_on_farm_m

GEOD = Geod(ellps="WGS84")
ACCESS = (143.5, -37.2)
EAST = [(143.5 + 0.001 * step, -37.2) for step in range(5)]


def test_zones_in_the_order_of_a_short_way() -> None:
    """From the way in along a line, wherever the file names them; from the first one where no way in is known."""
    assert route([EAST[3], EAST[1], EAST[4], EAST[2]], ACCESS) == (1, 3, 0, 2)
    assert sorted(route([EAST[3], EAST[1]], None)) == [0, 1]
    assert route([], ACCESS) == ()


def test_it_works_at_the_date_line() -> None:
    """Neighbours on both sides of the line are neighbours."""
    places = [(-179.999, -17.0), (179.995, -17.0), (179.999, -17.0)]
    assert route(places, (179.99, -17.0)) == (1, 2, 0)


def test_the_walk_goes_in_through_all_zones_and_out() -> None:
    """Way in, first walk, between, second walk, back; an empty walk is left out."""
    walks = [((EAST[1], EAST[2]), 100.0), ((), 0.0), ((EAST[3], EAST[4]), 120.0)]
    pieces = [(ACCESS, EAST[1]), (EAST[2], EAST[3]), (EAST[4], ACCESS)]
    between = [GEOD.inv(*one, *other)[2] for one, other in pieces]
    assert walk_on_farm_m(walks, ACCESS) == pytest.approx(220 + sum(between), abs=1e-6)
    assert walk_on_farm_m(walks, None) == pytest.approx(220 + between[1], abs=1e-6)
    assert walk_on_farm_m([], ACCESS) == 0
