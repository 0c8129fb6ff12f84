"""From cells to rows read and rows set aside."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.files import GridRow
from soilrota.problems import Place, error
from tests.results.laboratory_grids import column, forms, grid, lines, reasons, taken

WIDE = {
    "name": "wide",
    "numbers": {"decimal": ".", "group": ",", "nd": "below limit"},
    "day_form": "day-month-year",
    "sample": "Bag",
    "report": "Report",
    "issue": "Issue",
    "sampled": "Taken",
    "reported": "Out",
    "depth": "Depth",
    "columns": [
        column("pH", "ph.cacl2", "pH"),
        column("P Colwell", "phosphorus.colwell", "mg/kg", low=2, high=400),
        column("Potash", "potassium.colwell", "mg/100g K2O"),
    ],
    "ignored": ["Grower"],
}
LONG = {
    "name": "long",
    "shape": "value-a-row",
    "sample": "Bag",
    "analysis": "Test",
    "value": "Found",
    "unit": "In",
    "method": "By",
    "columns": [
        column("Phosphorus | Colwell", "phosphorus.colwell", low=2),
        column("Phosphorus | Olsen", "phosphorus.olsen", "mg/kg"),
        column("pH", "ph.water", "pH"),
    ],
    "ignored": ["Moisture"],
}
HEADINGS = "Report,Issue,Bag,Grower,Taken,Out,Depth,pH,P Colwell,Potash\n"


def test_a_row_is_read_with_its_facts_and_values() -> None:
    """Facts, units, forms and reporting limits; the cell is kept as it was reported."""
    file = taken(lines(HEADINGS + 'NB-7,2,B-1,Lee,20/02/2026,6/3/2026,0-10,5.2,<2,"1,024.5"\n'), *forms(WIDE))
    assert (file.laboratory, file.form, file.rows_read, file.set_aside, file.notes) == (
        "north-bench",
        "wide",
        1,
        (),
        (),
    )
    (row,) = file.rows
    assert (row.report, row.issue, row.sample) == ("NB-7", 2, "B-1")
    assert (row.sampled, row.received, row.reported) == (date(2026, 2, 20), None, date(2026, 3, 6))
    assert row.depth == (0, 10)
    ph, phosphorus, potassium = row.values
    assert (ph.analyte, ph.method, ph.value, ph.unit, ph.as_reported) == ("ph", "cacl2", 5.2, "pH", "5.2 pH")
    assert (phosphorus.qualifier, phosphorus.value, phosphorus.place.line) == ("<", 2.0, 2)
    # K2O is 83.02 % potassium (atomic masses); a milligram in a hundred grams is ten in a kilogram.
    assert potassium.value == pytest.approx(1024.5 * 10 * 0.83015, rel=1e-4)
    assert potassium.as_reported == "1,024.5 mg/100g K2O"


@pytest.mark.parametrize(
    ("cell", "qualifier", "value"), [("n.d.", "<", 2), ("<LOD", "<", 2), ("over range", ">", 400), ("> 400", ">", 400)]
)
def test_words_of_limits(cell: str, qualifier: str, value: float) -> None:
    """Words stand for the declared limits of the column, `n.d.` for what is declared."""
    (row,) = taken(lines(f"{HEADINGS}NB-7,,B-1,,,,,,{cell},\n"), *forms(WIDE)).rows
    assert [(one.qualifier, one.value) for one in row.values] == [(qualifier, value)]


def test_a_row_is_set_aside_whole_with_all_its_reasons() -> None:
    """Every fault of a row is said, none of its values is taken in; its neighbours stand."""
    text = HEADINGS + "NB-7,x,,Lee,30/02/2026,6/3/2026,10-0,5;2,n.d.,<LOD\nNB-7,1,B-2,,,,,5,,–\n"
    file = taken(lines(text), *forms(WIDE))
    assert reasons(file) == [["bad-issue", "bad-sampled", "bad-depth", "no-sample", "cell-refused", "no-limit"]]
    assert [reason.place.column for reason in file.set_aside[0].reasons] == [6, 13, 33, 8, 38, 47]
    assert [row.sample for row in file.rows] == ["B-2"]
    assert [value.value for value in file.rows[0].values] == [5]


def test_shapes_of_rows() -> None:
    """Headings again, rows cut short, rows that have shifted, rows that could not be split; empty rows are none."""
    broken = error("open-quotes", Place("inbox/file.csv", 7), "quotes are opened", "", "close them")
    made = lines(
        f"{HEADINGS}{HEADINGS.upper()},,,,,,,,,\nNB-7,1,B-1,,,,,5.2\nNB-7,1,B-2,,,,,5,2,27,9\nNB-7,1,B-3,,,,,5.2,27,9,,\n"
    )
    file = taken(replace(made, rows=(*made.rows, GridRow(7, ("NB-7", "1"), broken))), *forms(WIDE))
    assert reasons(file) == [["heading-again"], ["too-few-cells"], ["too-many-cells"], ["open-quotes"]]
    assert [row.number for row in file.set_aside] == [2, 4, 5, 7]
    assert [row.number for row in file.rows] == [6]
    assert file.rows_read == 5


def test_a_sheet_does_not_store_empty_cells_at_the_end() -> None:
    """A short row of a workbook lacks nothing."""
    rows = [line.split(",") for line in (HEADINGS.strip(), "NB-7,1,B-1,,,,,5.2")]
    (row,) = taken(grid(*rows, kind="xlsx"), *forms(WIDE)).rows
    assert [value.value for value in row.values] == [5.2]


def test_headings_that_nobody_declared_are_said() -> None:
    """An unknown heading and a column without one are notes; so is a fact that the form expects."""
    text = "Bag,pH,Zeal,,\nB-1,5.2,9,7,\n"
    file = taken(lines(text), *forms(WIDE))
    assert [note.code for note in file.notes] == ["missing-heading"] * 5 + ["unknown-heading"] * 2
    assert "'Zeal'" in file.notes[5].found
    assert "column 4" in file.notes[6].found


def test_one_value_a_row() -> None:
    """Names with their method, units of the file, names ignored, names nobody knows."""
    text = (
        "Bag,Test,By,Found,In\nB-1,Phosphorus,Colwell,27.5,mg/kg\nB-1,phosphorus,OLSEN,12.5,ppm\nB-1,pH,,6.5,-\n"
        "B-1,Moisture,oven,12,%\nB-1,Phosphorus,Bray,9,mg/kg\nB-1,Phosphorus,Colwell,9,\nB-1,Phosphorus,Olsen,9,mg/l\n"
        "B-1,Phosphorus,Colwell,<LOD,g/kg\nB-1,Phosphorus,Olsen,–,mg/l\nB-1,Phosphorus,Colwell,9,mg/kg P2O5\n"
    )
    file = taken(lines(text), *forms(LONG))
    assert [[(v.method, v.qualifier, v.value) for v in row.values] for row in file.rows] == [
        [("colwell", "", 27.5)],
        [("olsen", "", 12.5)],
        [("water", "", 6.5)],
        [],
        [("colwell", "<", 2.0)],
        [],
        [("colwell", "", pytest.approx(9 * 0.43642, rel=1e-4))],
    ]
    assert reasons(file) == [["unknown-name"], ["no-unit"], ["unit-differs"]]
    assert "Phosphorus | Bray" in file.set_aside[0].reasons[0].found


def test_a_row_of_units_and_labels_above() -> None:
    """Facts above the table hold for every row; the units stand below the headings."""
    form = {
        "name": "book",
        "kind": "xlsx",
        "sample": "Tag",
        "report": {"label": "Report no."},
        "reported": {"label": "Reported on"},
        "top": "From",
        "bottom": "To",
        "columns": [column("P", "phosphorus.olsen", unit_row=True), column("pH", "ph.water", "pH")],
    }
    above = (["Soil results"], ["Report no.: 77", "", "Reported on", "", "2026-03-06"], [])
    rows = (["Tag", "From", "To", "P", "pH"], ["", "cm", "cm", "g/kg", ""], ["B-1", "0", "7.5", "0.025", "6.1"])
    file = taken(grid(*above, *rows, kind="xlsx", numeric=True), *forms(form))
    (row,) = file.rows
    assert (row.report, row.reported, row.depth) == ("77", date(2026, 3, 6), (0, 7.5))
    assert [(value.value, value.as_reported) for value in row.values] == [(25.0, "0.025 g/kg"), (6.1, "6.1 pH")]
    assert file.units == ("", "cm", "cm", "g/kg", "")
    assert file.above == tuple(tuple(cells) for cells in above)
    # Without the row of units the first row of results is none, and its unit is not known.
    file = taken(grid(*above, rows[0], *rows[2:], kind="xlsx", numeric=True), *forms(form))
    assert reasons(file) == [["no-unit"]] or reasons(file) == [["unit-refused"]]
    twice = taken(grid(["Report no.", "78"], *above, *rows, kind="xlsx"), *forms(form))
    assert reasons(twice) == [["label-twice"]]


def test_numbers_that_nobody_declared_are_found_out_or_set_aside() -> None:
    """One cell tells the sign of a column; in a column without such a cell only what reads one way is taken in."""
    form = {"name": "free", "sample": "Bag", "columns": [column("P", "phosphorus.olsen", "mg/kg")]}
    read = taken(lines('Bag,P\nB-1,"1.234"\nB-2,"2,5"\n'), *forms(form))
    assert [row.values[0].value for row in read.rows] == [1234, 2.5]
    unclear = taken(
        lines('Bag,P\nB-1,"1.234"\nB-2,25\nB-3,n.d.\n'), *forms({**form, "numbers": {"nd": "not measured"}})
    )
    assert [row.sample for row in unclear.rows] == ["B-2", "B-3"]
    assert "declare the laboratory's decimal sign" in unclear.set_aside[0].reasons[0].mend
    stored = taken(grid(["Bag", "P"], ["B-1", "1.234"], kind="xlsx", numeric=True), *forms(form))
    assert stored.rows[0].values[0].value == 1.234


def test_one_analysis_twice_in_a_row() -> None:
    """Two columns may mean one analysis, but a row has it once."""
    both = [column("P", "phosphorus.olsen", "mg/kg"), column("P old", "phosphorus.olsen", "mg/kg")]
    form = {"name": "both", "sample": "Bag", "columns": both}
    file = taken(lines("Bag,P,P old\nB-1,12.5,\nB-2,,12.5\nB-3,12.5,12.5\n"), *forms(form))
    assert [row.sample for row in file.rows] == ["B-1", "B-2"]
    assert reasons(file) == [["analysis-twice"]]


def test_a_cell_with_a_unit_of_its_own() -> None:
    """A unit behind the number must be the declared one."""
    form = {"name": "own", "sample": "Bag", "columns": [column("P", "phosphorus.olsen", "mg/kg")]}
    file = taken(lines("Bag,P\nB-1,12.5 ppm\nB-2,12.5 g/kg\nB-3,12.5 mg/kg P2O5\n"), *forms(form))
    assert [row.values[0].as_reported for row in file.rows] == ["12.5 ppm"]
    assert reasons(file) == [["unit-differs"], ["unit-differs"]]
