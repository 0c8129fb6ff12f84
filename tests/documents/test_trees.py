"""The fast reader of documents and the slow one read the same tree, and what only the slow one can read comes to it."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from xml.etree.ElementTree import Element

import pytest
import tinyhtml5
from hypothesis import given
from hypothesis import strategies as st
from weasyprint import HTML

from soilrota.documents import trees
from soilrota.documents.environments import ShippedHtml
from soilrota.documents.trees import document_of, tree_of
from soilrota.language.catalogues import languages
from tests.documents.every_kind import DOCUMENTS

#: The slow reader keeps how a name space was written, which no style looks at.
_WRITTEN = "{http://www.w3.org/2000/xmlns/}xmlns"
_PARTS = ("html", "head", "body", "section")


def slow_tree(html: str) -> Element:
    """Return the tree that the rules of HTML give."""
    tree: Element = tinyhtml5.parse(html, namespace_html_elements=False)
    return tree


def told(element: Element) -> Iterator[tuple[object, ...]]:
    """Yield all of a tree, but for white space between parts of a page, of which nothing is shown."""
    for one in element.iter():
        attributes = {name: value for name, value in one.attrib.items() if name != _WRITTEN}
        texts = (one.text or "", one.tail or "")
        yield one.tag, attributes, len(one), *(text.strip("\n") if one.tag in _PARTS else text for text in texts)


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("kind", DOCUMENTS)
def test_both_readers_read_the_same(kind: str, language: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every kind of document of shipped templates is read by the fast reader, and as the slow one would."""
    read: list[str] = []

    def document(html: str, assets: dict[str, object]) -> object:
        read.append(html)
        return document_of(html, assets)  # type: ignore[arg-type]

    monkeypatch.setattr(trees, "document_of", document)
    DOCUMENTS[kind](language)
    assert read
    for html in read:
        fast = tree_of(html)
        assert fast is not None
        assert list(told(fast)) == list(told(slow_tree(html)))


@given(st.text())
def test_any_text_of_a_client_is_read_alike(text: str) -> None:
    """What a client wrote, escaped, is the same text to both readers; what XML cannot carry goes to the slow one."""
    html = ShippedHtml(f"<html><head><title>t</title></head><body><p>a{escape(text)}b</p></body></html>")
    fast = tree_of(html)
    if fast is not None:
        assert list(told(fast)) == list(told(slow_tree(html)))


def test_what_is_not_ours_or_not_well_formed_is_read_slowly() -> None:
    """A practice's template may leave elements open; a shipped one that did would still be read."""
    well_formed = "<html><head><title>t</title></head><body><table><tr><td>1</td></tr></table></body></html>"
    assert type(document_of(well_formed, {})) is HTML
    assert document_of(well_formed, {}).etree_element.find(".//tbody") is not None
    assert type(document_of(ShippedHtml("<p>one<br>two"), {})) is HTML
    assert type(document_of(ShippedHtml("<p>\f</p>"), {})) is HTML


def test_a_document_keeps_what_the_library_keeps() -> None:
    """The library's own class gives a document no more and no less than ours."""
    html = "<html><head><title>t</title></head><body><p>one</p></body></html>"
    fast, slow = document_of(ShippedHtml(html), {}), document_of(html, {})
    assert (type(slow), isinstance(fast, HTML)) == (HTML, True)
    assert type(fast) is not HTML
    assert vars(fast).keys() == vars(slow).keys()
    assert (fast.base_url, fast.media_type, type(fast.url_fetcher)) == (
        slow.base_url,
        slow.media_type,
        type(slow.url_fetcher),
    )
    assert fast.write_pdf() == slow.write_pdf()
