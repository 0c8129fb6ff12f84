"""Reminders in a night: once, committed before anything leaves; feeds beside the documents; faults cost no document."""

from __future__ import annotations

from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from soilrota.batch.edge import Edge
from soilrota.batch.ledger import Ledger, open_ledger
from soilrota.batch.remind_step import RemindRequest, close_night, is_worth_telling, keep_reminders
from soilrota.batch.sending import OUTBOX, messages_said
from soilrota.batch.values import Entry, NightReport, Outcome
from soilrota.delivery.outbox import open_outbox
from tests.example_book import copy_example

DAY = date(2027, 2, 15)
EDGE = Edge(lambda: datetime(2027, 2, 15, tzinfo=UTC), {}, lambda: False)


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return a copy of the example book."""
    return copy_example(tmp_path / "book")


def request(
    book: Path, day: date = DAY, *, clients: tuple[str, ...] = ("anvil-creek",), job: str = ""
) -> RemindRequest:
    """Return what a night asks for."""
    more = {"job": job} if job else {}
    return RemindRequest(
        root=book,
        out=book.parent / "out",
        as_of=day,
        rests_on=("shared", "engine"),
        clients={"anvil-creek": "inputs"},
        placed=({"visit": "anvil-creek/home/1", "day": "2027-02-16", "last": "2027-02-16", "person": "Ned Marlow",
                 "person_id": "ned-marlow"},),
        missing=(),
        reports={},
        deadline_s=60.0,
        memory_mb=1024,
        **more,
    )  # fmt: skip


def never() -> bool:
    """Return that nobody asks for an end."""
    return False


def test_everybody_is_told_once(book: Path) -> None:
    """The same night again writes nothing; the next night says only what is new; feeds stand from the first on."""
    with open_ledger(book / "records" / "ledger.sqlite") as ledger:
        first = keep_reminders(request(book), ledger, never)
        assert first.faults == ()
        assert first.messages
        assert {file.file for file in first.files} >= {"clients/anvil-creek/windows.ics", "visits-ned-marlow.ics"}
        again = keep_reminders(request(book), ledger, never)
        assert (again.messages, {file.made for file in again.files}) == ((), {False})
        (book.parent / "out" / "visits-ned-marlow.ics").unlink()
        rebuilt = keep_reminders(request(book), ledger, never)
        assert rebuilt.messages == ()
        assert (book.parent / "out" / "visits-ned-marlow.ics").is_file()
        said = messages_said(book)
        later = keep_reminders(request(book, date(2027, 2, 16)), ledger, never)
        new = {(one.person, one.event, one.day) for one in messages_said(book)[len(said) :]}
        assert not new & {(one.person, one.event, one.day) for one in said}
        assert later.faults == ()


def test_a_fault_is_said_and_nobody_is_told_twice(book: Path) -> None:
    """A worker that fails costs the reminders of one night."""
    with open_ledger(book / "records" / "ledger.sqlite") as ledger:
        broken = keep_reminders(request(book, job="tests.batch.jobs:nothing_of_that_name"), ledger, never)
        assert broken.faults
        assert "could not be made" in broken.faults[0]
        assert keep_reminders(request(book), ledger, never).messages


def test_an_unfit_outbox_costs_no_night(book: Path) -> None:
    """It is said, and nothing is written over it."""
    (book / OUTBOX).write_bytes(b"no outbox")
    with open_ledger(book / "records" / "ledger.sqlite") as ledger:
        assert "nobody was reminded" in keep_reminders(request(book), ledger, never).faults[0]


def test_the_morning_summary_is_made_once(book: Path) -> None:
    """To the office; the same night again makes no other; without a mail server nothing leaves."""
    report = NightReport(DAY, "now", 1.0, (Entry("anvil-creek", Outcome.MADE),), ())
    for _ in range(2):
        assert list(close_night(book, report, EDGE, sends=False)) == []
    with open_outbox(book / OUTBOX, to_read=True) as outbox:
        assert [entry.subject for entry in outbox.entries()] == ["The night of 15 February 2027: 1 made"]


def test_a_quiet_night_tells_nobody(book: Path) -> None:
    """Nothing made, nothing wrong: no summary, and no outbox is begun."""
    quiet = NightReport(DAY, "now", 1.0, (Entry("anvil-creek", Outcome.UNCHANGED),), ())
    assert not is_worth_telling(quiet)
    assert list(close_night(book, quiet, EDGE, sends=True)) == []
    assert not (book / OUTBOX).exists()


def test_a_server_that_is_not_there_is_said(book: Path) -> None:
    """The night's documents stand; the fault is in words."""
    practice = book / "practice.yaml"
    text = practice.read_text(encoding="utf-8")
    text = text.replace("mail:      #", "mail:\n  host: localhost\n  port: 9\n  #", 1)
    practice.write_text(text.replace('  quiet_hours: {begin: "21:00", end: "05:30"}\n', ""), encoding="utf-8")
    report = NightReport(DAY, "now", 1.0, (Entry("anvil-creek", Outcome.MADE),), ())
    faults = list(close_night(book, report, EDGE, sends=True))
    assert faults


def test_feeds_are_remembered(book: Path, tmp_path: Path) -> None:
    """What a feed gave out last is what the next state is reckoned from."""
    with open_ledger(book / "records" / "ledger.sqlite") as ledger:
        assert ledger.feeds() == {}
        keep_reminders(request(book), ledger, never)
        feeds = ledger.feeds()
    assert "client/anvil-creek" in feeds
    assert isinstance(ledger, Ledger)
    with open_ledger(book / "records" / "ledger.sqlite") as reopened:
        assert reopened.feeds() == feeds
