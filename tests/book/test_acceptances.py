"""Accepted findings of the client's file."""

from __future__ import annotations

from datetime import date

from soilrota.book.acceptances import build_acceptances
from soilrota.model.result_findings import ResultRule
from tests.book.small_book import Book
from tests.book.written import written

LEAST = {"rule": "history", "reason": " Old yard. ", "by": "mara-ellis"}


def test_an_acceptance_with_everything() -> None:
    """All that is written reaches the model; what is not written is empty."""
    full = {**LEAST, "report": "r-1", "zone": "home/hill", "sampled": "2027-02-10", "analyses": ["ph.cacl2"]}
    first, second = build_acceptances(written({"accepted_findings": [full, {**LEAST, "bag": "A0001-C"}]}))
    value = first.value
    assert (value.report, value.bag, value.zone, value.sampled) == ("r-1", "", "home/hill", date(2027, 2, 10))
    assert (value.rule, value.analyses, value.by) == (ResultRule.HISTORY, ("ph.cacl2",), "mara-ellis")
    assert (value.reason, value.place.path) == ("Old yard.", "accepted_findings/0")
    assert (second.value.bag, second.value.sampled, second.value.analyses) == ("A0001-C", None, ())
    assert build_acceptances(written({})) == ()


def test_it_reaches_the_client(book: Book) -> None:
    """A client that is read carries its acceptances."""
    book.add(
        "client.yaml",
        "accepted_findings:\n  - {bag: A0001-C, rule: ph-pair, reason: Known., by: jo-finch}\n",
    )
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    (acceptance,) = client.acceptances
    assert (acceptance.rule, acceptance.by) == (ResultRule.PH_PAIR, "jo-finch")
    assert acceptance.place.line == book.line("client.yaml", "bag: A0001-C")
