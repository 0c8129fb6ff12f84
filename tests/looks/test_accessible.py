"""Every kind of document keeps PDF/UA-1, in every language; a checker that others wrote says so."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pypdf
import pytest

from soilrota.documents import (
    pack_view,
    render_field_pack,
    render_programme,
    render_report,
    report_view,
)
from soilrota.documents.labels import LabelIdentity, label_sheets, labels_title, labels_view, render_labels
from soilrota.documents.pdf import write_pdf
from soilrota.language.catalogues import languages
from soilrota.model.client import Client
from tests.documents.made import AS_OF, BOOK, example
from tests.documents.packs import a_pack
from tests.documents.reports import advised
from tests.language.documents import practice_pages, programme
from tests.looks.accessible import faults


def _client(client: Client, language: str) -> Client:
    """Return a client that speaks a language."""
    return replace(client, language=language)


def _programme(language: str) -> bytes:
    return render_programme(programme(_client(example("cobb-hill-dairy"), language)), AS_OF, BOOK)


def _pack(language: str) -> bytes:
    pack = a_pack("brolga-plains", zones=2)
    return render_field_pack(pack_view(replace(pack, client=_client(pack.client, language))), AS_OF, BOOK)


def _labels(language: str) -> bytes:
    pack = a_pack("brolga-plains", zones=2)
    pack = replace(pack, client=_client(pack.client, language))
    identity = LabelIdentity(labels_title(pack), pack.client.practice.name, language, AS_OF)
    return render_labels(labels_view(pack), next(iter(label_sheets().values())), identity)


def _report(language: str) -> bytes:
    found = advised()
    found = replace(found, client=_client(found.client, language))
    return render_report(report_view(found, found.client.farms[0]), AS_OF, BOOK)


def _of_practice(name: str) -> Callable[[str], bytes]:
    return lambda language: write_pdf(dict(practice_pages(language))[name], AS_OF, {"logo.png": BOOK / "logo.png"})


DOCUMENTS: dict[str, Callable[[str], bytes]] = {
    "programme": _programme,
    "field pack": _pack,
    "labels": _labels,
    "farm report": _report,
    "laboratory checks": _of_practice("checks"),
    "field calendar": _of_practice("calendar"),
}


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
