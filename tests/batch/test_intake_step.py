"""The step of the intake: files in the order of their names, each put in place once, the inbox emptied last."""

from __future__ import annotations

import errno
import os
from datetime import date
from math import inf
from pathlib import Path

import pytest

from soilrota.batch.inbox import Dropped
from soilrota.batch.intake_step import IntakeRequest, take_inbox
from soilrota.batch.intake_values import IntakeReport
from soilrota.batch.received import received_of
from tests.acceptance.intake_book import drop, inbox, received
from tests.batch.intake_jobs import SIMPLE


def _request(book: Path) -> IntakeRequest:
    """Return a request that looks at files by the simple job."""
    return IntakeRequest(
        root=book,
        as_of=date(2027, 2, 15),
        rests_on=("shared", "engine"),
        clients=("alder-farm", "birch-farm"),
        quiet_s=0,
        jobs=2,
        deadline_s=30,
        memory_mb=1024,
        now=lambda: inf,
        wait=lambda _: None,
        mark=lambda *_: None,
        job=SIMPLE,
    )


def _take(book: Path) -> IntakeReport:
    """Take the inbox in."""
    return take_inbox(_request(book), lambda: False)


def _all(book: Path, client: str) -> list[str]:
    """Return the names of the files whose results a client has, in the order in which they came."""
    return (book / "records" / "results" / client / "all.csv").read_text(encoding="utf-8").splitlines()


def test_files_of_one_client_come_one_after_the_other(book: Path) -> None:
    """Each rests on what the one before it, by name, brought; a file of two clients keeps its place for both."""
    drop(book, "3", b"alder-farm\n3")
    drop(book, "1", b"alder-farm\n1")
    drop(book, "2", b"birch-farm\nalder-farm\n2")
    drop(book, "4", b"birch-farm\n4")
    report = _take(book)
    assert report.faults == ()
    assert _all(book, "alder-farm") == ["1", "2", "3"]
    assert _all(book, "birch-farm") == ["2", "4"]
    assert [(entry.record.name, entry.taken, entry.fresh) for entry in report.files] == [
        ("1", 2, True),
        ("2", 3, True),
        ("3", 2, True),
        ("4", 2, True),
    ]
    assert inbox(book) == []


def test_a_fault_costs_one_file(book: Path) -> None:
    """It stays in the inbox and is told of with its trace; the others come in."""
    drop(book, "bad", b"fault")
    drop(book, "good", b"alder-farm")
    report = _take(book)
    assert inbox(book) == ["bad"]
    assert report.faults[0].startswith("bad was not taken in: a fault of the program: RuntimeError: a line says so")
    assert "Traceback" in report.faults[1]
    assert list(received(book)) == ["good"]


def test_a_file_that_cannot_be_read_costs_one_file(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is told of, and tried again; the others come in."""
    drop(book, "good", b"alder-farm")
    gone = Dropped(book / "inbox" / "gone", "gone", "")
    good = Dropped(book / "inbox" / "good", "good", "")
    monkeypatch.setattr("soilrota.batch.intake_step.look_through", lambda *_: ((gone, good), ()))
    report = _take(book)
    assert report.faults == (
        f"gone was not taken in: it cannot be read ({os.strerror(errno.ENOENT)}); it is tried again",
    )
    assert list(received(book)) == ["good"]


def test_a_row_that_came_back_mended_is_settled(book: Path) -> None:
    """It leaves the list of those that wait and its table, and is not looked at again beside its mended form."""
    drop(book, "first", b"wait\nwait")
    _take(book)
    record = next(iter(received(book).values()))
    (book / "clients" / "alder-farm" / "client.yaml").write_text("changed", encoding="utf-8")
    drop(book, "mended", f"mends {record['digest'][:12]}:1".encode())
    report = _take(book)
    first = received_of(book, record["digest"])
    assert first is not None
    assert first.settled == {1: f"mended and accepted as {report.files[-1].record.short}:1"}
    assert list(first.reasons) == [2]
    (aside,) = (book / "records" / "set_aside").iterdir()
    assert aside.read_text(encoding="utf-8-sig").count("because,x") == 1


def test_what_waits_is_looked_at_again_where_the_book_changed_only(book: Path) -> None:
    """A file that waits, or was refused, is ordered again when a client's file changed."""
    drop(book, "waits", b"wait\nalder-farm")
    drop(book, "refused", b"refuse")
    assert len(_take(book).files) == 2
    assert [entry.record.name for entry in _take(book).files] == ["refused", "waits"], "the results are new"
    assert _take(book).files == ()
    (book / "clients" / "alder-farm" / "client.yaml").write_text("changed", encoding="utf-8")
    again = _take(book).files
    assert [(entry.record.name, entry.fresh, entry.taken) for entry in again] == [
        ("refused", False, 0),
        ("waits", False, 0),
    ]
    assert _all(book, "alder-farm") == ["waits"]


def test_nothing_more_is_begun_when_asked_to_stop(book: Path) -> None:
    """The bytes are safe, the file stays in the inbox, and the next intake takes it in."""
    drop(book, "1", b"alder-farm")
    report = take_inbox(_request(book), lambda: True)
    assert (report.files, inbox(book)) == ((), ["1"])
    assert len(_take(book).files) == 1


def test_a_file_of_another_night_that_took_its_place_stays(book: Path) -> None:
    """Where other bytes came under its name in the meantime they are left for the next night."""
    path = drop(book, "1", b"alder-farm")

    def swap(*_: object) -> bool:
        path.write_bytes(b"birch-farm")
        return False

    take_inbox(_request(book), swap)
    assert inbox(book) == ["1"]
    assert _all(book, "alder-farm") == ["1"]
