"""Plain text and HTML say the same, and nothing that a client wrote becomes markup."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest

from soilrota.delivery.message_view import Item, MessageView, Section
from soilrota.delivery.templates import message_html, message_text
from tests.delivery.year_of_nights import year

NASTY = "<script>alert(1)</script> & 'barn' {{ 7 * 7 }} {% raw %} \u202eabc \u05d0\u05d1"


class Words(HTMLParser):
    """Gathers the words of a page, and its elements."""

    def __init__(self) -> None:
        """Begin empty."""
        super().__init__()
        self.words: list[str] = []
        self.elements: set[str] = set()
        self.within: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element; what fetches or runs something must not stand in a message."""
        assert not {name for name, _ in attrs} & {"src", "href", "onclick", "onload", "background"}
        self.elements.add(tag)
        self.within.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Leave an element."""
        while self.within and self.within.pop() != tag:
            pass

    def handle_data(self, data: str) -> None:
        """Note words of the body."""
        if "title" not in self.within:
            self.words += data.split()


def words_of(html: str) -> list[str]:
    """Return the words of a page."""
    parser = Words()
    parser.feed(html)
    parser.close()
    assert parser.elements <= {"html", "head", "meta", "title", "body", "div", "p", "h2", "strong", "span"}
    return parser.words


def plain_words(text: str) -> list[str]:
    """Return the words of a plain message, its rules and bullets apart."""
    return [word for word in text.split() if word != "*" and set(word) != {"-"}]


def test_text_and_html_of_a_year_say_the_same() -> None:
    """Word for word, every message of the year."""
    messages = [message for some in year().messages.values() for message in some]
    for message in messages:
        assert plain_words(message.text) == words_of(message.html), message.subject
        assert max(map(len, message.text.splitlines())) <= 72
        assert "\n\n\n" not in message.text, message.subject
    assert len(messages) > 50


@pytest.mark.parametrize("contact", ["", "The office"])
def test_what_a_client_wrote_is_text(contact: str) -> None:
    """Markup and template marks in names come out as they were written."""
    section = Section(NASTY, (Item(NASTY, (NASTY,), urgent=True),))
    view = MessageView(
        "en-GB", NASTY, f"Hello {NASTY},", (section,), (NASTY,), NASTY, NASTY, contact, "1 February 2027"
    )
    html = message_html(view)
    assert "<script" not in html
    assert words_of(html).count("<script>alert(1)</script>") == 7
    assert message_text(view).count("{{ 7 * 7 }}") == 7
