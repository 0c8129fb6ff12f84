"""Answers are put in place first and remembered second."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.ledger import ClientRecord, Ledger, open_ledger
from soilrota.batch.settling import Settler
from soilrota.batch.values import Answer, Cause, DocumentAnswer, Failure, KnownDocument, Outcome
from soilrota.problems import Place, error

DAY = date(2027, 2, 15)
KNOWN = KnownDocument("view", DAY, "digest")
GOOD = Answer("a", "files", date(2027, 2, 20), ({"zone": "flat"},), (DocumentAnswer("p.pdf", KNOWN, b"x"),), (), 0.1)
WRONG = error("unknown-key", Place("clients/a/client.yaml", 2, 1), "nmae", "name", "rename it")


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """Return an open ledger."""
    with open_ledger(tmp_path / "ledger.sqlite") as opened:
        yield opened


def _settler(ledger: Ledger, out: Path) -> Settler:
    """Return a settler that knows what the ledger knows."""
    return Settler(out, DAY, "engine", ledger, ledger.clients())


def test_a_good_answer_is_written_and_remembered(ledger: Ledger, out: Path) -> None:
    """The file lies there, the ledger knows it, and the client is made."""
    assert _settler(ledger, out).settle(GOOD).outcome is Outcome.MADE
    assert (out / "clients" / "a" / "p.pdf").read_bytes() == b"x"
    expected = ClientRecord(
        "a", "files", "engine", DAY, date(2027, 2, 20), Outcome.MADE, ({"zone": "flat"},), (), {"p.pdf": KNOWN}
    )
    assert ledger.clients() == {"a": expected}


def test_an_answer_with_errors_keeps_what_was_known(ledger: Ledger, out: Path) -> None:
    """Earlier documents and rows stay; the errors are remembered, on any date."""
    _settler(ledger, out).settle(GOOD)
    entry = _settler(ledger, out).settle(Answer("a", "other", None, (), (), (WRONG,), 0.1))
    assert (entry.outcome, entry.problems, entry.tasks) == (Outcome.PROBLEMS, (WRONG,), 1)
    record = ledger.clients()["a"]
    assert (record.inputs, record.rows, record.documents) == ("other", ({"zone": "flat"},), {"p.pdf": KNOWN})
    assert record.holds_until == date.max
    assert (out / "clients" / "a" / "p.pdf").exists()


def test_a_document_that_is_no_longer_made_goes(ledger: Ledger, out: Path) -> None:
    """A good answer names all documents of its client: one that it lacks leaves the folder and the ledger."""
    both = replace(GOOD, documents=(*GOOD.documents, DocumentAnswer("r.csv", KNOWN, b"y")))
    _settler(ledger, out).settle(both)
    _settler(ledger, out).settle(GOOD)
    assert [path.name for path in (out / "clients" / "a").iterdir()] == ["p.pdf"]
    assert set(ledger.clients()["a"].documents) == {"p.pdf"}


def test_a_failure_changes_nothing(ledger: Ledger, out: Path) -> None:
    """The ledger stays as it was, so that the next night tries again."""
    entry = _settler(ledger, out).settle(Failure("a", Cause.CRASHED, "its worker ended", tries=2))
    assert (entry.outcome, entry.cause, entry.tries) == (Outcome.FAILED, Cause.CRASHED, 2)
    assert ledger.clients() == {}


def test_what_cannot_be_written_is_not_remembered(ledger: Ledger, out: Path) -> None:
    """A file where a folder should be: the client failed, the night is told to end, the ledger claims nothing."""
    out.write_text("a file", encoding="utf-8")
    settler = _settler(ledger, out)
    entry = settler.settle(GOOD)
    assert (entry.outcome, entry.cause) == (Outcome.FAILED, Cause.NOT_WRITTEN)
    assert len(settler.faults) == 1
    assert ledger.clients() == {}
