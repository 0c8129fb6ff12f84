"""Points of an earlier sampling: kept to the centimetre, moved as little as they must, or all new and said so."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.geometry.projection import beside
from soilrota.layout import layout_of
from soilrota.layout.earlier import again
from soilrota.model.ground import AvoidedPlace, Outline, Position
from soilrota.model.layout import EarlierPoint, LayoutRule, LayoutWish, Pattern, Rows, ZoneLayout
from soilrota.model.protocol import Layer
from tests.layout.shapes import EXAMPLES, PLACE, zones
from tests.layout.wishing import FARM, FIELD, FIGURES, as_earlier, fitting, laid, reason, rules, wish


def apart_m(one: ZoneLayout, other: ZoneLayout) -> list[float]:
    """Return how far the points of two layouts lie from each other, number by number [m]."""
    both = (FARM.metres([point.position for point in layout.points]) for layout in (one, other))
    return [((x - u) ** 2 + (y - v) ** 2) ** 0.5 for (x, y), (u, v) in zip(*both, strict=True)]


def trough_at(x: float, y: float, buffer_m: float) -> AvoidedPlace:
    """Return a trough on the test farm."""
    return AvoidedPlace("home", "trough", "", "point", (tuple(FARM.degrees([(x, y)])),), buffer_m, PLACE)


@settings(max_examples=EXAMPLES, deadline=None)
@given(case=zones(), pattern=st.sampled_from(list(Pattern)), cores=st.integers(1, 30))
def test_the_year_after_all_points_are_the_same(
    case: tuple[Outline, tuple[AvoidedPlace, ...], Position], pattern: Pattern, cores: int
) -> None:
    """On unchanged ground every point is kept, in its order, though the file holds seven decimals only."""
    first_wish = LayoutWish(case[0], case[1], case[2], pattern, (Layer(0, 10, cores),), seed="z")
    first = layout_of(first_wish, FIGURES)
    if not first.points:
        return
    earlier = as_earlier(first)
    second = layout_of(replace(first_wish, earlier=earlier[::-1]), FIGURES)
    assert reason(second, LayoutRule.KEPT).facts == {"points": cores, "added": 0, "left_out": 0}
    assert (second.pattern, second.moved) == (first.pattern, ())
    for before, after in zip(earlier, second.points, strict=True):
        assert after.number == before.number
        same = beside(after.position[0], before.position[0]), after.position[1]  # -180 is 180
        assert same == pytest.approx(before.position, abs=2e-8)


@pytest.mark.parametrize("pattern", list(Pattern))
def test_a_new_trough_moves_only_what_lies_by_it(pattern: Pattern) -> None:
    """A trough on the third point moves points near it, by as little as its distance asks; the rest stay."""
    first = laid(pattern=pattern)
    x, y = FARM.metres([first.points[2].position])[0]
    buffer_m = 0.5 if pattern is Pattern.CLUSTER else 8.0
    second = laid(pattern=pattern, avoided=(trough_at(x, y, buffer_m),), earlier=as_earlier(first))
    facts = reason(second, LayoutRule.MOVED).facts
    away = apart_m(first, second)
    assert {moved.number for moved in second.moved} == {i for i, metres in enumerate(away, 1) if metres > 0.05}
    assert facts["moved"] == len(second.moved) >= 1
    assert float(facts["metres"]) == pytest.approx(max(away), abs=0.05)
    assert max(away) >= buffer_m
    assert away.count(pytest.approx(0.0, abs=0.02)) >= 15


def test_nothing_within_reach_makes_all_new() -> None:
    """A stock camp over half the field leaves no place within reach for the points in its middle."""
    first = laid()
    second = laid(avoided=(trough_at(-150, 0, 140.0),), earlier=as_earlier(first))
    assert reason(second, LayoutRule.ALL_NEW).facts == {"points": 25}
    assert len(second.points) == 25
    assert second.moved == ()


@pytest.mark.parametrize("pattern", list(Pattern))
def test_more_cores_than_before(pattern: Pattern) -> None:
    """The 15 old points keep their places and numbers; ten are added that keep the least spacing."""
    first = laid(pattern=pattern, cores=15)
    second = laid(pattern=pattern, cores=25, earlier=as_earlier(first))
    if LayoutRule.ALL_NEW in rules(second):
        assert pattern is Pattern.CLUSTER  # a denser lattice comes too near to the points of the wider one
        return
    assert reason(second, LayoutRule.KEPT).facts == {"points": 15, "added": 10, "left_out": 0}
    assert apart_m(first, replace(second, points=second.points[:15])) == pytest.approx([0.0] * 15, abs=0.02)
    assert second.spacing_m >= FIGURES.least_spacing_m[pattern] - 0.02
    assert [point.number for point in second.points] == list(range(1, 26))


def test_fewer_cores_than_before() -> None:
    """10 of 20 old points, spread over the old walk, exactly where they were."""
    first = laid(cores=20)
    second = laid(cores=10, earlier=as_earlier(first))
    assert reason(second, LayoutRule.KEPT).facts == {"points": 10, "added": 0, "left_out": 10}
    old = replace(first, points=first.points[1::2])
    assert apart_m(old, second) == pytest.approx([0.0] * 10, abs=0.02)


def test_points_in_the_row_stay_in_the_row() -> None:
    """Points that were taken in the row are taken in the row again; with another share of them, all are chosen anew."""
    first = laid(rows=Rows(30))
    flags = [number in {1, 2, 3} for number in range(1, 26)]
    earlier = [replace(point, in_row=flag) for point, flag in zip(as_earlier(first), flags, strict=True)]
    same = laid(rows=Rows(30), earlier=tuple(earlier))
    assert [point.in_row for point in same.points] == flags
    none = laid(rows=Rows(30), earlier=tuple(replace(point, in_row=False) for point in earlier))
    assert [point.in_row for point in none.points] == [point.in_row for point in first.points]


def test_old_points_where_no_pattern_is_laid() -> None:
    """Old points alone are enough where none must be added; where some must, and nothing can be laid, all are new."""
    before = tuple(EarlierPoint(number, FARM.degrees([(20.0 * number, 0.0)])[0]) for number in (1, 2))
    found = again(fitting(wish(FIELD, cores=2, earlier=before)), None)
    assert found is not None
    assert found.moved_m == (0.0, 0.0)
    assert again(fitting(wish(FIELD, cores=3, earlier=before)), None) is None
