"""Areas against geodesic areas from other code: pyproj.Geod and geographiclib."""

from __future__ import annotations

import math

import pyproj
import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.geometry.measure import area_ha, covered_share, distance_km, extent_km, inside, overlap_ha, perimeter_m
from soilrota.geometry.projection import LocalGrid
from soilrota.model.ground import Outline, Position, Ring
from soilrota.problems import Place

PLACE = Place("map.geojson")


def box(west: float, south: float, east: float, north: float) -> Outline:
    """Return a box as an outline."""
    ring = ((west, south), (east, south), (east, north), (west, north), (west, south))
    return Outline(((ring,),), PLACE)


def geographiclib_area(ring: Ring) -> float:
    """Return the geodesic area [m2] of a ring by geographiclib (C. F. F. Karney)."""
    polygon = Geodesic.WGS84.Polygon()
    for longitude, latitude in ring[:-1]:
        polygon.AddPoint(latitude, longitude)
    _, _, area = polygon.Compute(reverse=False, sign=True)
    return abs(float(area))


@st.composite
def stars(draw: st.DrawFn) -> Outline:
    """A star-shaped polygon of 3 to 12 corners, 50 m to 3 km from its centre, anywhere; often at the date line."""
    longitude = draw(st.sampled_from((-180.0, -179.995, 179.995, 180.0)) | st.floats(-180, 180))
    latitude = draw(st.floats(-70, 70))
    corners = draw(st.lists(st.floats(50, 3000), min_size=3, max_size=12))
    points = [
        (radius * math.cos(2 * math.pi * i / len(corners)), radius * math.sin(2 * math.pi * i / len(corners)))
        for i, radius in enumerate(corners)
    ]
    ring = tuple(LocalGrid(longitude, latitude).degrees([*points, points[0]]))
    return Outline(((ring,),), PLACE)


def test_the_published_box() -> None:
    """Box 0.10-0.11 E, 52.20-52.21 N: 760,693.1872 m2, 3,592.7021 m by geographiclib 2.1 and pyproj 3.7.2 alike."""
    known = box(0.10, 52.20, 0.11, 52.21)
    assert area_ha(known) == pytest.approx(76.06931872, rel=1e-7)
    assert perimeter_m(known) == pytest.approx(3592.7021, rel=1e-6)


@settings(max_examples=100, deadline=None)
@given(outline=stars())
def test_areas_against_two_libraries(outline: Outline) -> None:
    """Area and perimeter of any polygon agree with pyproj.Geod and geographiclib, in both hemispheres and at 180."""
    ring = outline.polygons[0][0]
    longitudes, latitudes = zip(*ring, strict=True)
    area, perimeter = pyproj.Geod(ellps="WGS84").polygon_area_perimeter(longitudes, latitudes)
    assert area_ha(outline) == pytest.approx(abs(area) / 10_000, rel=1e-5)
    assert area_ha(outline) == pytest.approx(geographiclib_area(ring) / 10_000, rel=1e-5)
    assert perimeter_m(outline) == pytest.approx(perimeter, rel=1e-6)


def test_a_hole_is_taken_out() -> None:
    """The area of a hole does not count; its edge does."""
    outer, hole = box(0.10, 52.20, 0.11, 52.21), box(0.103, 52.203, 0.104, 52.204)
    pierced = Outline(((outer.polygons[0][0], hole.polygons[0][0]),), PLACE)
    assert area_ha(pierced) == pytest.approx(area_ha(outer) - area_ha(hole), rel=1e-7)
    assert perimeter_m(pierced) == pytest.approx(perimeter_m(outer) + perimeter_m(hole), rel=1e-6)


@pytest.mark.parametrize(("west", "south"), [(0.10, 52.20), (145.0, -37.0), (179.995, -17.0)])
def test_overlap_and_share(west: float, south: float) -> None:
    """Two boxes that share half of themselves: the overlap is half the area, whichever way one asks."""
    one, other = box(west, south, west + 0.01, south + 0.01), box(west + 0.005, south, west + 0.015, south + 0.01)
    assert overlap_ha(one, other) == pytest.approx(area_ha(one) / 2, rel=1e-4)
    assert overlap_ha(one, other) == pytest.approx(overlap_ha(other, one), rel=1e-9)
    assert covered_share(one, other) == pytest.approx(0.5, abs=1e-4)
    assert covered_share(one, one) == pytest.approx(1.0)
    assert overlap_ha(one, box(west + 0.02, south, west + 0.03, south + 0.01)) == 0.0


def test_a_shape_without_area_is_covered_by_nothing() -> None:
    """No share of nothing is covered, and nothing is divided by 0."""
    line = Outline(((((0.1, 52.2), (0.2, 52.2), (0.1, 52.2), (0.1, 52.2)),),), PLACE)
    assert covered_share(line, box(0.0, 52.0, 0.3, 52.3)) == 0.0


@pytest.mark.parametrize(
    ("position", "expected"),
    [((0.105, 52.205), True), ((0.12, 52.205), False), ((0.10, 52.20), True), ((-179.9, 52.2), False)],
)
def test_inside(position: Position, expected: bool) -> None:
    """A position in the outline or on its corner is inside."""
    assert inside(position, box(0.10, 52.20, 0.11, 52.21)) is expected


def test_distances() -> None:
    """Distance to the bounding box: 0 inside, one minute of arc north is 1.85 km, and the date line is no barrier."""
    known = box(0.10, 52.20, 0.11, 52.21)
    assert distance_km(known, (0.105, 52.205)) == pytest.approx(0.0, abs=1e-9)
    assert distance_km(known, (0.105, 52.21 + 1 / 60)) == pytest.approx(1.8544, abs=1e-3)
    assert distance_km(box(179.98, -17.0, 179.99, -16.99), (-179.99, -17.0)) == pytest.approx(2.13, abs=0.01)
    assert extent_km(known) == pytest.approx(math.hypot(0.6837, 1.1127), abs=2e-3)
