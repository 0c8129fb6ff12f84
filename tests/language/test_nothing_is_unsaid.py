"""Every word of every document is said in the client's language, or comes from the book.

The documents are made in a language in which whatever is said stands between marks. What is left outside the marks is
held against the words of the book, of cited sources, and of units; any other word was not said.
"""

from __future__ import annotations

import calendar
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import lxml.html
import pytest
import yaml

from soilrota.documents import render_season_page
from soilrota.language import speech
from tests.documents.made import BOOK
from tests.documents.seasons import DAY, a_season
from tests.language import gathering
from tests.language.documents import pages

ROOT = Path(__file__).resolve().parents[2]
#: Signs, units and marks that all languages share; names of months come with the days, which Babel says.
SHARED = frozenset(
    ("USD", "GBP", "EUR", "AUD", "CaCl", "BpH", "CEC", "ECe", "SAR", "https", "www", "org", "html", "min")
)
MONTHS = frozenset((*calendar.month_name, *calendar.month_abbr, *calendar.day_name, "Sept"))
#: Names that the documents of this test are made with.
_MADE_UP = re.compile(r"(Farm|Client) visit-\d+|Person \d+|Somebody \(1999\): Invented for tests, table 1")
_INSIDE = re.compile(r"⟦[^⟦⟧]*⟧")
_WORD = re.compile(r"[^\W\d_]{3,}")
_SHOWN = ("alt", "title", "aria-label", "content")


class Marking:
    """A catalogue that sets what is said between marks, and keeps what was asked for that nobody gathered."""

    def __init__(self) -> None:
        self._gathered = set(gathering.texts(gathering.gathered()))
        self.unknown: set[str] = set()

    def gettext(self, words: str, use: str = "") -> str:
        """Return words between marks."""
        if (use, words) not in self._gathered:
            self.unknown.add(words)
        return f"⟦{words}⟧" if words.strip() else words

    def pgettext(self, use: str, words: str) -> str:
        """Return words between marks, whatever their use."""
        return self.gettext(words, use)

    def ngettext(self, one: str, many: str, count: int) -> str:
        """Return the form of a count between marks."""
        said = self.gettext(one)
        return said if count == 1 else f"⟦{many}⟧"


def texts(html: str) -> Iterator[str]:
    """Yield the words of a page as they follow each other, then every text that is read out instead of a picture."""
    tree = lxml.html.fromstring(html)
    for element in tree.xpath("//style | //script"):
        element.drop_tree()
    yield " ".join(tree.itertext())
    for element in tree.iter():
        if element.tag != "meta" or element.get("name") == "description":
            yield from (element.get(name, "") for name in _SHOWN)


def outside(text: str) -> str:
    """Return what of a text stands outside all marks."""
    while (less := _INSIDE.sub(" ", text)) != text:
        text = less
    return text


def _strings(value: Any) -> Iterator[str]:
    """Yield every text in a value read from YAML."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from _strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _strings(inner)
    elif isinstance(value, str):
        yield value


def known_words() -> set[str]:
    """Return the words of the book, of cited sources, and those that all languages share."""
    found = set(SHARED | MONTHS)
    for file in BOOK.rglob("*.yaml"):
        found |= {
            word for text in _strings(yaml.safe_load(file.read_text(encoding="utf-8"))) for word in _WORD.findall(text)
        }
    for file in (*BOOK.rglob("*.csv"), *BOOK.rglob("*.geojson")):
        found |= set(_WORD.findall(file.read_text(encoding="utf-8", errors="replace")))
    for file in (ROOT / "engine" / "soilrota").rglob("*.yaml"):
        data = yaml.safe_load(file.read_text(encoding="utf-8"))
        sources = data.get("sources", []) if isinstance(data, dict) else []
        found |= {word for text in _strings(sources) for word in _WORD.findall(text)}
    return {word.casefold() for word in found}


@pytest.fixture(autouse=True)
def marking(monkeypatch: pytest.MonkeyPatch) -> Marking:
    """Speak in marks."""
    catalogue = Marking()
    monkeypatch.setattr(speech, "catalogue_of", lambda _: catalogue)
    return catalogue


def unsaid(html: str, known: set[str]) -> list[str]:
    """Return the words of a page that were not said and are not known, with what stands around them."""
    found = []
    for text in texts(html):
        assert text.count("⟦") == text.count("⟧"), text
        left = _MADE_UP.sub(" ", outside(text))
        new = [word for word in _WORD.finditer(left) if word[0].casefold() not in known]
        found += [" ".join(left[max(word.start() - 30, 0) : word.end() + 30].split()) for word in new]
    return found


def test_every_word_of_every_document_is_said(marking: Marking) -> None:
    """Beside what the book gives, nothing stands outside the marks; no mark was lost, no text was not gathered."""
    known = known_words()
    assert {name: found for name, html in pages("en-GB") if (found := unsaid(html, known))} == {}
    render_season_page(a_season(60), DAY)
    assert marking.unknown == set()


def test_an_unsaid_word_is_seen() -> None:
    """A text that was not said is found, wherever it stands."""
    html = "<div><p>⟦Open: ⟦20 January⟧⟧ plainly</p><img alt='Seen'></div>"
    assert sorted(unsaid(html, set())) == ["Seen", "plainly"]
    assert unsaid("<p>⟦Open: <b>20 January</b>, nothing more⟧</p>", set()) == []
