"""Accepted findings: who, of which sample, of which analyses, why."""

from __future__ import annotations

import pytest

from soilrota.files.schemas import shipped_schemas
from soilrota.model.result_findings import ResultRule
from tests.book.small_book import Book


def accepted(book: Book, words: str, rule: str = "history", reason: str = "Old yard.", by: str = "mara-ellis") -> None:
    """Add an accepted finding to the client's file."""
    book.add(
        "client.yaml",
        f'accepted_findings:\n  - {{{words}, rule: {rule}, reason: "{reason}", by: {by}}}\n',
    )


@pytest.mark.parametrize(
    ("words", "code", "mend"),
    [
        ("bag: A0001-C", None, ""),
        ("bag: A0001-C, analyses: [ph.cacl2]", None, ""),
        ("zone: home/hill, sampled: 2027-02-10", None, ""),
        ("report: r-1", "sample-not-named", "add bag"),
        ("zone: home/hill", "sample-not-named", "add sampled"),
        ("sampled: 2027-02-10", "sample-not-named", "add zone"),
        ("bag: A0001-C, zone: home/hill", "sample-named-twice", "keep one of the two"),
        ("bag: A0001-C, sampled: 2027-02-10", "sample-named-twice", "keep one of the two"),
        ("zone: home/hil, sampled: 2027-02-10", "unknown-zone", "write home/hill"),
        ("zone: home/hill, sampled: 1926-02-10", "year-not-possible", "correct the year"),
        ("bag: A0001-C, analyses: [ph.watr]", "unknown-analysis", "write ph.water"),
    ],
)
def test_the_sample_and_its_analyses(book: Book, words: str, code: str | None, mend: str) -> None:
    """The sample is named once, by what exists."""
    accepted(book, words)
    assert [(problem.code, problem.mend) for problem in book.problems()] == ([(code, mend)] if code else [])


def test_who_and_why(book: Book) -> None:
    """A person of the practice, and a reason in words."""
    accepted(book, "bag: A0001-C", by="mara-elis", reason="  ")
    problems = book.problems()
    assert [problem.code for problem in problems] == ["reason-missing", "unknown-person"]
    assert problems[1].mend == "write mara-ellis"
    assert {problem.place.line for problem in problems} == {book.line("client.yaml", "bag: A0001-C")}


def test_a_value_that_no_soil_has(book: Book) -> None:
    """It cannot be accepted, and the mend says what to do instead."""
    accepted(book, "bag: A0001-C", rule="hard-limit")
    problem = book.only()
    assert problem.code == "never-accepted"
    assert "set aside" in problem.mend


def test_an_empty_reason_or_an_unknown_rule(book: Book) -> None:
    """The schema refuses both."""
    accepted(book, "bag: A0001-C", rule="historry", reason="")
    assert len(book.problems()) == 2


def test_the_schema_knows_every_rule() -> None:
    """What can be found can be named."""
    schema = shipped_schemas().by_name["client.schema.json"]
    rule = schema["properties"]["accepted_findings"]["items"]["properties"]["rule"]
    assert rule["enum"] == [str(one) for one in ResultRule]
    assert all(str(one) in rule["description"] for one in ResultRule)
