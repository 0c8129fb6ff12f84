"""The fast reader of documents and the slow one read the same tree, and what only the slow one can read comes to it."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import pytest
import tinyhtml5
from hypothesis import given
from hypothesis import strategies as st
from weasyprint import HTML
from weasyprint.html import UA

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
    """Every kind of document of shipped templates is the same tree to both, and the same file from both."""
    read: list[str] = []

    def slowly(html: str, assets: dict[str, Path]) -> Any:
        read.append(html)
        return document_of(str(html), assets)

    fast = DOCUMENTS[kind](language)
    monkeypatch.setattr(trees, "document_of", slowly)
    assert DOCUMENTS[kind](language) == fast
    assert read
    for html in read:
        assert isinstance(html, ShippedHtml)
        tree = tree_of(html)
        assert tree is not None
        assert list(told(tree)) == list(told(slow_tree(html)))


def test_what_is_spared_is_spared() -> None:
    """The library's first styles have what is left out of them, and only list items have markers."""
    assert len(trees._NOTES.findall(UA)) == 5
    assert len(trees._MARKERS.findall(UA)) == 1
    html = "<html><head><title>t</title></head><body><ul><li>one</li></ul><svg xmlns='{}'><g/></svg></body></html>"
    document = document_of(ShippedHtml(html.format("http://www.w3.org/2000/svg")), {})
    found = [element.local_name for element in document.wrapper_element.iter_subtree()]
    assert found == ["html", "head", "title", "body", "ul", "li", "svg", "g"]
    assert b"%PDF" in document.write_pdf()


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
