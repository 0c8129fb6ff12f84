"""The layout of a zone as a whole: promises held on random zones, measured on what was drawn."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pyproj
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

import soilrota.layout
from soilrota.geometry.measure import area_ha
from soilrota.geometry.projection import grid_for
from soilrota.layout import layout_of
from soilrota.model.ground import AvoidedPlace, Outline, Position
from soilrota.model.layout import LayoutRule, LayoutWish, Pattern, Rows, ZoneLayout
from soilrota.model.protocol import Layer
from tests.layout.shapes import (
    EXAMPLES,
    PLACE,
    as_points,
    closest_pair_m,
    crossing,
    drawn,
    metres,
    outline,
    solid,
    zones,
)
from tests.layout.wishing import FARM, FIELD, FIGURES, MIDDLE, laid, reason, rules, wish

GEOD = pyproj.Geod(ellps="WGS84")
MISFITS = {LayoutRule.LINE_TOO_SHORT, LayoutRule.WALK_TOO_SHORT, LayoutRule.TOO_NARROW, LayoutRule.TOO_FEW_FIT}


def geodesic_m(one: Position, other: Position) -> float:
    """Return the distance on the ellipsoid [m]."""
    return float(GEOD.inv(*one, *other)[2])


@st.composite
def wishes(draw: st.DrawFn) -> LayoutWish:
    """What may be wanted of a random zone."""
    zone, avoided, middle = draw(zones())
    cores = draw(st.lists(st.integers(1, 30), min_size=1, max_size=3))
    return LayoutWish(
        outline=zone,
        avoided=avoided,
        access=draw(st.none() | st.just(middle)),
        pattern=draw(st.sampled_from(list(Pattern))),
        layers=tuple(Layer(10.0 * i, 10.0 * (i + 1), number) for i, number in enumerate(cores)),
        spacing_m=draw(st.none() | metres(1, 80)),
        edge_m=draw(st.none() | metres(0, 30)),
        fixed_point=draw(st.none() | st.just(middle)),
        rows=draw(st.none() | st.integers(15, 100).map(Rows)),
        seed=draw(st.sampled_from(("a", "b"))),
    )


def holds_its_promises(layout: ZoneLayout, one: LayoutWish) -> None:
    """Assert that points lie where they may, as many and as far apart as they must."""
    grid = grid_for(one.outline)
    at = as_points(grid.metres([point.position for point in layout.points]))
    edge_m = FIGURES.edge.metres if one.edge_m is None else one.edge_m
    parts = [shapely.Polygon(grid.metres(p[0]), [grid.metres(hole) for hole in p[1:]]) for p in one.outline.polygons]
    whole = shapely.union_all([shapely.buffer(shapely.make_valid(part), 1e-3, join_style="mitre") for part in parts])
    assert shapely.covers(whole, at).all()
    assert (shapely.distance(shapely.boundary(whole), at) >= edge_m).all()
    for place in one.avoided:
        distance = FIGURES.classes[place.kind].metres if place.buffer_m is None else place.buffer_m
        assert (shapely.distance(solid(place, grid), at) >= distance).all()
    assert len(layout.points) == one.cores
    closest = closest_pair_m(grid.metres([point.position for point in layout.points]))
    assert layout.pattern is not None
    assert closest >= FIGURES.least_spacing_m[layout.pattern] - 5e-3
    assert layout.spacing_m == (pytest.approx(closest, abs=5e-3) if one.cores > 1 else 0.0)


@settings(max_examples=2 * EXAMPLES, deadline=None)
@given(one=wishes())
def test_points_or_a_located_refusal(one: LayoutWish) -> None:
    """Any zone, any pattern: the points hold every promise, or there are none and the reasons say why and where."""
    layout = layout_of(one, FIGURES)
    assert layout.wanted is one.pattern
    assert layout.reasons[0].rule is LayoutRule.TAKEN_OUT
    assert all(found.place == one.outline.place for found in layout.reasons)
    if layout.pattern is None:
        assert layout.points == layout.walk == ()
        assert LayoutRule.NOTHING_LEFT in rules(layout) or len(MISFITS.intersection(rules(layout))) >= 1
        return
    holds_its_promises(layout, one)
    assert (LayoutRule.OTHER_PATTERN in rules(layout)) == (layout.pattern is not one.pattern)
    assert [point.number for point in layout.points] == list(range(1, one.cores + 1))
    for layer in one.layers:
        assert sum((layer.top_cm, layer.bottom_cm) in point.layers for point in layout.points) == layer.cores
    in_row = sum(point.in_row for point in layout.points)
    assert 0 < in_row < one.cores if one.rows is not None and one.cores > 1 else in_row == 0


@settings(max_examples=EXAMPLES, deadline=None)
@given(one=wishes())
def test_the_same_wish_gives_the_same_points(one: LayoutWish) -> None:
    """Twice the same, value for value; places to avoid in another order change no promise."""
    assert layout_of(one, FIGURES) == layout_of(one, FIGURES)
    turned = layout_of(replace(one, avoided=one.avoided[::-1]), FIGURES)
    assert len(turned.points) in {0, one.cores}


@settings(max_examples=EXAMPLES, deadline=None)
@given(one=wishes())
def test_lengths_and_areas_against_the_ellipsoid(one: LayoutWish) -> None:
    """Walk, approach and area are what geodesics on the ellipsoid say, from the degrees that are handed on."""
    layout = layout_of(one, FIGURES)
    if layout.free is not None:
        assert area_ha(layout.free) == pytest.approx(layout.free_ha, rel=1e-4, abs=1e-5)
    if not layout.points:
        return
    walked = sum(geodesic_m(*step) for step in pairwise(layout.walk))
    assert layout.walk_m == pytest.approx(walked, rel=1e-5, abs=0.2)
    line = shapely.LineString(grid_for(one.outline).metres(layout.walk)) if len(layout.walk) > 1 else None
    at = as_points(grid_for(one.outline).metres([point.position for point in layout.points]))
    assert line is None or (shapely.distance(line, at) < 0.01).all()
    assert (layout.approach_m is None) == (one.access is None)
    if one.access is not None:
        assert layout.approach_m == pytest.approx(geodesic_m(one.access, layout.points[0].position), abs=0.01)


@settings(max_examples=EXAMPLES, deadline=None)
@given(ring=crossing(), pattern=st.sampled_from(list(Pattern)))
def test_a_zone_that_crosses_itself_never_raises(ring: shapely.Polygon, pattern: Pattern) -> None:
    """Points that keep their distance from every drawn line, or none."""
    zone = Outline(((tuple(FARM.degrees(list(ring.exterior.coords))),),), PLACE)
    layout = layout_of(replace(wish(pattern=pattern), outline=zone), FIGURES)
    grid = grid_for(zone)
    at = as_points(grid.metres([point.position for point in layout.points]))
    assert (shapely.distance(drawn(zone.polygons[0], grid), at) >= FIGURES.edge.metres).all()


def test_nothing_left() -> None:
    """A field of 15 m by 15 m has nothing left after 10 m at its edge: no points, and why."""
    layout = laid(shapely.box(0, 0, 15, 15))
    assert rules(layout) == [LayoutRule.TAKEN_OUT, LayoutRule.NOTHING_LEFT]
    facts = reason(layout, LayoutRule.NOTHING_LEFT).facts
    assert facts["edge_m"] == 10
    assert float(facts["area_ha"]) == pytest.approx(0.0225, rel=1e-4)
    assert (layout.points, layout.free, layout.free_ha, layout.pattern) == ((), None, 0.0, None)
    assert reason(layout, LayoutRule.TAKEN_OUT).facts["taken_share"] == 1.0


def test_a_zone_without_positions() -> None:
    """An outline without a single position has no points and no problem."""
    layout = layout_of(replace(wish(), outline=Outline((), PLACE)), FIGURES)
    assert rules(layout) == [LayoutRule.TAKEN_OUT, LayoutRule.NOTHING_LEFT]


def test_the_map_shows_what_was_taken_out() -> None:
    """A trough in the field takes a disc of 30 m out; an own edge distance is used instead of the house's."""
    trough = AvoidedPlace("home", "trough", "", "point", ((MIDDLE,),), None, PLACE)
    layout = laid(avoided=(trough,), edge_m=20.0)
    assert layout.kept_away is not None
    assert area_ha(layout.kept_away) == pytest.approx(np.pi * 0.09, rel=0.04)
    facts = reason(layout, LayoutRule.TAKEN_OUT).facts
    assert (facts["places"], facts["edge_m"]) == (1, 20.0)
    assert float(facts["taken_share"]) == pytest.approx(1 - layout.free_ha / 12, abs=1e-4)
    assert laid().kept_away is None


def test_layers_with_fewer_cores_and_rows() -> None:
    """25, 8 and 6 cores in rows 30 cm apart: three in the row, 22 between, one of them for each deeper layer."""
    layers = (Layer(0, 10, 25), Layer(10, 30, 8), Layer(30, 60, 6))
    layout = laid(layers=layers, rows=Rows(30.0))
    assert reason(layout, LayoutRule.BANDED).facts == {"in_row": 3, "between": 22, "row_spacing_cm": 30.0}
    deepest = [point for point in layout.points if (30, 60) in point.layers]
    assert len(deepest) == 6
    assert sum(point.in_row for point in deepest) == 1
    assert all(point.layers[0] == (0, 10) for point in layout.points)


def test_at_the_date_line_as_elsewhere() -> None:
    """The same field gives the same walk at 145 and, cut in two, at 180 degrees; no longitude leaves the map."""
    here = laid()
    there = layout_of(replace(wish(), outline=outline(FIELD, (180.0, -37.0))), FIGURES)
    assert there.walk_m == pytest.approx(here.walk_m, rel=1e-3)
    assert {np.sign(point.position[0]) for point in there.points} == {-1, 1}
    assert all(-180 <= point.position[0] <= 180 for point in there.points)


def test_a_way_in_at_the_other_end_of_the_earth() -> None:
    """A slip on the map may put the way in anywhere: the points are there, and a length that is none is not given."""
    middle = grid_for(wish().outline)
    layout = laid(access=(middle.longitude - 180, -middle.latitude))
    assert len(layout.points) == 25
    assert layout.approach_m is None


def test_the_package_alone_loads_no_geometry() -> None:
    """Shapely and pyproj take a while to load: a book without a map never does."""
    code = "import sys, soilrota.layout; print(sorted({'shapely', 'pyproj'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
    with pytest.raises(AttributeError, match="no attribute 'layouts_of'"):
        _ = soilrota.layout.layouts_of
