"""Intake by itself: words in the output folder, faults as values, who is told of corrections."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.faults import CannotStartError
from soilrota.batch.intake import NO_HURRY, AloneRequest, IntakeAsk, run_intake, take_in
from soilrota.batch.opening import known_facts, open_book
from tests.acceptance.intake_book import add_laboratory, add_notes, drop, row, table

DAY = date(2027, 2, 15)


def _run(book: Path, as_of: date | None = DAY) -> tuple[tuple[str, ...], str]:
    """Take the inbox in; return faults and words."""
    request = AloneRequest(book, book.parent / "out", "then", as_of, 1)
    report, words = run_intake(
        request, lambda zone: date(2027, 3, 1 if zone == "Australia/Melbourne" else 2), NO_HURRY, lambda: False
    )
    return report.faults, words


def test_the_words_are_written_down(book: Path) -> None:
    """The report says what came in, and `intake.txt` says the same."""
    add_laboratory(book)
    add_notes(book, "alder-farm", {"A1": "2027-02-01", "A2": "2027-02-02"})
    drop(book, "feb.csv", table(row("A1")))
    faults, words = _run(book)
    assert faults == ()
    assert "feb.csv (bench, report R1): 1 row: 1 accepted" in words
    assert "Not back from the laboratory: 1 bag\n" in words
    assert (book.parent / "out" / "intake.txt").read_text(encoding="utf-8") == words


def test_today_is_asked_for_in_the_practice_s_zone(book: Path) -> None:
    """Only where no as-of date is given."""
    assert _run(book, None)[1].startswith("Laboratory results as of 2027-03-01")
    assert _run(book)[1].startswith("Laboratory results as of 2027-02-15")


def test_a_damaged_record_is_a_fault_in_words(book: Path) -> None:
    """Nothing is taken in, and the words name the record and what to do."""
    folder = book / "records" / "received"
    folder.mkdir(parents=True)
    (folder / "0a.json").write_text("{}", encoding="utf-8")
    faults, words = _run(book)
    assert len(faults) == 1
    assert "0a.json is damaged; restore it from a backup" in faults[0]
    assert "What went wrong" in words


def test_a_folder_that_cannot_be_written_is_a_fault_in_words(book: Path) -> None:
    """The file stays in the inbox."""
    path = drop(book, "feb.csv", table(row("A1")))
    (book / "records").mkdir()
    (book / "records" / "received").write_text("in the way", encoding="utf-8")
    with open_book(book, "then") as ledger:
        report = take_in(IntakeAsk(book, DAY, 1), known_facts(book, ledger), NO_HURRY, ledger, lambda: False)
    assert "could not be used" in report.faults[0]
    assert path.exists()


def test_what_is_no_book_is_not_begun(tmp_path: Path) -> None:
    """Without a practice there is nothing to take results into."""
    with pytest.raises(CannotStartError, match=r"no practice\.yaml"):
        _run(tmp_path / "nothing")
