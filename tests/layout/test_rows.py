"""Cores in banded rows: the published ratios, interpolated between them, and one of each sort at least."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.guidelines.layout import layout_figures
from soilrota.layout.rows import cores_between, cores_in_row, points_in_row
from soilrota.layout.spreading import points_of_layers

BANDS = layout_figures().bands


@pytest.mark.parametrize(
    ("spacing", "expected"),
    [(10, 8), (30, 8), (45.5, 12), (61, 16), (68.5, 18), (76, 20), (150, 20)],
)
def test_published_ratios_and_between(spacing: float, expected: float) -> None:
    """1:8 at 30 cm, 1:16 at 61 cm, 1:20 at 76 cm (GRDC Communities); half way, half way; outside, the nearest."""
    assert cores_between(spacing, BANDS) == pytest.approx(expected)


@pytest.mark.parametrize(("cores", "expected"), [(0, 0), (1, 0), (2, 1), (3, 1), (25, 3), (40, 4)])
def test_cores_in_rows_30_cm_apart(cores: int, expected: int) -> None:
    """25 cores: 25 / 9 is 3 in the row and 22 between; with two or more, one of each at least."""
    assert cores_in_row(cores, 30, BANDS) == expected


@given(
    cores=st.lists(st.integers(1, 60), min_size=1, max_size=5),
    spacing=st.floats(5, 200, allow_nan=False),
)
def test_every_layer_has_some_of_each(cores: list[int], spacing: float) -> None:
    """In every layer with two cores or more some lie in the row and some between; the smallest has its exact share."""
    taken = points_of_layers(cores)
    in_row = points_in_row(taken, spacing, BANDS)
    for points in taken:
        if len(points) > 1:
            assert 0 < len(in_row.intersection(points)) < len(points)
    smallest = min(taken, key=len)
    assert len(in_row.intersection(smallest)) == cores_in_row(len(smallest), spacing, BANDS)


def test_one_layer_is_spread_over_the_walk() -> None:
    """Three of 25 in the row: one in each third of the walk."""
    assert points_in_row([list(range(25))], 30, BANDS) == {4, 12, 20}


def test_each_layer_has_its_share() -> None:
    """25 and 8 cores at 30 cm: one of the 8 and three of the 25 lie in the row."""
    taken = points_of_layers([25, 8])
    in_row = points_in_row(taken, 30, BANDS)
    assert (len(in_row), len(in_row.intersection(taken[1]))) == (3, 1)
