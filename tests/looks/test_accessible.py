"""Every kind of document keeps PDF/UA-1, in every language; a checker that others wrote says so."""

from __future__ import annotations

import io
from functools import cache

import pypdf
import pytest

from soilrota.documents.pdf import write_pdf
from soilrota.language.catalogues import languages
from tests.documents.every_kind import DOCUMENTS
from tests.documents.made import AS_OF
from tests.looks.accessible import faults


@cache
def made(kind: str, language: str) -> bytes:
    """Return a document in a language."""
    return DOCUMENTS[kind](language)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("kind", DOCUMENTS)
def test_a_document_keeps_pdf_ua(kind: str, language: str) -> None:
    """No rule that a machine can check is broken; the document says its language and its title."""
    content = made(kind, language)
    assert faults(content) == []
    reader = pypdf.PdfReader(io.BytesIO(content))
    assert reader.trailer["/Root"]["/Lang"] == language
    assert reader.metadata is not None
    assert reader.metadata.title


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ("<h1>One</h1><h3>Three</h3>", "HEADING-NESTING"),
        ("<h1>One</h1><table><tr><td></td><th>A</th></tr><tr><td>1</td><td>2</td></tr></table>", "TABLE-HEADERS"),
    ],
)
def test_the_checker_finds_what_is_broken(body: str, rule: str) -> None:
    """A heading that skips a level, a table whose heads are not to be told; the writer refuses a nameless picture."""
    html = f"<html lang='en'><head><title>Faulty</title></head><body>{body}</body></html>"
    assert any(rule in one for one in faults(write_pdf(html, AS_OF, {})))
