"""From cells to values in the unit of the glossary."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.intake import ReportedValue
from soilrota.problems import Place, Problem
from soilrota.quantities import NumberForm, Refusal, Unit, Value, find_form, read_value
from soilrota.results.row_values import (
    Cell,
    Numbers,
    StatedUnit,
    is_not_measured,
    kept_text,
    numbers_of,
    read_measured,
    stated_unit,
)
from tests.results.laboratory_grids import column, forms

PLACE = Place("inbox/file.csv", 3, 4)
(FORM,) = forms({"name": "one", "sample": "Bag", "columns": [column("P", "phosphorus.olsen", "mg/kg", low=2)]})
(OLSEN,) = FORM.columns
POINT = Numbers(NumberForm("."), None)


def read(text: str, numbers: Numbers = POINT, *, is_number: bool = False) -> ReportedValue | Problem | None:
    """Return what a cell of Olsen P says."""
    unit = StatedUnit(Unit("mg/kg"), "mg/kg")
    return read_measured(Cell(text, is_number, PLACE), OLSEN, unit, numbers)


def test_a_value() -> None:
    """The number, its unit, and the cell as it was reported."""
    found = read("< 12.5")
    assert found == ReportedValue("phosphorus", "olsen", "<", 12.5, "mg/kg", "< 12.5 mg/kg", PLACE)


@pytest.mark.parametrize(
    ("text", "code"), [("x", "cell-refused"), ("over range", "no-limit"), ("5 g/kg", "unit-differs")]
)
def test_a_refusal_gets_its_place(text: str, code: str) -> None:
    """What cannot be read is a problem at the cell, under the name of its column."""
    found = read(text)
    assert isinstance(found, Problem)
    assert (found.code, found.place) == (code, PLACE)
    assert "'P'" in found.found


def test_a_sheet_s_number_has_a_point_whatever_is_declared() -> None:
    """A stored number is never read by the laboratory's signs."""
    comma = Numbers(NumberForm(",", "."), None)
    stored, written = read("1.234", comma, is_number=True), read("1.234", comma)
    assert isinstance(stored, ReportedValue)
    assert isinstance(written, ReportedValue)
    assert (stored.value, written.value) == (1.234, 1234)


def test_units_of_the_file_and_of_the_form() -> None:
    """A declared unit holds where the file has none; where both stand they must be one; forms included."""
    said = stated_unit(OLSEN, "–", PLACE)
    assert said == StatedUnit(Unit("mg/kg"), "mg/kg")
    assert stated_unit(OLSEN, "ppm", PLACE) == StatedUnit(Unit("ppm"), "ppm")
    for text, code in (("g/kg", "unit-differs"), ("mg/kg P2O5", "unit-differs"), ("furlongs", "unit-refused")):
        found = stated_unit(OLSEN, text, PLACE)
        assert isinstance(found, Problem)
        assert found.code == code
    free = replace(OLSEN, unit="")
    missing, by_volume = stated_unit(free, "", PLACE), stated_unit(free, "mg/l", PLACE)
    assert isinstance(missing, Problem)
    assert isinstance(by_volume, Problem)
    assert (missing.code, by_volume.code) == ("no-unit", "unit-refused")
    dense = replace(free, laboratory_density=1.1)
    assert stated_unit(dense, "mg/l", PLACE) == StatedUnit(Unit("mg/l"), "mg/l")


def test_nothing_measured() -> None:
    """Blanks, dashes and words for it; a word for a limit is something else."""
    assert all(is_not_measured(text) for text in ("", "–", "n/a", "not tested"))
    assert not any(is_not_measured(text) for text in ("0", "<LOD", "n.d.", "x"))


@given(st.lists(st.from_regex(r"[<]?[0-9]{1,4}([.,' ][0-9]{1,3}){0,2}", fullmatch=True), max_size=8))
def test_one_cell_of_each_shape_tells_as_much_as_all(cells: list[str]) -> None:
    """The form of a column is what all of its cells together tell; refused where they do not."""
    (free,) = forms({"name": "one", "sample": "Bag", "columns": [column("P", "phosphorus.olsen", "mg/kg")]})
    slow = find_form(cells)
    assert numbers_of(free, cells).form == (None if isinstance(slow, Refusal) else slow)


@given(st.floats(0.001, 1e9), st.sampled_from([None, NumberForm(","), NumberForm(",", "."), NumberForm(".", ",")]))
def test_a_stored_number_is_kept_whatever_reads_it_again(number: float, declared: NumberForm | None) -> None:
    """Written into a CSV file it reads as itself by the declared form, and by every form that reads it at all."""
    form = replace(FORM, numbers=declared)
    kept = kept_text(repr(number), form, is_number=True)
    ways = [declared] if declared else [NumberForm("."), NumberForm(",", "."), NumberForm(",", " "), NumberForm(",")]
    found = [value for way in ways if isinstance(value := read_value(kept, way), Value)]
    assert found
    assert {value.number for value in found} == {number}
    assert kept_text("1.234", form, is_number=False) == "1.234"
