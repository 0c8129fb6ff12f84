"""When a document of the practice is made again, and when it is left alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.ledger import Ledger, open_ledger
from soilrota.batch.shared_step import FIELD_CALENDAR, LABORATORY_CHECKS, SharedRequest, keep_shared
from tests.acceptance.small_book import write_book
from tests.batch.test_calendar_work import LATER, VISIT
from tests.documents.made import BOOK


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """Return an open ledger."""
    with open_ledger(tmp_path / "ledger.sqlite") as opened:
        yield opened


def _request(out: Path, day: str, rests_on: str = "shared", book: Path = BOOK) -> SharedRequest:
    """Return what a night asks for."""
    return SharedRequest(book, out, date.fromisoformat(day), (rests_on, "engine"), 60.0, 1024)


def _keep(request: SharedRequest, ledger: Ledger, *visits: dict[str, str]) -> tuple[set[bool], set[date]]:
    """Run the step; return whether its files were made, and their dates."""
    kept = keep_shared(request, FIELD_CALENDAR, ledger, lambda: False, visits=visits)
    assert kept.fault == ""
    assert {file.file for file in kept.files} == {"field_calendar.csv", "field_calendar.pdf"}
    return {file.made for file in kept.files}, {file.day for file in kept.files}


def test_it_is_made_once_and_again_where_it_must_be(tmp_path: Path, ledger: Ledger) -> None:
    """Left alone while nothing changed; same bytes where a file is gone; anew for a change or a day that passed."""
    first = date(2027, 2, 1)
    assert _keep(_request(tmp_path, "2027-02-01"), ledger, VISIT, LATER) == ({True}, {first})
    made = (tmp_path / "field_calendar.pdf").read_bytes()
    assert _keep(_request(tmp_path, "2027-02-02"), ledger, VISIT, LATER) == ({False}, {first})
    (tmp_path / "field_calendar.pdf").unlink()
    assert _keep(_request(tmp_path, "2027-02-03"), ledger, VISIT, LATER) == ({True}, {first})
    assert (tmp_path / "field_calendar.pdf").read_bytes() == made
    assert _keep(_request(tmp_path, "2027-02-04", "other"), ledger, VISIT, LATER) == ({True}, {date(2027, 2, 4)})
    assert _keep(_request(tmp_path, "2027-02-04", "other"), ledger, VISIT) == ({True}, {date(2027, 2, 4)})
    known = ledger.shared(FIELD_CALENDAR.name)
    assert known is not None
    after = known.holds_until.replace(day=known.holds_until.day + 1)
    assert _keep(_request(tmp_path, after.isoformat(), "other"), ledger, VISIT) == ({True}, {after})


def test_a_fault_is_said_and_leaves_what_stands(tmp_path: Path, ledger: Ledger) -> None:
    """A worker that fails costs the calendar of one night, and the next tries again."""
    _keep(_request(tmp_path, "2027-02-01"), ledger, VISIT)
    before = (tmp_path / "field_calendar.csv").read_bytes()
    broken = replace(FIELD_CALENDAR, job="tests.batch.jobs:nothing_of_that_name")
    kept = keep_shared(_request(tmp_path, "2027-02-01"), broken, ledger, lambda: False, visits=[LATER])
    assert kept.files == ()
    assert kept.fault.startswith("the field calendar could not be made: ")
    assert (tmp_path / "field_calendar.csv").read_bytes() == before
    assert _keep(_request(tmp_path, "2027-02-01"), ledger, LATER)[0] == {True}


def test_nothing_to_show_leaves_no_file_and_is_remembered(tmp_path: Path, ledger: Ledger) -> None:
    """Laboratory checks of a book without check samples: no file, and no worker on the next night."""
    book = write_book(tmp_path / "book")
    kept = keep_shared(_request(tmp_path / "out", "2027-02-01", book=book), LABORATORY_CHECKS, ledger, lambda: False)
    assert (kept.files, kept.fault) == ((), "")
    never = replace(LABORATORY_CHECKS, job="tests.batch.jobs:nothing_of_that_name")
    assert keep_shared(_request(tmp_path / "out", "2027-02-02", book=book), never, ledger, lambda: False) == kept


def test_laboratory_checks_rest_on_their_records(tmp_path: Path, ledger: Ledger) -> None:
    """One document, left alone while the records stand, made anew when they change."""
    request = _request(tmp_path, "2027-02-15")
    days = [
        [(file.file, file.made) for file in keep_shared(request, LABORATORY_CHECKS, ledger, _never, further=one).files]
        for one in ("a", "a", "b")
    ]
    assert days == [[("laboratory_checks.pdf", made)] for made in (True, False, True)]


def _never() -> bool:
    """Return that nobody asks for an end."""
    return False
