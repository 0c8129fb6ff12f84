"""Analyses, methods, units and values against the glossary."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

TARGET = (
    "targets: [{{analyte: {analyte}, method: {method}, unit: {unit}, low: {low}, top_cm: 0, bottom_cm: 10,"
    " source: house}}]\n"
)
RESULTS = (
    "report,sampled,reported,farm,zone,protocol,bag,top_cm,bottom_cm,analyte,method,qualifier,value,unit,laboratory\n"
    "r1,2026-02-20,2026-03-05,home,hill,topsoil,B1,0,10,{analyte},{method},,{value},{unit},north-bench\n"
)


@pytest.mark.parametrize(
    ("words", "number", "code"),
    [
        ("phosphorus colwell mg/kg", 31, None),
        ("phosphorous colwell mg/kg", 31, "unknown-analyte"),
        ("phosphorus colwel mg/kg", 31, "unknown-method"),
        ("phosphorus walkley-black mg/kg", 31, "unknown-method"),
        ("phosphorus colwell ppm", 31, "wrong-unit"),
        ("ph cacl2 pH", 55, "value-not-possible"),
        ("ph cacl2 pH", 5.5, None),
    ],
)
def test_targets_and_results(book: Book, words: str, number: float, code: str | None) -> None:
    """Analyte, method, unit and value are checked in that order, for targets and results alike."""
    named = dict(zip(("analyte", "method", "unit"), words.split(), strict=True))
    book.add("client.yaml", TARGET.format(**named, low=number))
    book.write("records/results/anvil-creek/r1.csv", RESULTS.format(**named, value=number))
    assert [problem.code for problem in book.problems()] == ([code, code] if code else [])


@pytest.mark.parametrize("word", ["phosphorus.colwel", "phosphorus.kcl"])
def test_analyses_of_protocols(book: Book, word: str) -> None:
    """A protocol asks for analyses of the glossary; the nearest is named."""
    book.edit("protocols.yaml", "phosphorus.colwell", word)
    problem = book.only(shared=True)
    assert problem.code == "unknown-analysis"
    assert problem.mend.startswith("write phosphorus.")


def test_analyses_of_a_refinement(book: Book) -> None:
    """A client's refinement is checked where it writes analyses of its own."""
    book.add("client.yaml", "protocols: [{id: topsoil, based_on: topsoil, analyses: [ph.cacl2, ph.watr]}]\n")
    assert book.only().mend == "write ph.water"


def test_analytes_of_longer_waits(book: Book) -> None:
    """A longer wait of the practice names analytes of the glossary."""
    book.add("practice.yaml", "analysis_waits: [{class: lime, analytes: [ph, aluminum], months: 12, source: house}]\n")
    assert book.only(shared=True).mend == "write aluminium"
