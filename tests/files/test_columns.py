"""Header rows."""

from __future__ import annotations

from soilrota.files.columns import columns_of
from soilrota.files.schemas import shipped_schemas
from soilrota.files.tables import read_rows

COLUMNS = columns_of(shipped_schemas(), "cropping.table.json")


def test_the_header_names_its_columns() -> None:
    """Repeated, unknown and missing columns are all said at once."""
    _, problems = read_rows("farm,farm,zonee,year\n", "cropping.csv", COLUMNS)
    assert sorted(problem.code for problem in problems) == [
        "duplicate-column",
        "missing-column",
        "missing-column",
        "unknown-column",
    ]
    assert "'zone'" in next(problem.mend for problem in problems if problem.code == "unknown-column")


def test_tabs_are_recognised() -> None:
    """A table split by tabs is told from one with a wrong name."""
    _, problems = read_rows("farm\tzone\tyear\tcrop\n", "cropping.csv", COLUMNS)
    assert [problem.code for problem in problems] == ["not-commas"]


def test_whole_numbers_are_whole() -> None:
    """A year with decimals is refused; a decimal yield is fine."""
    rows, problems = read_rows(
        "farm,zone,year,crop,target_yield_t_ha\nhome,a,2027.5,wheat,4.25\nhome,a,2027,wheat,4.25\n", "c.csv", COLUMNS
    )
    assert [problem.code for problem in problems] == ["not-a-number"]
    assert rows[1].values["target_yield_t_ha"] == 4.25
