"""What is left of a zone: every distance is kept, measured from what was drawn and not from what was computed."""

from __future__ import annotations

import math

import numpy as np
import pyproj
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.geometry.projection import LocalGrid
from soilrota.guidelines.layout import layout_figures
from soilrota.layout.ground import free_ground
from soilrota.model.ground import AvoidedPlace, Outline, Position
from tests.layout.shapes import EXAMPLES, PLACE, avoided_on, crossing, drawn, grounds, middles, outline, solid, zones

CLASSES = layout_figures().classes
FARM = LocalGrid(145.0, -37.0)


def box(west: float, south: float, east: float, north: float) -> shapely.Polygon:
    """Return a box [m]."""
    return shapely.box(west, south, east, north)


def place(
    shape: str, *rings: list[tuple[float, float]], kind: str = "trough", buffer_m: float | None = None
) -> AvoidedPlace:
    """Return a place to avoid on the test farm."""
    return AvoidedPlace("home", kind, "", shape, tuple(tuple(FARM.degrees(ring)) for ring in rings), buffer_m, PLACE)


def farm_zone(ground: shapely.Geometry) -> Outline:
    """Return a zone on the test farm."""
    return outline(ground, (FARM.longitude, FARM.latitude))


@settings(max_examples=EXAMPLES, deadline=None)
@given(case=zones(), edge=st.sampled_from((0.0, 4.0, 10.0, 25.0)))
def test_every_distance_is_kept(case: tuple[Outline, tuple[AvoidedPlace, ...], Position], edge: float) -> None:
    """No corner of what is left is nearer than the distance to the drawn edge or place; none lies outside the zone."""
    zone, avoided, _ = case
    ground = free_ground(zone, avoided, edge, CLASSES)
    if ground.free.is_empty:
        return
    grid = ground.grid
    corners = shapely.points(shapely.get_coordinates(ground.free))
    whole = shapely.make_valid(
        shapely.union_all(
            [shapely.Polygon(grid.metres(p[0]), [grid.metres(h) for h in p[1:]]).buffer(0) for p in zone.polygons]
        ).buffer(1e-3, join_style="mitre")
    )
    assert shapely.covers(whole, shapely.buffer(ground.free, -2e-3, join_style="mitre"))
    assert float(shapely.distance(shapely.boundary(whole), corners).min()) >= edge
    for one in avoided:
        distance = CLASSES[one.kind].metres if one.buffer_m is None else one.buffer_m
        assert float(shapely.distance(solid(one, grid), ground.free)) >= distance


@settings(max_examples=EXAMPLES, deadline=None)
@given(case=zones())
def test_little_more_than_the_distances_is_taken(case: tuple[Outline, tuple[AvoidedPlace, ...], Position]) -> None:
    """With distances 2.5 per cent and 10 cm larger, drawn by fine circles, nothing is left that is not left here."""
    zone, avoided, _ = case
    ground = free_ground(zone, avoided, 10.0, CLASSES)
    least = shapely.buffer(ground.zone, -10.35, quad_segs=64)
    for one in avoided:
        distance = CLASSES[one.kind].metres if one.buffer_m is None else one.buffer_m
        grown = shapely.buffer(solid(one, ground.grid), distance * 1.025 + 0.1, quad_segs=64)
        least = shapely.difference(least, grown)
    assert shapely.difference(least, ground.free).area < 0.5


@settings(max_examples=EXAMPLES, deadline=None)
@given(ring=crossing(), middle=middles(), edge=st.sampled_from((0.0, 10.0)), data=st.data())
def test_rings_that_cross_themselves_never_raise(
    ring: shapely.Polygon, middle: Position, edge: float, data: st.DataObject
) -> None:
    """A zone or a place that crosses itself gives valid ground that keeps its distance from every drawn line."""
    grid = LocalGrid(*middle)
    crossed = Outline(((tuple(grid.degrees(ring.exterior.coords)),),), PLACE)
    other = data.draw(avoided_on(middle))
    odd = AvoidedPlace("home", "other", "", "area", (crossed.polygons[0][0],), 5.0, PLACE)
    whole = outline(data.draw(grounds()), middle)
    for zone, avoided in ((crossed, (other,)), (whole, (odd, other))):
        ground = free_ground(zone, avoided, edge, CLASSES)
        assert ground.free.is_valid
    if not ground.free.is_empty:
        assert float(shapely.distance(drawn(odd.positions, ground.grid), ground.free)) >= 5.0


@pytest.mark.parametrize(
    "polygons",
    [
        (),
        ((),),
        ((((145.0, -37.0),),),),
        ((((145.0, -37.0), (145.0, -37.0)),),),
        ((((145.0, -37.0),) * 4,),),
        ((((145.0, -37.0), (145.001, -37.0), (145.0, -37.0), (145.0, -37.0)),),),
    ],
)
def test_a_zone_without_area_leaves_nothing(polygons: tuple[tuple[tuple[Position, ...], ...], ...]) -> None:
    """No position, one position, the same position again, a line there and back: nothing is left, nothing raises."""
    ground = free_ground(Outline(polygons, PLACE), (place("point", [(0, 0)]),), 10.0, CLASSES)
    assert ground.free.is_empty
    assert ground.pieces == ()


def test_a_ring_within_a_ring_is_a_hole() -> None:
    """A headland drawn as a frame round the zone leaves the inside; the same ring twice is no hole; islands count."""
    zone = farm_zone(box(0, 0, 400, 300))
    outer, inner = (list(box(*corners).exterior.coords) for corners in ((0, 0, 400, 300), (30, 30, 370, 270)))
    island = list(box(100, 100, 200, 200).exterior.coords)
    frame = free_ground(zone, (place("area", outer, inner, kind="headland"),), 0.0, CLASSES)
    assert frame.free.area == pytest.approx(340 * 240, rel=5e-3)
    twice = free_ground(zone, (place("area", outer, outer, kind="headland"),), 0.0, CLASSES)
    assert twice.free.is_empty
    with_island = free_ground(zone, (place("area", outer, inner, island, kind="headland"),), 0.0, CLASSES)
    assert with_island.free.area == pytest.approx(340 * 240 - 100 * 100, rel=5e-3)
    overlapping = free_ground(
        zone, (place("area", island, list(box(150, 100, 250, 200).exterior.coords), kind="headland"),), 0.0, CLASSES
    )
    assert overlapping.kept_away.area == pytest.approx(150 * 100, rel=5e-3)


def test_own_distance_class_distance_unknown_class() -> None:
    """A place's own distance goes before that of its class; a class that is not in the table is `other`."""
    zone = farm_zone(box(-500, -500, 500, 500))
    for one, expected in (
        (place("point", [(0.0, 0.0)], buffer_m=12.0), 12.0),
        (place("point", [(0.0, 0.0)]), CLASSES["trough"].metres),
        (place("point", [(0.0, 0.0)], kind="never-heard-of"), CLASSES["other"].metres),
    ):
        ground = free_ground(zone, (one,), 10.0, CLASSES)
        assert math.sqrt(ground.kept_away.area / math.pi) == pytest.approx(expected, rel=0.02)
        assert ground.places == 1


def test_a_place_out_of_reach_takes_nothing() -> None:
    """A trough 200 m off the zone is not among the places that take something out."""
    ground = free_ground(farm_zone(box(0, 0, 100, 100)), (place("point", [(300.0, 50.0)]),), 10.0, CLASSES)
    assert (ground.places, ground.kept_away.is_empty) == (0, True)


def test_a_seam_at_the_date_line_is_no_edge() -> None:
    """A zone that RFC 7946 cuts in two at 180 keeps no distance from the cut."""
    cut = outline(box(-200, -100, 200, 100), (180.0, -17.0))
    assert len(cut.polygons) == 2
    ground = free_ground(cut, (), 10.0, CLASSES)
    assert len(ground.pieces) == 1
    assert ground.free.area == pytest.approx(380 * 180, rel=5e-3)


def test_distances_against_the_ellipsoid() -> None:
    """The corners of what is left lie as far from a trough as geodesics on the ellipsoid say."""
    trough = place("point", [(50.0, 40.0)])
    ground = free_ground(farm_zone(box(-300, -300, 300, 300)), (trough,), 10.0, CLASSES)
    hole = ground.pieces[0].interiors[0]
    longitudes, latitudes = np.transpose(ground.grid.degrees(list(hole.coords)))
    at = np.broadcast_to(trough.positions[0][0], (len(longitudes), 2)).T
    away = pyproj.Geod(ellps="WGS84").inv(*at, longitudes, latitudes)[2]
    assert 30.0 <= min(away) <= max(away) < 30.7


def test_a_slip_to_the_other_end_of_the_earth() -> None:
    """A place at the zone's antipode, which has no place on the grid, takes nothing and raises nothing."""
    zone = farm_zone(box(0, 0, 300, 300))
    middle = free_ground(zone, (), 10.0, CLASSES).grid
    far = (middle.longitude - 180, -middle.latitude)
    for shape, positions in (("point", (far,)), ("line", (far, far)), ("area", (far, far, far, far))):
        slip = AvoidedPlace("home", "trough", "", shape, (positions,), None, PLACE)
        ground = free_ground(zone, (slip,), 10.0, CLASSES)
        assert (ground.places, ground.kept_away.is_empty) == (0, True)


def test_a_notch_between_two_strips_stays_an_edge() -> None:
    """Two strips that meet at a sharp angle on the date line: nothing in the notch between them is free."""
    strips = shapely.union(
        shapely.affinity.rotate(box(0, 0, 40, 1), 45, origin=(0, 0)),
        shapely.affinity.rotate(box(0, -1, 40, 0), 40, origin=(0, 0)),
    )
    ground = free_ground(outline(strips, (-180.0, 0.0)), (), 0.0, CLASSES)
    notch = LocalGrid(-180.0, 0.0).degrees([(0.5 * math.cos(math.radians(42.5)), 0.5 * math.sin(math.radians(42.5)))])
    assert float(shapely.distance(ground.free, shapely.Point(ground.grid.metres(notch)[0]))) > 0.03
