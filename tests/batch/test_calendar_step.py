"""When the field calendar is made again, and when it is left alone."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.calendar_step import CalendarRequest, keep_calendar
from soilrota.batch.ledger import Ledger, open_ledger
from tests.batch.test_calendar_work import LATER, VISIT
from tests.documents.made import BOOK


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """Return an open ledger."""
    with open_ledger(tmp_path / "ledger.sqlite") as opened:
        yield opened


def _request(out: Path, day: str, rests_on: str = "shared", job: str = "") -> CalendarRequest:
    """Return what a night asks for."""
    more = {"job": job} if job else {}
    return CalendarRequest(BOOK, out, date.fromisoformat(day), (rests_on, "engine"), 60.0, 1024, **more)


def _keep(request: CalendarRequest, ledger: Ledger, *visits: dict[str, str]) -> tuple[set[bool], set[date]]:
    """Run the step; return whether its files were made, and their dates."""
    files, fault = keep_calendar(request, visits, ledger, lambda: False)
    assert fault == ""
    assert {file.file for file in files} == {"field_calendar.csv", "field_calendar.pdf"}
    return {file.made for file in files}, {file.day for file in files}


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
    known = ledger.calendar()
    assert known is not None
    after = known.holds_until.replace(day=known.holds_until.day + 1)
    assert _keep(_request(tmp_path, after.isoformat(), "other"), ledger, VISIT) == ({True}, {after})


def test_a_fault_is_said_and_leaves_what_stands(tmp_path: Path, ledger: Ledger) -> None:
    """A worker that fails costs the calendar of one night, and the next tries again."""
    _keep(_request(tmp_path, "2027-02-01"), ledger, VISIT)
    before = (tmp_path / "field_calendar.csv").read_bytes()
    job = "tests.batch.jobs:nothing_of_that_name"
    files, fault = keep_calendar(_request(tmp_path, "2027-02-01", job=job), [LATER], ledger, lambda: False)
    assert files == ()
    assert fault.startswith("the field calendar could not be made: ")
    assert (tmp_path / "field_calendar.csv").read_bytes() == before
    assert _keep(_request(tmp_path, "2027-02-01"), ledger, LATER)[0] == {True}
