"""From the text of a document to the tree that the PDF writer lays out.

The shipped templates are written so that the rules of XML and those of HTML read the same tree from them (every
element closed, every row in a `tbody`): expat reads it forty times faster than the writer's own reader, which takes a
tenth of the time of a document. What a practice's template makes, and what XML cannot carry, is read by the rules of
HTML.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element, ParseError, XMLParser

from cssselect2 import ElementWrapper
from weasyprint import HTML

from soilrota.documents.environments import ShippedHtml
from soilrota.documents.fetcher import BookFetcher

#: Before the name of a file of the book, in documents.
BASE = "book:"


def document_of(html: str, assets: dict[str, Path]) -> Any:
    """Return a document that the PDF writer lays out.

    Args:
        html: its text.
        assets: the files of the book that it may show, by name.
    """
    root = tree_of(html) if isinstance(html, ShippedHtml) else None
    fetcher = BookFetcher(assets)
    return HTML(string=html, base_url=BASE, url_fetcher=fetcher) if root is None else _Read(root, fetcher)


def tree_of(html: str) -> Element | None:
    """Return the tree of a text that is well-formed XML; None for any other."""
    parser = XMLParser()  # noqa: S314 - text of our own; nothing from outside is ever fetched
    try:
        parser.feed(html)
        root: Element = parser.close()
    except ParseError:
        return None
    return root


class _Read(HTML):  # type: ignore[misc]  # the library has no types
    """A document of which the tree is read already; what the library's own class keeps of a document, it keeps too."""

    def __init__(self, root: Element, fetcher: BookFetcher) -> None:
        self.base_url = BASE
        self.url_fetcher = fetcher
        self.media_type = "print"
        self.wrapper_element = ElementWrapper.from_html_root(root, content_language=None)
        self.etree_element = self.wrapper_element.etree_element
