"""Check samples of a file: their values, those that contradict earlier ones, and the charts with them."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.batch.check_records import add_check_values
from soilrota.batch.intake_checks import ChecksOfFile
from soilrota.model.intake import CheckRow
from tests.documents.made import BOOK, example
from tests.results.intake_worlds import row, value

DAY = date(2027, 3, 10)


def _row(bag: str, number: int, phosphorus: float) -> CheckRow:
    """Return a row of a check sample."""
    values = (value("phosphorus", phosphorus), value("ph", 5.4))
    return CheckRow(row(bag, number, values=values), bag, "shed-loam", date(2027, 2, 1))


def _checks(root: Path) -> ChecksOfFile:
    """Return the check samples of a file of North Bench."""
    return ChecksOfFile(root, "north-bench", "0123456789ab", DAY)


def test_values_carry_where_they_come_from(tmp_path: Path) -> None:
    """A value an analysis; issue 1 where the file says none."""
    values, aside = _checks(tmp_path).take([_row("Z9000-W", 7, 31.0)])
    assert aside == ()
    assert [(one.analyte, one.value, one.issue, one.origin) for one in values] == [
        ("phosphorus", 31.0, 1, "0123456789ab:7"),
        ("ph", 5.4, 1, "0123456789ab:7"),
    ]


def test_what_contradicts_waits(tmp_path: Path) -> None:
    """Earlier values stand; so does the first of two rows of one file; the same again is no contradiction."""
    values, _ = _checks(tmp_path).take([_row("Z9000-W", 7, 31.0)])
    add_check_values(tmp_path, "north-bench", values)
    again, aside = _checks(tmp_path).take([_row("Z9000-W", 7, 31.0), _row("Z9000-W", 8, 35.0)])
    assert (again, [one.number for one in aside]) == (values, [8])
    assert [reason.code for reason in aside[0].reasons] == ["check-contradicts"]
    _, aside = _checks(tmp_path).take([_row("Z9001-U", 2, 31.0), _row("Z9001-U", 3, 35.0)])
    assert [one.number for one in aside] == [3]


def test_charts_hold_what_is_known_and_what_is_fresh() -> None:
    """A check that is far off is in the chart of its analysis beside those of the records."""
    materials = example("anvil-creek").practice.check_materials
    checks = _checks(BOOK)
    assert checks.problems == ()
    before = {chart.analysis: len(chart.points) for chart in checks.charts((), materials)}
    fresh, _ = checks.take([_row("Z9999-X", 2, 90.0)])
    after = {chart.analysis: len(chart.points) for chart in checks.charts(fresh, materials)}
    assert after["phosphorus.colwell"] == before["phosphorus.colwell"] + 1


def test_damaged_records_are_said(tmp_path: Path) -> None:
    """Nothing is known then, and the problem says where."""
    folder = tmp_path / "records" / "check_samples"
    folder.mkdir(parents=True)
    (folder / "north-bench.csv").write_text("what\n", encoding="utf-8")
    assert {problem.place.file for problem in _checks(tmp_path).problems} == {"records/check_samples/north-bench.csv"}
