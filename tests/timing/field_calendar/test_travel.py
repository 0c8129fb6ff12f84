"""Driving: distances against a geodesic library, the shortest round against every order."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, permutations

import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.guidelines.field_work import field_work
from soilrota.timing.field_calendar.travel import Roads, great_circle_km
from tests.timing.field_calendar.making import TOWN, a_person, a_visit

TRAVEL = field_work().travel
places = st.tuples(st.floats(-170, 170), st.floats(-70, 70))


def roads(*east_km: float | None, speed: float = 60.0) -> Roads:
    """Return the roads between one person in the town and farms to the east of it."""
    visits = [a_visit(f"v{number}", east_km=km) for number, km in enumerate(east_km)]
    return Roads(visits, [a_person()], replace(TRAVEL, speed_km_h=speed))


@given(places, places)
def test_distances_are_those_of_the_ellipsoid_within_half_a_percent(
    one: tuple[float, float], two: tuple[float, float]
) -> None:
    """Great circle against the geodesic of WGS 84 (GeographicLib); a sphere is at most 0.56 % off."""
    geodesic = Geodesic.WGS84.Inverse(one[1], one[0], two[1], two[0])["s12"] / 1000
    assert great_circle_km([one, two])[0, 1] == pytest.approx(geodesic, rel=0.0057, abs=0.001)


def test_a_leg_is_detour_over_speed_rounded_up() -> None:
    """20 km as the crow flies are 26 km by road, 26 minutes at 60 km/h and 52 at 30; 27 and 53 with what is begun."""
    assert roads(20.05).there_and_back(0, 0) == 2 * 27
    assert roads(20.05, speed=30).there_and_back(0, 0) == 2 * 53
    assert roads(20.05).way_km(0, 0) == pytest.approx(26.0, abs=0.2)


def test_a_round_through_farms_on_one_road() -> None:
    """Farms on one road are driven to in order; the round is the way to the farthest, but for minutes begun."""
    some = roads(30, 10, 20)
    assert 0 <= some.round_minutes(0, (0, 1, 2)) - some.there_and_back(0, 0) <= 3
    assert some.round_order(0, (0, 1, 2)) in {(0, 1, 2), (0, 2, 1), (1, 2, 0)}
    assert some.round_km(0, (1, 2, 0)) == pytest.approx(2 * 39, abs=0.5)


def test_farms_of_unknown_place_are_driven_to_by_themselves() -> None:
    """Each adds two ways of an hour; between them and others there is no short way."""
    some = roads(None, 10, None)
    assert some.way_km(0, 0) is None
    assert some.round_minutes(0, (0, 1, 2)) == some.there_and_back(0, 1) + 240
    assert some.round_minutes(0, (0,)) == 120
    assert some.between(0, 1) == 120
    assert some.round_order(0, (0, 1, 2)) == (1, 0, 2)
    assert some.round_km(0, (0,)) == 120


near = st.tuples(st.floats(-0.8, 0.8), st.floats(-0.8, 0.8)).map(lambda off: (TOWN[0] + off[0], TOWN[1] + off[1]))


@settings(deadline=None)
@given(st.lists(near, min_size=1, max_size=5))
def test_the_round_is_the_shortest_of_every_order(farms: list[tuple[float, float]]) -> None:
    """Minutes are those of the best order; a farm fewer is never a longer round."""
    visits = [replace(a_visit(f"v{number}"), position=place) for number, place in enumerate(farms)]
    some = Roads(visits, [a_person()], TRAVEL)
    every = tuple(range(len(farms)))

    def minutes(order: tuple[int, ...]) -> int:
        inner = sum(some.between(one, other) for one, other in pairwise(order))
        return some.there_and_back(0, order[0]) // 2 + inner + some.there_and_back(0, order[-1]) // 2

    assert some.round_minutes(0, every) == min(map(minutes, permutations(every)))
    assert minutes(some.round_order(0, every)) == some.round_minutes(0, every)
    assert some.round_minutes(0, every[1:]) <= some.round_minutes(0, every) if every[1:] else True
