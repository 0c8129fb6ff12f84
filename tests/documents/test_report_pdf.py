"""The report as PDF, read back: tags, words, alternatives, the draft on every page."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from soilrota.documents import render_report, report_view
from tests.documents.made import AS_OF, BOOK
from tests.documents.reports import SIGNED, grounds
from tests.documents.test_pdf import reader, structure, text_of

NAME = "hazel-rigg"


@cache
def report(name: str = NAME, *, signed: bool = False) -> bytes:
    """Return the report of the first farm of an example client."""
    of_client = grounds(name)
    of_client = replace(of_client, sign=SIGNED) if signed else of_client
    return render_report(report_view(of_client, of_client.client.farms[0]), AS_OF, BOOK)


def test_it_says_what_it_is() -> None:
    """Title, author, language, tagging and the PDF/UA mark."""
    found = reader(report())
    assert found.metadata is not None
    assert found.metadata.title == "Farm report: Hazel Rigg"
    assert found.metadata.author == "Merrow and Tarn Soil Practice"
    root = found.trailer["/Root"]
    assert root["/Lang"] == "en-GB"
    assert root["/MarkInfo"]["/Marked"]
    assert b"pdfuaid" in root["/Metadata"].get_object().get_data()


def test_tags_tables_and_alternatives() -> None:
    """Headings, tables with their headers, a text for every picture."""
    elements = structure(reader(report()).trailer["/Root"]["/StructTreeRoot"])
    kinds = [element.get("/S") for element in elements]
    for kind in ("/H1", "/H2", "/H3", "/Table", "/TH", "/TD", "/L", "/LI", "/Figure"):
        assert kind in kinds
    figures = [element for element in elements if element.get("/S") == "/Figure"]
    alternatives = [str(element.get("/Alt", "")).strip() for element in figures]
    assert all(alternatives)
    assert any(words.startswith("Map of Hazel Rigg by pH (water), 0–15 cm.") for words in alternatives)
    assert any(words.startswith("Olsen P (by volume), 0–15 cm: ") for words in alternatives)


def test_every_value_is_on_a_page() -> None:
    """As the view has it."""
    words = text_of(report())
    of_client = grounds(NAME)
    for zone in report_view(of_client, of_client.client.farms[0]).zones:
        assert zone.name in words
        for part in zone.parts:
            for row in part.results:
                assert row.value in words
                assert " ".join(row.meaning.split()[:4]) in words


@pytest.mark.parametrize("name", [NAME, "anvil-creek"])
def test_a_draft_says_so_on_every_page(name: str) -> None:
    """With who must sign."""
    for page in reader(report(name)).pages:
        text: Any = page.extract_text()
        assert "DRAFT · not signed" in text
        assert "must sign" in text


def test_signed_no_page_says_draft() -> None:
    """And the block names who signed, with qualification and date."""
    words = text_of(report(signed=True))
    assert "draft" not in words.casefold()
    assert "Signed by Mara Ellis, Agronomist, on 10 February 2027." in words


def test_the_same_bytes() -> None:
    """For the same view and date."""
    of_client = grounds(NAME)
    again = render_report(report_view(of_client, of_client.client.farms[0]), AS_OF, BOOK)
    assert again == report()
