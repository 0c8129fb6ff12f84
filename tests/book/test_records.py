"""Rows of tables as records of the model."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.book.records import build_applications, build_cropping, build_field_notes, build_results
from soilrota.files import Table, read_csv
from soilrota.model.applications import Standing


def table(folder: Path, name: str, *lines: str) -> Table:
    """Return a table read from a file with these lines."""
    path = folder / f"{name}.csv"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    read, problems = read_csv(path, path.name, name)
    assert problems == ()
    assert read is not None
    return read


@pytest.mark.parametrize(
    ("days", "first", "last"),
    [
        ("2026-05-10,", date(2026, 5, 10), date(2026, 5, 10)),
        ("2026-05-10,2026-05-12", date(2026, 5, 10), date(2026, 5, 12)),
        ("unknown,", None, None),
        ("unknown,2026-05-12", None, date(2026, 5, 12)),
        ("2026-05-10,unknown", date(2026, 5, 10), None),
    ],
)
def test_days_of_applications(tmp_path: Path, days: str, first: date | None, last: date | None) -> None:
    """An empty last day is the first day; `unknown` is not known."""
    header = "farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note"
    (row,) = build_applications(table(tmp_path, "applications", header, f"home,a b a,lime,lime,{days},done,,"))
    assert (row.value.first_day, row.value.last_day) == (first, last)
    assert (row.value.zones, row.value.standing, row.value.rate_kg_ha) == (("a", "b"), Standing.DONE, None)
    assert (row.at("class").line, row.at().line) == (2, 2)
    assert row.at("class").column > row.at("zones").column


def test_field_notes(tmp_path: Path) -> None:
    """Cells that are empty are empty text or not known."""
    header = "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note"
    (note,) = build_field_notes(table(tmp_path, "field_notes", header, "2026-02-20,home,hill,topsoil,0,10,,,,,"))
    value = note.value
    assert (value.cores, value.soil_state, value.sampler, value.bag) == (None, "", "", "")
    assert (value.day, value.top_cm, value.bottom_cm) == (date(2026, 2, 20), 0.0, 10.0)


def test_cropping(tmp_path: Path) -> None:
    """Farm, zone and year are read for the checks."""
    header = "farm,zone,year,crop,target_yield_t_ha,target_protein_percent,leaves_field"
    (row,) = build_cropping(table(tmp_path, "cropping", header, "home,hill,2027,wheat,4.5,11.5,grain"))
    assert (row.value.farm, row.value.zone, row.value.year, row.value.crop) == ("home", "hill", 2027, "wheat")


def test_results(tmp_path: Path) -> None:
    """A result keeps its qualifier, unit and layer."""
    header = (
        "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory"
    )
    line = "r1,2026-02-20,2026-03-05,home,hill,topsoil,,0,10,phosphorus,colwell,<,5,mg/kg,north-bench"
    (row,) = build_results([table(tmp_path, "results", header, line)])
    value = row.value
    assert (value.qualifier, value.value, value.unit, value.bag) == ("<", 5.0, "mg/kg", "")
    assert (value.sampled, value.reported) == (date(2026, 2, 20), date(2026, 3, 5))


def test_results_with_the_columns_of_intake(tmp_path: Path) -> None:
    """Issue, day of receipt, what the laboratory wrote and the row it wrote it in; empty cells are the defaults."""
    header = (
        "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,"
        "laboratory,issue,received,as_reported,origin"
    )
    line = "r1,2026-02-20,2026-03-05,home,hill,topsoil,,0,10,phosphorus,colwell,<,5,mg/kg,north-bench,"
    filled = line + '2,2026-02-24,"<5,0 mg/kg",5f0c:14'
    first, second = build_results([table(tmp_path, "results", header, filled, f"{line},,,")])
    value = first.value
    assert (value.issue, value.received, value.as_reported) == (2, date(2026, 2, 24), "<5,0 mg/kg")
    assert value.origin == "5f0c:14"
    assert (second.value.issue, second.value.received, second.value.as_reported) == (1, None, "")


def test_no_tables() -> None:
    """A table that is not there has no rows."""
    assert build_applications(None) == build_field_notes(None) == build_cropping(None) == build_results([]) == ()
