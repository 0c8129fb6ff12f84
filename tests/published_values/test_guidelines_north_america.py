"""The sets of Iowa (2013), the Tri-State (1995) and Nebraska, against what was read of their publications.

- Iowa State University Extension, PM 1688, October 2013 (superseded in February 2023), as the farm press quoted it.
- Bulletin E-2567, Tri-State Fertilizer Recommendations, 1995.
- University of Nebraska, critical soil test levels, as the farm press quoted them.
"""

from __future__ import annotations

import pytest

from soilrota.guidelines.classes import class_of, on_line
from soilrota.guidelines.rates import iowa_rate
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.guideline import GuidelineRow, Status
from tests.published_values.figures import row_of

SETS = ("iowa-2013", "nebraska-sufficiency", "tri-state-1995")


def name_of(row: GuidelineRow, value: float) -> str:
    """Return the class of a value."""
    found = class_of(row, value)
    assert found is not None
    return found.name


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("very-low", 0, 50), ("low", 51, 85), ("optimum", 86, 120), ("high", 121, 155), ("very-high", 156, 900)],
)
def test_field_moist_potassium_of_iowa(name: str, low: int, high: int) -> None:
    """Both bounds of each class; nothing is spread at high and very high."""
    row = row_of("iowa-2013", "potassium-field-moist")
    assert name_of(row, low) == name_of(row, high) == name
    assert (row.critical, row.limit, row.status) == (86, 120, Status.VERIFIED)
    assert "supersedes" in row.note


def test_corn_on_low_potassium() -> None:
    """Field-moist K of 70 ppm is low, and corn gets 90 lb K2O/ac (the table's own cell; the case is ours)."""
    name = name_of(row_of("iowa-2013", "potassium-field-moist"), 70)
    found = iowa_rate("K2O", "corn", name)
    assert found is not None
    assert (name, found.rate) == ("low", 90)


def test_twenty_ppm_of_phosphorus_are_optimal() -> None:
    """AgProfessional quotes 20 ppm Bray-1 as optimal, as the classes from memory have it."""
    row = row_of("iowa-2013", "phosphorus-bray-1")
    assert name_of(row, 20) == "optimum"
    assert row.status is Status.UNVERIFIED


def test_dated_sets_are_the_default_of_nowhere() -> None:
    """The Iowa set of 2013 is superseded, so it must be chosen by name; the others are of their own states alone."""
    countries = {name: guideline_sets()[name].countries for name in SETS}
    assert countries == {
        "iowa-2013": (),
        "nebraska-sufficiency": ("US-NE",),
        "tri-state-1995": ("US-MI", "US-OH", "US-IN"),
    }
    assert "superseded" in guideline_sets()["iowa-2013"].name
    assert all("Edition of 2013" in row.note for row in guideline_sets()["iowa-2013"].rows)


@pytest.mark.parametrize(("crops", "critical"), [(("corn", "soybean"), 15), (("wheat", "alfalfa"), 25)])
def test_phosphorus_of_the_tri_state(crops: tuple[str, ...], critical: float) -> None:
    """Critical levels in ppm by Bray-1 (E-2567)."""
    row = next(row for row in guideline_sets()["tri-state-1995"].rows if row.crops == crops)
    assert (row.analyte, row.method, row.critical, row.status) == ("phosphorus", "bray-1", critical, Status.VERIFIED)
    assert name_of(row, critical) == "critical-or-above"
    assert name_of(row, critical - 0.01) == "below-critical"


def test_potassium_of_the_tri_state() -> None:
    """88 to 150 ppm by capacity (Michigan State University, 2013): the formula from memory gives them at 5 and 30."""
    row = row_of("tri-state-1995", "potassium")
    assert row.line is not None
    assert [on_line(row.line, capacity) for capacity in (5, 30)] == pytest.approx([88, 150], abs=0.5)
    assert (row.line.covariate, row.method, row.status) == ("exchange-capacity", "ammonium-acetate", Status.UNVERIFIED)


@pytest.mark.parametrize(
    ("group", "levels"), [("corn-sorghum", (15, 18, 10)), ("wheat-alfalfa", (25, 29, 17)), ("soybean", (12, 14, 8))]
)
def test_phosphorus_of_nebraska(group: str, levels: tuple[int, ...]) -> None:
    """Critical levels in ppm by Bray-1, Mehlich-3 and Olsen (University of Nebraska)."""
    for method, level in zip(("bray-1", "mehlich-3", "olsen"), levels, strict=True):
        row = row_of("nebraska-sufficiency", f"phosphorus-{group}-{method}")
        assert (row.method, row.critical, row.unit, row.status) == (method, level, "mg/kg", Status.VERIFIED)
    assert any("extract was not named" in words for words in guideline_sets()["nebraska-sufficiency"].left_out)


@pytest.mark.parametrize("set_id", SETS)
def test_six_inches(set_id: str) -> None:
    """Samples are of 0-15 cm (6 inches in Iowa); where the depth was not read, the row says so."""
    for row in guideline_sets()[set_id].rows:
        assert (row.top_cm, row.bottom_cm) == (0, 15)
        assert set_id == "iowa-2013" or "depth was not read" in row.note
