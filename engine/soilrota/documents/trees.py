"""From the text of a document to the tree that the PDF writer lays out, and which of it needs styles.

The shipped templates are written so that the rules of XML and those of HTML read the same tree from them (every
element closed, every row in a `tbody`): expat reads it forty times faster than the writer's own reader. Nor do they
have notes at the foot of a page, markers but of list items, or styles that reach into pictures: the writer would look
for all of that at every element and every line of a picture. Sparing it takes a quarter off the time of a document, and
nothing off its pages. What a practice's template makes, and what XML cannot carry, is read by the rules of HTML, with
all that the writer knows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element, ParseError, XMLParser

from cssselect2 import ElementWrapper
from weasyprint import CSS, HTML
from weasyprint.html import UA, UA_COUNTER_STYLE

from soilrota.documents.environments import ShippedHtml
from soilrota.documents.fetcher import BookFetcher

#: Before the name of a file of the book, in documents.
BASE = "book:"
_PICTURE = "{http://www.w3.org/2000/svg}svg"
_INSIDE = "svg > * { display: none }"
_NOTES = re.compile(r"^::(?:footnote|note)-[a-z]+ \{[^}]*\}\n", re.MULTILINE)
_MARKERS = re.compile(r"^::marker \{", re.MULTILINE)


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
        self.wrapper_element = _Styled.from_html_root(root, content_language=None)
        self.etree_element = self.wrapper_element.etree_element

    def _ua_stylesheets(self, forms: bool = False) -> list[CSS]:
        """Return the styles that every document begins with."""
        return super()._ua_stylesheets(forms) if forms else [_first_styles()]


class _Styled(ElementWrapper):  # type: ignore[misc]  # the library has no types
    """An element that styles are looked up for; what is inside a picture is the business of whoever draws it."""

    def iter_children(self) -> Iterator[Any]:
        """Yield the elements inside."""
        if self.parent is None or self.parent.etree_element.tag != _PICTURE:
            yield from super().iter_children()


@cache
def _first_styles() -> CSS:
    """Return the library's first styles without those of notes, and of markers only those of list items.

    What is inside a picture has no boxes: it is drawn with the picture.
    """
    spared = _MARKERS.sub("li::marker {", _NOTES.sub("", UA))
    return CSS(string=f"{spared}\n{_INSIDE}", counter_style=UA_COUNTER_STYLE)
