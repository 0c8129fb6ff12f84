"""Tables of another form: headings, words and days of a phone or a tablet, with the file's own places."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.files.columns import columns_of
from soilrota.files.other_form import OtherForm
from soilrota.files.schemas import shipped_schemas
from soilrota.files.tables import Row, read_rows
from soilrota.problems import Place, Problem

COLUMNS = columns_of(shipped_schemas(), "field_notes.table.json")
FORM = OtherForm(
    {"day": "Sample date", "zone": "Paddock", "soil_state": "Ground"},
    {"soil_state": {"Damp": "moist"}},
    "day-month-year",
)
HEADER = "Phone,Sample date,farm,Paddock,protocol,top_cm,bottom_cm,Ground\n"


def read(text: str, form: OtherForm | None = FORM) -> tuple[tuple[Row, ...], tuple[Problem, ...]]:
    """Return rows and problems of a table of field notes."""
    return read_rows(text, "field_notes.csv", COLUMNS, form)


def test_a_table_of_the_form_is_read_as_ours() -> None:
    """Values stand under our names, places under the file's; what nobody named is left out."""
    rows, problems = read(f"{HEADER}p1,21/01/2027,home,river-flat,topsoil,0,7.5,DAMP\n")
    assert problems == ()
    (row,) = rows
    given = {name: value for name, value in row.values.items() if value is not None}
    assert given == {
        "day": date(2027, 1, 21),
        "farm": "home",
        "zone": "river-flat",
        "protocol": "topsoil",
        "top_cm": 0,
        "bottom_cm": 7.5,
        "soil_state": "moist",
    }
    assert row.place("zone") == Place("field_notes.csv", 2, 20, "Paddock")
    assert row.place("farm") == Place("field_notes.csv", 2, 15, "farm")
    assert row.place("cores") == Place("field_notes.csv", 2, 1, "cores")


def test_a_table_with_our_own_headings_is_ours() -> None:
    """Days and words are ours then, whatever the form says; unknown columns stay errors."""
    ours = "day,farm,zone,protocol,top_cm,bottom_cm,soil_state"
    rows, problems = read(f"{ours}\n2027-02-01,home,a,topsoil,0,10,moist\n")
    assert problems == ()
    assert rows[0].values["day"] == date(2027, 2, 1)
    assert [one.code for one in read(f"{ours}\n01/02/2027,home,a,topsoil,0,10,Damp\n")[1]] == [
        "bad-date",
        "unknown-word",
    ]
    assert [one.code for one in read(f"{ours},Phone\n2027-02-01,home,a,topsoil,0,10,moist,p\n")[1]] == [
        "unknown-column"
    ]
    assert [one.code for one in read("day,farm,zone\n2027-02-01,home,a\n")[1]] == ["missing-column"] * 3
    assert [one.code for one in read(f"{HEADER}p1,2027-02-01,home,a,topsoil,0,10,moist\n", None)[1]].count(
        "unknown-column"
    ) == 4


@pytest.mark.parametrize(
    ("form", "text", "expected"),
    [
        ("day-month-year", "1/2/2027", date(2027, 2, 1)),
        ("month-day-year", "1/2/2027", date(2027, 1, 2)),
        ("year-month-day", "2027/1/2", date(2027, 1, 2)),
        ("month-day-year", "2027-01-02", date(2027, 1, 2)),
        ("day-month-year", "29.02.2028 7:05 pm", date(2028, 2, 29)),
        ("day-month-year", "2027-01-02T23:59:59.250", date(2027, 1, 2)),
        ("day-month-year", "29.02.2027", None),
        ("day-month-year", "1/2/27", None),
        ("year-month-day", "1/2/2027", None),
        ("day-month-year", "2027-01-02T23:59:59Z", None),
        ("day-month-year", "2 Jan 2027", None),
        ("day-month-year", "\u0662/1/2027", None),
    ],
)
def test_days(form: str, text: str, expected: date | None) -> None:
    """Days are read in the order that is said, or with their year first; anything else is refused with an example."""
    rows, problems = read(f"{HEADER}p1,{text},home,a,topsoil,0,10,\n", OtherForm(FORM.headings, FORM.words, form))
    assert rows[0].values["day"] == expected
    assert [one.code for one in problems] == ["bad-date"] * (expected is None)
    assert all(form in one.expected and "'Sample date'" in one.found for one in problems)


def test_words() -> None:
    """Our own words stay good; another is refused with those there are and the nearest."""
    for word, state in (("damp", "moist"), ("moist", "moist"), ("wet", "wet"), ("", None)):
        assert read(f"{HEADER}p1,21/01/2027,home,a,topsoil,0,10,{word}\n")[0][0].values["soil_state"] == state
    _, (problem,) = read(f"{HEADER}p1,21/01/2027,home,a,topsoil,0,10,Dampp\n")
    assert (problem.place.column, problem.place.path) == (35, "Ground")
    assert problem.expected == "one of dry, moist, wet, Damp"
    assert problem.mend.startswith("write 'Damp', or say in practice.yaml")


def test_a_heading_that_the_form_uses_otherwise() -> None:
    """`zone` may be the heading of the farm, where another one holds the zone."""
    form = OtherForm({"farm": "zone", "zone": "Paddock"})
    header = "day,zone,Paddock,protocol,top_cm,bottom_cm\n"
    rows, problems = read(f"{header}2027-01-21,home,river-flat,topsoil,0,10\n", form)
    assert problems == ()
    assert (rows[0].values["farm"], rows[0].values["zone"]) == ("home", "river-flat")


def test_our_own_heading_among_those_of_the_form() -> None:
    """It holds our column where the form's is not there."""
    rows, problems = read(HEADER.replace("Sample date", "day") + "p1,21/01/2027,home,river-flat,topsoil,0,10,damp\n")
    assert problems == ()
    assert (rows[0].values["day"], rows[0].values["soil_state"]) == (date(2027, 1, 21), "moist")
    assert rows[0].place("day").path == "day"


def test_a_heading_that_is_missing_names_the_one_that_may_be_meant() -> None:
    """The mend says where to name it."""
    _, (problem,) = read(HEADER.replace("Sample date", "Sampling date") + "p1,21/01/2027,home,a,topsoil,0,10,\n")
    assert problem.found == "the column 'Sample date' is missing"
    assert problem.mend == "name 'Sampling date' under columns.day in practice.yaml (field_notes)"
