"""Values of rows in both shapes, and the row of units."""

from __future__ import annotations

import pytest

from soilrota.results.laboratory_table import as_table
from soilrota.results.row_shapes import sample_rows, value_rows
from tests.results.laboratory_grids import column, forms, grid

(WIDE,) = forms(
    {
        "name": "wide",
        "sample": "Bag",
        "columns": [column("P", "phosphorus.olsen", unit_row=True), column("pH", "ph.water", "pH")],
    }
)
LIST = {
    "name": "long",
    "shape": "value-a-row",
    "sample": "Bag",
    "analysis": "Test",
    "value": "Found",
    "columns": [column("P|Olsen", "phosphorus.olsen", "mg/kg")],
}


@pytest.mark.parametrize("units", [["", "mg/kg", ""], ["unit", "mg/kg", "-"]])
def test_the_row_of_units_is_no_row_of_results(units: list[str]) -> None:
    """A row is one of units where a column that should have its unit there has one."""
    header, *below = as_table(grid(["Bag", "P", "pH"], units, ["B-1", "12", "6"])).rows
    values, row = sample_rows(as_table(grid(["Bag"])), WIDE, header, below)
    assert row is below[0]
    assert values.columns == {1, 2}


def test_a_row_of_results_is_never_taken_for_units() -> None:
    """Where the laboratory left the units out, no row is passed over and each value has its reason."""
    table = as_table(grid(["Bag", "P", "pH"], ["B-1", "12", "6"], ["B-2", "", "6"]))
    header, *below = table.rows
    values, row = sample_rows(table, WIDE, header, below)
    assert row is None
    assert [problem.code for problem in values.read(below[0])[1]] == ["no-unit"]
    found, problems = values.read(below[1])
    assert ([value.value for value in found], problems) == ([6], ())


@pytest.mark.parametrize("units", [["", "mg/kg"], ["", "", "mg/kg", "pH"]])
def test_units_that_have_shifted_are_none(units: list[str]) -> None:
    """A row of units that was cut short, or reaches beyond the headings, could stand under the wrong ones."""
    table = as_table(grid(["Bag", "P", "pH"], units, ["B-1", "12", "6"]))
    header, *below = table.rows
    values, row = sample_rows(table, WIDE, header, below)
    assert row is None
    assert [problem.code for problem in values.read(below[1])[1]] == ["no-unit"]


def test_names_with_their_method() -> None:
    """Blanks round the bar, capitals: no difference; a name that nobody declared is named with its nearest."""
    (long,) = forms({**LIST, "method": "By"})
    table = as_table(grid(["Bag", "Test", "By", "Found"], ["B-1", "p", "OLSEN", "12"], ["B-1", "P", "Olson", "12"]))
    header, *below = table.rows
    values = value_rows(table, long, header, below)
    assert [value.value for value in values.read(below[0])[0]] == [12]
    (problem,) = values.read(below[1])[1]
    assert problem.code == "unknown-name"
    assert "'P|Olsen'" in problem.mend


def test_rows_under_other_headings_are_a_fault_of_the_program() -> None:
    """Whoever reads rows has found their form first."""
    header, *below = as_table(grid(["Bag", "P"], ["B-1", "12"])).rows
    with pytest.raises(ValueError, match="find_form_for"):
        value_rows(as_table(grid(["Bag"])), *forms(LIST), header, below)
