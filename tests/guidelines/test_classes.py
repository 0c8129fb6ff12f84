"""Every value has exactly one class, whatever float it is."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from math import inf, nextafter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.guidelines.classes import class_of, holds, on_line, rounded, speaks_of_layer
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.guideline import GuidelineRow, PowerLine, Range
from tests.guidelines.a_set import guideline, row

CLASSED = [row for one in guideline_sets().values() for row in one.rows if row.classes]
VALUES = st.floats(min_value=0, max_value=1e9) | st.floats(allow_nan=False)


def _fitting(one: GuidelineRow, value: float) -> list[str]:
    """Return the names of all classes that hold a value: the rule read slowly, in decimals alone."""
    exact = Decimal(repr(value))
    if one.decimals is not None and exact.is_finite():
        step = Decimal(1).scaleb(-one.decimals)
        exact = ((exact / step).to_integral_value(ROUND_HALF_UP)) * step
    return [
        found.name
        for found in one.classes
        if (found.low is None or Decimal(repr(found.low)) <= exact)
        and (found.high is None or exact < Decimal(repr(found.high)))
    ]


def _name(one: GuidelineRow, value: float) -> str:
    """Return the name of the class of a value."""
    found = class_of(one, value)
    assert found is not None
    return found.name


@given(st.sampled_from(CLASSED), VALUES)
def test_every_float_has_one_class(one: GuidelineRow, value: float) -> None:
    """Exactly one class holds it, and that is the one that is found."""
    assert _fitting(one, value) == [_name(one, value)]


@pytest.mark.parametrize("one", CLASSED, ids=lambda one: one.id)
def test_every_edge_has_one_class(one: GuidelineRow) -> None:
    """The edges, their neighbours among floats, and the halves that round to them have one class each."""
    half = 0.5 * 10.0 ** -(one.decimals or 0)
    for lower, upper in zip(one.classes, one.classes[1:], strict=False):
        edge = upper.low
        assert edge is not None
        near = (
            edge,
            nextafter(edge, -inf),
            nextafter(edge, inf),
            edge - half,
            edge + half,
            nextafter(edge - half, -inf),
        )
        for value in (*near, 0.0, -0.0, inf, -inf):
            assert _fitting(one, value) == [_name(one, value)], value
        assert _name(one, edge) == upper.name
        if one.decimals is None:
            assert _name(one, nextafter(edge, -inf)) == lower.name
        else:
            assert _name(one, float(Decimal(repr(edge)) - Decimal(repr(half)))) == upper.name


@pytest.mark.parametrize(
    ("value", "decimals", "expected"),
    [
        (15.5, 0, 16.0),
        (15.499999999999998, 0, 15.0),
        (2.5, 0, 3.0),
        (0.285, 2, 0.29),
        (1.005, 2, 1.01),
        (15.5, None, 15.5),
        (1e300, 0, 1e300),
        (5e-324, 3, 0.0),
    ],
)
def test_halves_are_rounded_up_as_written(value: float, decimals: int | None, expected: float) -> None:
    """Neither to the even neighbour nor by the binary form of the number."""
    assert rounded(value, decimals) == expected


def test_a_row_without_classes_has_none() -> None:
    """A line alone gives no class."""
    assert class_of(guideline(row(classes=None)).rows[0], 12) is None


def test_ranges_hold_their_lower_edge_alone() -> None:
    """A covariate is rounded first where its source prints whole numbers."""
    printed = Range("phosphorus-buffering-index.colwell-adjusted", 36, 71, 0)
    assert [holds(printed, value) for value in (35.4, 35.5, 70.4, 70.5)] == [False, True, True, False]
    assert [holds(Range("clay-percent", 10, 20), value) for value in (9.9, 10, 19.9, 20)] == [False, True, True, False]
    assert holds(Range("clay-percent", None, 20), 0)
    assert holds(Range("clay-percent", 20, None), 100)


def test_layers() -> None:
    """A row speaks of its own layer alone, or of each that lies within it."""
    exact = guideline(row()).rows[0]
    wide = guideline(row(any_layer_within=True, bottom_cm=30)).rows[0]
    layers = [(0, 10), (0, 15), (5, 10), (20, 30), (20, 40)]
    assert [speaks_of_layer(exact, *layer) for layer in layers] == [True, False, False, False, False]
    assert [speaks_of_layer(wide, *layer) for layer in layers] == [True, True, True, True, False]


def test_a_line_follows_its_covariate() -> None:
    """Constant, factor and exponent of the one covariate."""
    assert on_line(PowerLine("x", 19.6, 1.1, 0.55), 0) == 19.6
    assert on_line(PowerLine("x", 1, 2, 3), 2) == 17
