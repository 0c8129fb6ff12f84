"""Typed rows with places."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.files.tables import as_day, read_csv

HEADER = "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note\n"


def test_cells_are_typed_and_placed(tmp_path: Path) -> None:
    """Days, numbers and empty cells come typed; a cell's place is its beginning."""
    file = tmp_path / "applications.csv"
    file.write_text(HEADER + 'home,flat hill,lime,"limestone, ground",2026-11-20,,done,2500.5,\n', encoding="utf-8")
    table, problems = read_csv(file, "clients/a/applications.csv", "applications")
    assert problems == ()
    assert table is not None
    (row,) = table.rows
    assert row.values["first_day"] == date(2026, 11, 20)
    assert row.values["rate_kg_ha"] == 2500.5
    assert row.values["last_day"] is None
    assert str(row.place("first_day")) == "clients/a/applications.csv:2:41"
    assert str(row.place()) == "clients/a/applications.csv:2:1"
    assert as_day(row.values["first_day"]) == date(2026, 11, 20)


def test_columns_may_stand_in_any_order_and_optional_ones_be_missing(tmp_path: Path) -> None:
    """The header names the columns; a column that is not required may be left out."""
    file = tmp_path / "applications.csv"
    file.write_text(
        "standing,first_day,material,class,zones,farm\nplanned,unknown,urea,manure,,home\n", encoding="utf-8"
    )
    table, problems = read_csv(file, "applications.csv", "applications")
    assert problems == ()
    assert table is not None
    assert table.rows[0].values["first_day"] == "unknown"
    assert as_day("unknown") is None
    assert table.rows[0].values["note"] is None


def test_every_bad_cell_is_named(tmp_path: Path) -> None:
    """Several faults in one file come together, in order."""
    file = tmp_path / "applications.csv"
    file.write_text(HEADER + "Home,flat,lime,x,2026-02-30,,done,abc,\nhome,flat,limes,x,2026-02-20,,doen,-5,\n")
    _, problems = read_csv(file, "applications.csv", "applications")
    assert [(problem.place.line, problem.code) for problem in problems] == [
        (2, "wrong-form"),
        (2, "bad-date"),
        (2, "not-a-number"),
        (3, "unknown-word"),
        (3, "unknown-word"),
        (3, "out-of-range"),
    ]


def test_rows_reported_are_capped(tmp_path: Path) -> None:
    """A table that is wrong from top to bottom does not flood the reader."""
    file = tmp_path / "applications.csv"
    file.write_text(HEADER + "home\n" * 5000)
    _, problems = read_csv(file, "applications.csv", "applications")
    assert len(problems) == 200


def test_a_missing_file_is_a_problem(tmp_path: Path) -> None:
    """A file that is not there is said, not raised."""
    table, problems = read_csv(tmp_path / "none.csv", "none.csv", "applications")
    assert table is None
    assert [problem.code for problem in problems] == ["cannot-read"]
