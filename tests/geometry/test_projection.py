"""The local grid: there and back, at the date line, in both hemispheres."""

from __future__ import annotations

import pyproj
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.geometry.projection import LocalGrid, beside, bounds, grid_for, positions_of, to_degrees, to_metres
from soilrota.model.ground import Outline
from soilrota.problems import Place

PLACE = Place("map.geojson")


def box(west: float, south: float, east: float, north: float) -> Outline:
    """Return a box as an outline."""
    ring = ((west, south), (east, south), (east, north), (west, north), (west, south))
    return Outline(((ring,),), PLACE)


@settings(max_examples=60, deadline=None)
@given(
    centre=st.tuples(st.floats(-180, 180), st.floats(-75, 75)),
    points=st.lists(st.tuples(st.floats(-5000, 5000), st.floats(-5000, 5000)), min_size=1, max_size=5),
)
def test_there_and_back(centre: tuple[float, float], points: list[tuple[float, float]]) -> None:
    """Metres turned to degrees and back are the same metres, to two millimetres, anywhere on Earth."""
    grid = LocalGrid(*centre)
    back = grid.metres(grid.degrees(points))
    assert back == [pytest.approx(point, abs=2e-3) for point in points]


@settings(max_examples=60, deadline=None)
@given(
    longitude=st.sampled_from((-180.0, -179.99, 179.99, 180.0, 0.0, 145.0)),
    latitude=st.floats(-70, 70),
    step=st.tuples(st.floats(-3000, 3000), st.floats(-3000, 3000)),
)
def test_lengths_against_the_geodesic(longitude: float, latitude: float, step: tuple[float, float]) -> None:
    """A length on the grid is the geodesic's length to a millionth and 5 mm (oracle: pyproj.Geod)."""
    grid = LocalGrid(longitude, latitude)
    one, other = grid.degrees([(0.0, 0.0), step])
    *_, metres = pyproj.Geod(ellps="WGS84").inv(*one, *other)
    assert (step[0] ** 2 + step[1] ** 2) ** 0.5 == pytest.approx(metres, rel=1e-6, abs=5e-3)


def test_degrees_stay_on_the_globe() -> None:
    """Longitudes past the date line come back between -180 and 180."""
    west, east = LocalGrid(180.0, -17.0).degrees([(-500.0, 0.0), (500.0, 0.0)])
    assert 179.9 < west[0] < 180
    assert -180 < east[0] < -179.9


def test_a_box_across_the_date_line_is_narrow() -> None:
    """Bounds run on past 180 instead of around the Earth, and the grid's centre lies between."""
    across = Outline(((((179.99, -17.0), (-179.99, -17.0), (-179.99, -16.99), (179.99, -17.0)),),), PLACE)
    assert bounds(across) == pytest.approx((179.99, -17.0, 180.01, -16.99))
    assert abs(grid_for(across).longitude) == pytest.approx(180.0)


@pytest.mark.parametrize(
    ("longitude", "reference", "expected"),
    [(-179.0, 179.0, 181.0), (179.0, -179.0, -181.0), (10.0, 12.0, 10.0), (370.0, 0.0, 10.0)],
)
def test_beside(longitude: float, reference: float, expected: float) -> None:
    """A longitude is turned to stand within half a turn of another."""
    assert beside(longitude, reference) == pytest.approx(expected)


def test_bounds_of_nothing() -> None:
    """An outline without positions is a fault of the caller."""
    with pytest.raises(ValueError, match="no bounds"):
        bounds(Outline((), PLACE))


def test_parts_cut_at_the_date_line_are_one() -> None:
    """Two parts that share an edge (RFC 7946, section 3.1.9) are one valid surface of the same area."""
    east, west = box(179.99, -17.0, 180.0, -16.99), box(-180.0, -17.0, -179.99, -16.99)
    cut = Outline(east.polygons + west.polygons, PLACE)
    joined = to_metres(cut, grid_for(cut))
    assert isinstance(joined, shapely.Polygon)
    assert joined.is_valid
    parts = sum(to_metres(part, grid_for(part)).area for part in (east, west))
    assert joined.area == pytest.approx(parts, rel=1e-9)


def test_holes_survive_both_ways() -> None:
    """A polygon with a hole goes to metres and back with the same rings."""
    outer, hole = box(0.10, 52.20, 0.11, 52.21).polygons[0][0], box(0.103, 52.203, 0.104, 52.204).polygons[0][0]
    outline = Outline(((outer, hole),), PLACE)
    grid = grid_for(outline)
    (back,) = to_degrees(to_metres(outline, grid), grid)
    for ring, again in zip((outer, hole), back, strict=True):
        assert again == tuple(pytest.approx(position, abs=1e-8) for position in ring)
    assert len(list(positions_of(outline))) == 10


def test_several_parts_come_back() -> None:
    """Parts that stand apart stay apart."""
    one, other = box(0.10, 52.20, 0.11, 52.21), box(0.12, 52.20, 0.13, 52.21)
    both = Outline(one.polygons + other.polygons, PLACE)
    assert len(to_degrees(to_metres(both, grid_for(both)), grid_for(both))) == 2


def test_rounding_does_not_pass_the_date_line() -> None:
    """A point on longitude 180, or a last bit beside it, is not beyond it: maps refuse what lies past 180."""
    steps = [(sign * 10.0**-power, 0.5) for power in range(3, 17) for sign in (-1, 1)]
    for longitude in (-180.0, 180.0):
        back = LocalGrid(longitude, -36.999999943961015).degrees([(0.0, 0.0), *steps])
        assert all(-180 <= east <= 180 for east, _ in back)
