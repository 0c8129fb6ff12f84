"""What a worker makes of the reports of one client: which farms, dated when, signed or not."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from pathlib import Path

import pypdf
import pytest

from soilrota.batch.report_values import ReportOrder
from soilrota.batch.report_work import ReportFaultError, make_reports
from soilrota.batch.signing_off import SignRequest, propose_signature, write_signature
from soilrota.files import replace_file
from tests.acceptance.signed_book import CLIENT, DAY, make_signable, results_file
from tests.acceptance.small_book import edit

DRAFT, SIGNED = f"drafts/{CLIENT}/farm_report-home.pdf", f"clients/{CLIENT}/farm_report-home.pdf"
NOTES = "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag\n"


@pytest.fixture
def order(book: Path, out: Path) -> ReportOrder:
    """Return an order for a client with results."""
    return ReportOrder(make_signable(book), out, CLIENT, date.fromisoformat(DAY), wait_days=30)


def sign(order: ReportOrder) -> None:
    """Sign the report of the client."""
    request = SignRequest(order.root, CLIENT, "ann-lee", order.as_of, "2027-03-15T00:00:00")
    write_signature(request, propose_signature(request, lambda _: order.as_of))


def note(order: ReportOrder, day: str) -> None:
    """Write down that a bag was taken of which nothing came back."""
    text = f"{NOTES}{day},home,flat,topsoil,0,10,30,moist,Ned,\n"
    (order.root / "clients" / CLIENT / "field_notes.csv").write_text(text, encoding="utf-8")


def words(content: bytes | None) -> str:
    """Return the words of a PDF."""
    return " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content or b"")).pages)


def test_a_draft_until_it_is_signed(order: ReportOrder) -> None:
    """Then it lies among the client's documents and says who signed; one change, and it is a draft again."""
    (draft,) = make_reports(order).reports
    assert draft.file == DRAFT
    assert "must sign" in words(draft.content)
    sign(order)
    (signed,) = make_reports(replace(order, known={DRAFT: draft.known})).reports
    assert signed.file == SIGNED
    assert "Signed by Ann Lee, Agronomist, on 15 March 2027." in words(signed.content)
    edit(results_file(order.root), "4.6", "4.7")
    (again,) = make_reports(order).reports
    assert again.file == DRAFT
    assert "Since then: " in words(again.content)


def test_the_same_view_keeps_its_date_and_its_file(order: ReportOrder) -> None:
    """Rendered again, with its old date, only where the file is gone."""
    (first,) = make_reports(order).reports
    later = replace(order, known={DRAFT: first.known}, as_of=date(2027, 3, 16))
    (gone,) = make_reports(later).reports
    assert (gone.known, gone.content) == (first.known, first.content)
    replace_file(order.out / DRAFT, first.content or b"")
    (there,) = make_reports(later).reports
    assert (there.known, there.content) == (first.known, None)


def test_a_first_report_waits_for_bags(order: ReportOrder) -> None:
    """Until the waiting time is over; then it says what is missing. One that was made before is not held back."""
    note(order, "2027-03-10")
    waiting = make_reports(order)
    assert waiting.reports == ()
    assert waiting.holds_until == date(2027, 4, 9)
    (late,) = make_reports(replace(order, as_of=date(2027, 4, 10))).reports
    assert "sampled on 10 March 2027: the results have not come back" in words(late.content)
    assert make_reports(replace(order, at_once=True)).reports
    assert make_reports(replace(order, known={DRAFT: late.known})).reports


def test_no_results_no_report(order: ReportOrder) -> None:
    """Nor for a farm that was not asked for."""
    assert make_reports(replace(order, farms=("elsewhere",))).reports == ()
    assert make_reports(replace(order, client="birch-farm")).reports == ()


def test_errors_of_the_book_are_a_fault(order: ReportOrder) -> None:
    """The night says so for this client."""
    edit(order.root / "clients" / CLIENT / "client.yaml", "hemisphere: southern", "hemisphere: eastern")
    with pytest.raises(ReportFaultError, match="got errors during the night"):
        make_reports(order)
    edit(order.root / "practice.yaml", "name:", "nmae:")
    with pytest.raises(ReportFaultError, match="all clients share"):
        make_reports(order)
