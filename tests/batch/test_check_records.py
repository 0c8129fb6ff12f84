"""Values of check samples on disk: added once, read back equal, never overwritten where a file is damaged."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.batch.check_records import (
    FOLDER,
    add_check_values,
    contradicted,
    read_all_check_values,
    read_check_values,
)
from soilrota.batch.faults import DamagedRecordsError
from soilrota.model.check_values import CheckValue

ONE = CheckValue(
    laboratory="north-bench",
    report="NB-1",
    issue=1,
    bag="Z9000-W",
    material="shed-loam",
    sent=date(2026, 2, 2),
    received=date(2026, 2, 4),
    reported=date(2026, 2, 16),
    analyte="phosphorus",
    method="colwell",
    qualifier="",
    value=31.5,
    unit="mg/kg",
    origin="0a1b2c3d4e5f:7",
)


def test_values_read_back_and_stand_once(tmp_path: Path) -> None:
    """The same again changes no byte; another issue, analysis or bag adds a row and moves none."""
    assert add_check_values(tmp_path, "north-bench", [ONE, ONE])
    assert read_check_values(tmp_path, "north-bench") == ((ONE,), ())
    before = (tmp_path / FOLDER / "north-bench.csv").read_bytes()
    assert not add_check_values(tmp_path, "north-bench", [ONE])
    assert not add_check_values(tmp_path, "north-bench", [])
    assert (tmp_path / FOLDER / "north-bench.csv").read_bytes() == before
    more = [replace(ONE, issue=2), replace(ONE, method="olsen", qualifier="<", received=None, origin="")]
    assert add_check_values(tmp_path, "north-bench", more)
    assert (tmp_path / FOLDER / "north-bench.csv").read_bytes().startswith(before)
    assert read_check_values(tmp_path, "north-bench")[0] == (ONE, *more)


def test_what_contradicts_is_told_and_not_written(tmp_path: Path) -> None:
    """Another figure under the same report, issue, bag and analysis changes nothing, and can be asked for first."""
    other = replace(ONE, value=32.5)
    add_check_values(tmp_path, "north-bench", [ONE])
    assert contradicted([ONE], [ONE, other, replace(other, issue=2)]) == (other,)
    assert contradicted([], [ONE, other]) == (other,)
    assert not add_check_values(tmp_path, "north-bench", [other])
    assert read_check_values(tmp_path, "north-bench")[0] == (ONE,)


def test_a_damaged_file_is_left_alone(tmp_path: Path) -> None:
    """Nothing is added to what cannot be read; the others are read, and the problem has its place."""
    add_check_values(tmp_path, "tarn-bench", [replace(ONE, laboratory="tarn-bench")])
    path = tmp_path / FOLDER / "north-bench.csv"
    path.write_text("laboratory,report\n", encoding="utf-8")
    with pytest.raises(DamagedRecordsError) as raised:
        add_check_values(tmp_path, "north-bench", [ONE])
    assert raised.value.problems[0].place.file == f"{FOLDER}/north-bench.csv"
    assert path.read_text(encoding="utf-8") == "laboratory,report\n"
    values, problems = read_all_check_values(tmp_path)
    assert [value.laboratory for value in values] == ["tarn-bench"]
    assert {problem.place.file for problem in problems} == {f"{FOLDER}/north-bench.csv"}


@given(
    report=st.text(st.characters(codec="utf-8", exclude_categories=("C", "Z")), min_size=1, max_size=20),
    value=st.decimals(-999, 99999, places=6).map(float),
    days=st.integers(0, 4000),
)
def test_any_report_number_reads_back(
    tmp_path_factory: pytest.TempPathFactory, report: str, value: float, days: int
) -> None:
    """Commas, quotes and what a spreadsheet takes for a formula stand in report numbers; nothing is doubled by them."""
    root = tmp_path_factory.mktemp("book")
    report = report.removeprefix("'")
    one = replace(ONE, report=report or "x", value=value, reported=ONE.reported + timedelta(days))
    assert add_check_values(root, "north-bench", [one])
    assert not add_check_values(root, "north-bench", [one])
    read, problems = read_check_values(root, "north-bench")
    assert problems == ()
    assert read is not None
    assert contradicted(read, [one]) == ()
    assert read[0].key == one.key
