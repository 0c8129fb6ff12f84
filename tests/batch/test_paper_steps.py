"""Field packs and farm reports, one after the other."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.book_facts import read_book_facts
from soilrota.batch.fingerprints import client_digest
from soilrota.batch.ledger import ClientRecord, open_ledger
from soilrota.batch.paper_steps import PaperRequest, Papers, keep_papers
from soilrota.batch.values import Outcome
from tests.acceptance.signed_book import CLIENT, DAY, make_signable

AS_OF = date.fromisoformat(DAY)


def keep(book: Path, out: Path, *, stop: bool = False) -> Papers:
    """Run both steps for one client."""
    facts = read_book_facts(book, "engine")
    inputs = client_digest(book, CLIENT, facts.shared)
    record = ClientRecord(CLIENT, inputs, "engine", AS_OF, AS_OF, Outcome.MADE, (), ())
    with open_ledger(book / "records" / "ledger.sqlite") as ledger:
        return keep_papers(PaperRequest(book, out, AS_OF, facts, 1), [record], ledger, lambda: stop)


def test_reports_are_made_beside_packs(book: Path, out: Path) -> None:
    """And stand on the next night."""
    make_signable(book)
    made = keep(book, out)
    assert made.faults == ()
    assert made.packs == ()
    assert [(one.file, one.made) for one in made.reports] == [(f"drafts/{CLIENT}/farm_report-home.pdf", True)]
    assert [one.made for one in keep(book, out).reports] == [False]


def test_nothing_is_begun_where_the_night_ends(book: Path, out: Path) -> None:
    """Both are left for the next one."""
    assert keep(make_signable(book), out, stop=True) == Papers()


def test_a_folder_that_cannot_be_written_is_said(book: Path, out: Path) -> None:
    """As a fault, not as a traceback."""
    make_signable(book)
    out.mkdir()
    (out / "drafts").write_text("in the way")
    papers = keep(book, out)
    assert papers.reports == ()
    assert len(papers.faults) == 1
    assert "could not be written" in papers.faults[0]
    with pytest.raises(NotADirectoryError):
        (out / "drafts" / "x").read_bytes()
