"""Which laboratory wrote a file."""

from __future__ import annotations

from typing import Any

from soilrota.model.laboratory_files import LaboratoryForm
from soilrota.problems import Problem
from soilrota.results.form_finding import find_form_for
from tests.results.laboratory_grids import column, forms, grid

PH = column("pH", "ph.water", "pH")
P = column("P", "phosphorus.olsen", "mg/kg")


def form(name: str, *columns: dict[str, Any], laboratory: str = "north-bench", **more: Any) -> LaboratoryForm:
    """Return one form."""
    return forms({"name": name, "sample": "Bag", "columns": list(columns), **more}, laboratory=laboratory)[0]


def problem(*args: Any, **more: Any) -> Problem:
    """Return why no form was found: rows first, then forms."""
    rows, known = args
    found = find_form_for(grid(*rows, **more), known)
    assert isinstance(found, Problem)
    assert found.mend
    return found


def test_headings_below_titles() -> None:
    """Capitals and blanks make no difference, titles above none; a row with one of the headings is not the row."""
    one = form("one", PH, P)
    assert find_form_for(grid(["Results"], ["pH of soil"], ["P"], [" BAG", "ph ", "P"]), [one]) == (one, 3)


def test_the_form_that_explains_most() -> None:
    """More headings explained, ignored ones too; then fewer of its own missing."""
    one, both = form("one", PH), form("both", PH, P)
    assert find_form_for(grid(["Bag", "pH", "P"]), [one, both]) == (both, 0)
    assert find_form_for(grid(["Bag", "pH"]), [one, both]) == (one, 0)
    passing = form("passing", PH, ignored=["Grower"])
    assert find_form_for(grid(["Bag", "pH", "Grower"]), [one, both, passing]) == (passing, 0)


def test_a_label_above_tells_two_forms_apart() -> None:
    """What stands above the table counts like a heading."""
    plain = form("plain", PH)
    labelled = form("labelled", PH, report={"label": "Report no."}, laboratory="tarn-bench")
    assert find_form_for(grid(["REPORT NO.: 7"], ["Bag", "pH"]), [plain, labelled]) == (labelled, 1)
    assert find_form_for(grid(["Bag", "pH"]), [plain, labelled]) == (plain, 0)


def test_two_that_fit_alike_are_named() -> None:
    """A file that could be of either laboratory is of none."""
    found = problem([["Bag", "pH"]], [form("one", PH), form("two", PH, laboratory="tarn-bench")])
    assert found.code == "form-unclear"
    assert "north-bench (one) and tarn-bench (two)" in found.found


def test_names_of_analyses_tell_lists_apart() -> None:
    """Lists with the same few headings are told apart by the names in them."""
    shape = {"shape": "value-a-row", "analysis": "Test", "value": "Found"}
    ours = form("list", column("pH | water", "ph.water", "pH"), **shape)
    theirs = form("list", column("Acidity", "ph.water", "pH"), **shape, laboratory="tarn-bench")
    rows = (["Bag", "Test", "Found"], ["B-1", "Acidity", "5"])
    assert find_form_for(grid(*rows), [ours, theirs]) == (theirs, 0)


def test_none_fits() -> None:
    """The nearest form is named with what the file lacks; without any heading in common no laboratory is."""
    near = problem([["Sample", "pH", "P"]], [form("one", PH, P), form("far", column("K", "potassium.colwell", "ppm"))])
    assert near.code == "form-not-found"
    assert "north-bench (one), without 'Bag'" in near.found
    assert "without any column of an analysis" in problem([["Bag", "Zeal"]], [form("one", PH)]).found
    assert "learn-laboratory" in problem([["a", "b"]], [form("one", PH)]).mend
    assert problem([], [form("one", PH)]).place.file == "inbox/file.csv"
    assert problem([["Bag", "pH"]], []).code == "form-not-found"


def test_kind_and_sheet() -> None:
    """A form of a workbook is not that of a CSV file, nor that of another sheet."""
    book = form("book", PH, kind="xlsx", sheet="Soil")
    assert "a file of kind xlsx" in problem([["Bag", "pH"]], [book]).found
    assert "the sheet 'Soil'" in problem([["Bag", "pH"]], [book], kind="xlsx", sheet="Leaf").found
    assert find_form_for(grid(["Bag", "pH"], kind="xlsx", sheet="Soil"), [book]) == (book, 0)


def test_a_heading_twice() -> None:
    """A heading that is read must stand once; one that is not read may be repeated."""
    found = problem([["Bag", "pH", "ph"]], [form("one", PH)])
    assert (found.code, found.place.column) == ("heading-twice", 8)
    assert not isinstance(find_form_for(grid(["Bag", "pH", "Note", "Note"]), [form("one", PH)]), Problem)


def test_headings_far_down_are_not_looked_for() -> None:
    """Sixty rows are read for headings, no more."""
    one = form("one", PH)
    assert find_form_for(grid(*[["-"]] * 59, ["Bag", "pH"]), [one]) == (one, 59)
    assert problem([*[["-"]] * 60, ["Bag", "pH"]], [one]).code == "form-not-found"
