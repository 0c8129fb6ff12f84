"""The laboratory files of the example book, taken in as the README says: accepted, set aside, mended, corrected."""

from __future__ import annotations

import json
import shutil
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.intake import NO_HURRY, AloneRequest, run_intake
from soilrota.batch.intake_values import IntakeReport
from tests.example_book import copy_example

AS_OF = date(2027, 2, 15)


@pytest.fixture
def mybook(tmp_path: Path) -> Path:
    """Return a copy of the example book with its laboratory files in the inbox."""
    book = copy_example(tmp_path / "mybook")
    shutil.copytree(book / "laboratory_files", book / "inbox", dirs_exist_ok=True)
    return book


def taken_in(book: Path) -> tuple[IntakeReport, str]:
    """Take the inbox in; return how it went and what is printed."""
    request = AloneRequest(book, book.parent / "out", "then", AS_OF, jobs=2)
    return run_intake(request, lambda _zone: AS_OF, NO_HURRY, lambda: False)


def rows(report: IntakeReport) -> dict[str, tuple[int, int, int]]:
    """Return rows accepted, set aside and settled by file; together they are the rows of the file."""
    found = {}
    for record in report.records:
        sums = len(record.accepted), len(record.reasons), len(record.settled or {})
        assert sum(sums) == record.rows
        found[record.name] = sums
    return found


def test_the_three_files_and_the_mended_row(mybook: Path) -> None:
    """One row waits, with the id that may be meant; mended and dropped it comes in, and its first form waits no more.

    The book has changed with the first intake, so that the row would be looked at again beside its mended form.
    """
    report, words = taken_in(mybook)
    files = ["certificate-glen.csv", "nb-2027-anvil-07.csv", "pb-2026-iron-05-issue-2.xlsx"]
    assert rows(report) == dict(zip(files, [(1, 0, 0), (2, 1, 0), (3, 0, 0)], strict=True))
    assert "Set aside: 1 row waits for somebody" in words
    assert "near it is Z9017-E." in words
    assert "Bray-1 P of Northwest field, 0–15 cm, is 18 mg/kg and no longer 13 mg/kg." in words
    assert "Not back from the laboratory" not in words
    assert list((mybook / "inbox").iterdir()) == []

    (table,) = (mybook / "records" / "set_aside").glob("*.csv")
    mended = table.read_text(encoding="utf-8").replace("Z9017-F", "Z9017-E")
    (mybook / "inbox" / "mended.csv").write_text(mended, encoding="utf-8")
    report, words = taken_in(mybook)
    assert rows(report)["mended.csv"] == (1, 0, 0)
    assert rows(report)["nb-2027-anvil-07.csv"] == (2, 0, 1)
    assert "Set aside" not in words
    assert not table.exists()
    checks = (mybook / "records" / "check_samples" / "north-bench.csv").read_text(encoding="utf-8")
    assert checks.count("Z9017-E") == 7


def test_a_row_mended_wrongly_waits_once(mybook: Path) -> None:
    """Of a row that came back with the same mistake the later form waits, and the earlier is settled."""
    taken_in(mybook)
    (table,) = (mybook / "records" / "set_aside").glob("*.csv")
    shutil.copy(table, mybook / "inbox" / "again.csv")
    report, words = taken_in(mybook)
    assert (rows(report)["again.csv"], rows(report)["nb-2027-anvil-07.csv"]) == ((0, 1, 0), (2, 0, 1))
    assert "Set aside: 1 row waits for somebody" in words
    record = next(one for one in report.records if one.name == "nb-2027-anvil-07.csv")
    assert json.dumps(dict(record.settled or {})).count("mended and set aside again") == 1
