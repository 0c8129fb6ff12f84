"""What a worker makes of a client, with the engine's own stages."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from soilrota.batch.outputs import PROGRAMME, document_file
from soilrota.batch.values import Answer, Order
from soilrota.batch.work import PracticeChangedError, make_client
from tests.acceptance.small_book import edit

DAY = date(2027, 2, 15)


def _order(book: Path, answer: Answer | None = None, as_of: date = DAY) -> Order:
    """Return an order for the first client, which knows an earlier answer."""
    known = {document.name: document.known for document in answer.documents} if answer else {}
    return Order(book, book.parent / "out", "alder-farm", as_of, known)


def test_a_document_is_made_once_and_keeps_its_date(book: Path) -> None:
    """Rendered at first; not while the file is right; again with the same bytes and date when it is missing."""
    first = make_client(_order(book))
    (document,) = first.documents
    assert document.content is not None
    assert document.content.startswith(b"%PDF")
    assert document.known.day == DAY
    assert document.known.output == sha256(document.content).hexdigest()
    assert first.holds_until is not None
    assert first.holds_until > DAY

    later = first.holds_until
    again = make_client(_order(book, first, later)).documents[0]
    assert again == document  # the file is missing, so it is made as it was

    path = document_file(book.parent / "out", "alder-farm", PROGRAMME)
    path.parent.mkdir(parents=True)
    path.write_bytes(document.content)
    kept = make_client(_order(book, first, later)).documents[0]
    assert kept == replace(document, content=None)


def test_the_same_is_said_on_every_day_that_an_answer_holds(book: Path) -> None:
    """Between the as-of date and the last day that it holds, view and rows are those of the first day."""
    answer = make_client(_order(book))
    assert answer.holds_until is not None
    for days in range((answer.holds_until - DAY).days + 1):
        path = document_file(book.parent / "out", "alder-farm", PROGRAMME)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(answer.documents[0].content or b"")
        later = make_client(_order(book, answer, DAY + timedelta(days=days)))
        assert later.documents[0].content is None
        assert later.rows == answer.rows


def test_a_document_that_speaks_of_today_holds_for_today_alone(book: Path) -> None:
    """A plan in the way: a way out names the days from today on, so the client is looked at every night."""
    row = "home,flat,lime,lime,2027-02-10,2027-02-10,planned,1000,\n"
    path = book / "clients" / "alder-farm" / "applications.csv"
    path.write_text(path.read_text(encoding="utf-8") + row, encoding="utf-8")
    days = {make_client(replace(_order(book), as_of=day)).documents[0].known.view for day in (DAY, DAY + timedelta(1))}
    answer = make_client(_order(book))
    assert answer.holds_until is not None
    assert (answer.holds_until == DAY) == (len(days) == 2)


def test_errors_make_no_document(book: Path) -> None:
    """A client with errors is answered with its problems alone."""
    edit(book / "clients" / "alder-farm" / "client.yaml", "area_ha: 9", "area_ha: nine")
    answer = make_client(_order(book))
    assert (answer.documents, answer.rows, answer.holds_until) == ((), (), None)
    assert [problem.place.line for problem in answer.problems] == [16]


def test_a_practice_that_breaks_during_the_night_is_said(book: Path) -> None:
    """Shared files that got errors since the night began fail the clients that come after."""
    edit(book / "practice.yaml", "role: adviser", "role: advisor")
    with pytest.raises(PracticeChangedError, match=r"practice\.yaml:5"):
        make_client(_order(book))


RESULTS = """\
report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory,issue
r1,2026-02-20,{reported},home,flat,topsoil,B1,0,10,phosphorus,colwell,,{value},mg/kg,bench,{issue}
"""


def _bench(book: Path) -> None:
    """Give the book a laboratory and a result of it."""
    (book / "laboratories").mkdir()
    bench = "name: Bench\ncountry: AU\nturnaround_working_days: 5\ncourier_days: 1\n"
    (book / "laboratories" / "bench.yaml").write_text(bench, encoding="utf-8")
    _result(book, "2026-03-06", 30, 1)


def _result(book: Path, reported: str, value: float, issue: int) -> None:
    """Write an issue of the report."""
    path = book / "records" / "results" / "alder-farm" / f"r1-{issue}.csv"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(RESULTS.format(reported=reported, value=value, issue=issue), encoding="utf-8")


def _words(answer: Answer) -> str:
    """Return the words of the programme."""
    content = answer.documents[0].content
    assert content is not None
    return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(content)).pages).split())


def test_a_corrected_report_is_told_for_four_hundred_days(book: Path) -> None:
    """The last day on which it is told is a day until which the answer holds at most."""
    _bench(book)
    assert "Corrected laboratory reports" not in _words(make_client(_order(book)))
    _result(book, "2026-03-20", 31, 2)
    answer = make_client(_order(book))
    last = date(2026, 3, 20) + timedelta(days=400)
    assert answer.holds_until is not None
    assert answer.holds_until <= last
    sentence = "Report r1, issue 2: Colwell P of Flat, 0–10 cm, is 31 mg/kg and no longer 30 mg/kg."
    assert sentence in _words(answer)
    assert sentence in _words(make_client(_order(book, as_of=last)))
    assert "Corrected laboratory reports" not in _words(make_client(_order(book, as_of=last + timedelta(days=1))))


def test_check_samples_put_results_in_doubt(book: Path) -> None:
    """A laboratory that was off when it reported: the programme says so; of a later check the answer waits."""
    _bench(book)
    practice = book / "practice.yaml"
    material = (
        "check_materials:\n  - {id: loam, name: Loam, values: [{analysis: phosphorus.colwell, value: 30, sd: 2}]}\n"
    )
    practice.write_text(practice.read_text(encoding="utf-8") + material, encoding="utf-8")
    before = make_client(_order(book))
    values = book / "records" / "check_samples" / "bench.csv"
    values.parent.mkdir(parents=True)
    head = "laboratory,report,issue,bag,material,sent,received,reported,analyte,method,qualifier,value,unit,origin\n"
    row = "bench,{0},1,Z9000-W,loam,2026-02-20,,{1},phosphorus,colwell,,{2},mg/kg,\n"
    later = row.format("c2", "2027-02-18", "30")
    values.write_text(head + row.format("c1", "2026-03-01", "38") + later, encoding="utf-8")
    after = make_client(_order(book))
    assert after.inputs != before.inputs
    said = "measured the check sample Loam, reported on 1 March 2026, too high in Colwell P"
    assert said in _words(after)
    assert said not in _words(before)
    assert after.holds_until == date(2027, 2, 17)
