"""When reports are made again, where they lie, and what takes them away."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.ledger import Ledger, open_ledger
from soilrota.batch.record_files import signature_file
from soilrota.batch.report_step import ReportRequest, keep_reports, remove_reports
from tests.batch.report_jobs import FAILS, PLAIN

DRAFT, SIGNED = "drafts/anvil-creek/farm_report-home.pdf", "clients/anvil-creek/farm_report-home.pdf"


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """Return an open ledger."""
    with open_ledger(tmp_path / "ledger.sqlite") as opened:
        yield opened


class Nights:
    """Runs the step again and again over one book."""

    def __init__(self, root: Path, ledger: Ledger) -> None:
        self.root, self.out, self.ledger = root, root / "out", ledger
        self.says("a draft")

    def says(self, text: str) -> None:
        """Let the report say something."""
        (self.root / "says.txt").write_text(text)

    def keep(
        self, day: str, inputs: str = "files", job: str = PLAIN, *, stop: bool = False
    ) -> tuple[dict[str, tuple[bool, date]], tuple[str, ...]]:
        """Run the step; return its files, whether made and their date, and the faults."""
        request = ReportRequest(self.root, self.out, date.fromisoformat(day), "engine", 30, 1, 60.0, 1024, job)
        files, faults = keep_reports(request, {"anvil-creek": inputs}, self.ledger, lambda: stop)
        return {one.file: (one.made, one.day) for one in files}, faults

    def there(self) -> list[str]:
        """Return the files of the output folder."""
        return sorted(one.relative_to(self.out).as_posix() for one in self.out.rglob("*") if one.is_file())


@pytest.fixture
def nights(tmp_path: Path, ledger: Ledger) -> Nights:
    """Return a book's nights."""
    return Nights(tmp_path, ledger)


def test_left_alone_until_something_changes(nights: Nights) -> None:
    """Dated by the night on which what it says changed; the same bytes where the file is gone."""
    first = date(2027, 2, 1)
    assert nights.keep("2027-02-01") == ({DRAFT: (True, first)}, ())
    content = (nights.out / DRAFT).read_bytes()
    assert nights.keep("2027-02-02") == ({DRAFT: (False, first)}, ())
    (nights.out / DRAFT).unlink()
    assert nights.keep("2027-02-03") == ({DRAFT: (True, first)}, ())
    assert (nights.out / DRAFT).read_bytes() == content
    assert nights.keep("2027-02-04", "other files") == ({DRAFT: (False, first)}, ()), "it says the same"
    nights.says("another draft")
    assert nights.keep("2027-02-05", "other files") == ({DRAFT: (False, first)}, ()), "nobody looked"
    assert nights.keep("2027-02-20", "other files") == ({DRAFT: (True, date(2027, 2, 20))}, ()), "its time was over"


def test_a_draft_never_lies_among_the_clients_documents(nights: Nights) -> None:
    """Signed it moves there; whatever takes the signature away takes it out again."""
    nights.keep("2027-02-01")
    assert nights.there() == [DRAFT]
    nights.says("signed by somebody")
    signatures = signature_file(nights.root, "anvil-creek")
    signatures.parent.mkdir(parents=True)
    signatures.write_text("a line")
    assert nights.keep("2027-02-02") == ({SIGNED: (True, date(2027, 2, 2))}, ())
    assert nights.there() == [SIGNED]
    nights.says("a draft")
    assert nights.keep("2027-02-03", "a result changed") == ({DRAFT: (True, date(2027, 2, 3))}, ())
    assert nights.there() == [DRAFT]


def test_what_is_not_to_stand_goes(nights: Nights) -> None:
    """A farm without a report any more, and a client that left the book."""
    nights.keep("2027-02-01")
    nights.says("")
    assert nights.keep("2027-02-02", "fewer farms") == ({}, ())
    assert nights.there() == []
    nights.says("a draft")
    nights.keep("2027-02-03", "more farms")
    remove_reports(nights.out, nights.ledger, {"someone-else": ()})
    assert nights.there() == [DRAFT]
    remove_reports(nights.out, nights.ledger, {"anvil-creek": ()})
    assert nights.there() == []


def test_a_fault_costs_one_client_and_is_said(nights: Nights) -> None:
    """The earlier report stands, and the next night tries again."""
    nights.keep("2027-02-01")
    files, (fault,) = nights.keep("2027-02-02", "other files", FAILS)
    assert files == {}
    assert fault.startswith("the farm reports of anvil-creek could not be made: ")
    assert nights.there() == [DRAFT]
    nights.says("another draft")
    assert nights.keep("2027-02-03", "other files")[0] == {DRAFT: (True, date(2027, 2, 3))}


def test_a_night_that_ends_begins_no_report(nights: Nights) -> None:
    """Nothing is made."""
    assert nights.keep("2027-02-01", stop=True) == ({}, ())
    assert not nights.out.exists()
