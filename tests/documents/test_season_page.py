"""The season page as bytes: safe whatever people are called, self-contained, the same for the same season."""

from __future__ import annotations

import json
import re
from base64 import b64encode
from dataclasses import replace
from datetime import date
from hashlib import sha256
from html.parser import HTMLParser

import pytest

from soilrota.documents import PaperLink, SeasonClient, SeasonView, render_season_page
from soilrota.documents.season_page import MOST_PLAIN, season_data
from soilrota.documents.season_wanted import MEANINGS
from soilrota.documents.season_words import day_form, script_words
from soilrota.files import shipped
from tests.documents.seasons import DAY, a_season
from tests.documents.shouting import shout, unsaid

EVIL = """</script><script>alert(1)</script><!-- <b> & " ' \u2028 ]]> {{ 7*7 }}"""


class _Read(HTMLParser):
    """What an HTML reader makes of the page: elements with their attributes."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.elements: list[tuple[str, dict[str, str | None]]] = []
        self.feed(page.decode())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep an element."""
        self.elements.append((tag, dict(attrs)))

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """Return the attributes of every element of a name."""
        return [attributes for name, attributes in self.elements if name == tag]


def _evil() -> SeasonView:
    """Return a season in which every name tries to leave its place."""
    view = a_season(3)
    tasks = tuple(
        replace(task, farm=EVIL, zone=EVIL, protocol=EVIL, person=EVIL, adviser=EVIL, season_name=EVIL)
        for task in view.tasks
    )
    clients = tuple(SeasonClient(one.id, EVIL, (PaperLink(EVIL, 'a:b/"<x>?#.pdf'),)) for one in view.clients)
    return SeasonView(EVIL, tasks, clients, (PaperLink(EVIL, "javascript:alert(1)"),))


def _data(page: bytes) -> dict[str, object]:
    """Return the data of the page's block as a browser finds it."""
    found = re.search(rb'<script type="application/json" id="data">(.*?)</script>', page, re.DOTALL)
    assert found is not None
    data: dict[str, object] = json.loads(found[1])
    return data


def test_no_name_leaves_its_place() -> None:
    """Two script elements whatever people are called; the data comes back equal; no comment opens; no scheme."""
    view = _evil()
    page = render_season_page(view, DAY)
    read = _Read(page)
    assert [one.get("type") for one in read.all("script")] == ["application/json", None]
    assert _data(page) == json.loads(json.dumps(season_data(view)))
    assert b"<!--" not in page
    assert b"{{" not in page.replace(b"{{ 7*7 }}", b"")
    addresses = [one["href"] for one in read.all("a")]
    assert "javascript%3Aalert%281%29" in addresses
    assert not any(re.match(r"[a-z]+:", address or "") for address in addresses)


def test_the_data_of_many_seasons_comes_back() -> None:
    """What the script reads is what was written, for seasons of every length."""
    for count in (0, 1, 40):
        view = a_season(count)
        assert _data(render_season_page(view, DAY)) == json.loads(json.dumps(season_data(view)))


def test_nothing_outside_is_asked_for() -> None:
    """No element loads anything; the policy allows our style and script by their digests and fonts of the page."""
    page = render_season_page(a_season(20), DAY)
    read = _Read(page)
    assert not [one for one in read.elements if "src" in one[1] or "srcset" in one[1] or one[0] in {"link", "iframe"}]
    assert not [one for one in read.elements if "style" in one[1] or any(name.startswith("on") for name in one[1])]
    (policy,) = [one["content"] for one in read.all("meta") if one.get("http-equiv") == "Content-Security-Policy"]
    assert policy is not None
    assert policy.startswith("default-src 'none'; ")
    text = page.decode()
    style = text[text.index("<style>") + 7 : text.index("</style>")]
    script = text[text.rindex("<script>") + 8 : text.rindex("</script>")]
    for text, of in ((style, "style-src"), (script, "script-src")):
        digest = b64encode(sha256(text.encode()).digest()).decode()
        assert f"{of} 'sha256-{digest}'" in policy
    assert re.findall(r"url\((?!\"data:|#)", style) == []


def test_same_season_same_bytes_and_the_day_in_one_place() -> None:
    """Equal bytes for an equal view; another as-of date changes only the element that bears it."""
    page = render_season_page(a_season(50), DAY)
    assert page == render_season_page(a_season(50), DAY)
    other = render_season_page(a_season(50), date(2027, 3, 1))
    changed = page.replace(
        b'" datetime="2027-02-15">15 February 2027</time>',
        b'" datetime="2027-03-01">1 March 2027</time>',
    )
    assert other == changed != page


def test_the_page_speaks_the_language_of_the_practice() -> None:
    """Its tag, its days and the words of its script are of that language; another season of the same is the same."""
    view = replace(a_season(30), language="es")
    page = render_season_page(view, DAY)
    assert _Read(page).all("html")[0]["lang"] == "es"
    assert ">15 de febrero de 2027</time>" in page.decode()
    assert _data(page) == json.loads(json.dumps(season_data(view)))
    assert any(" de 2027" in line for line in re.findall("<li>(.*?)</li>", page.decode()))


def test_nothing_is_left_unsaid(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a language of capitals small letters stand in names and days alone."""
    shout(monkeypatch)
    names = {word for text in season_data(a_season(1200))["texts"] for word in text.split()}
    names |= {*["Farm", "Small", "Soil", "Practice", "de"], *(words for words in day_form()[1])}
    for view in (a_season(1200), a_season(0)):
        page = render_season_page(view, DAY).decode()
        body = re.sub(r"<(style|script).*?</\1>", "", page, flags=re.DOTALL)
        read = [re.sub(r"<[^>]*>", " ", body), *re.findall(r'(?:aria-label|title)="([^"]*)"', body)]
        assert [word for text in read for word in unsaid(text) if word not in names | {"Field", "calendar"}] == []
    assert unsaid(re.sub(r"\{\w+\}|\w+(?=':)", "", str({**script_words(), "year_once": ""}))) == []


def test_every_word_of_the_script_is_in_the_data() -> None:
    """The script names no text of its own, and every text that it asks for is there."""
    script = shipped("report_templates").joinpath("season.js").read_text(encoding="utf-8")
    words = season_data(a_season(1))["words"]
    asked = set(re.findall(r"said\.([a-z_]+)(?:\.([a-z_]+))?", script)) | {
        ("key", name) for name in re.findall(r'keyEntry\("([a-z]+)"', script)
    }
    assert asked
    for name, inner in asked:
        assert name in words
        assert not inner or inner in words[name]
    assert {name for name, _ in asked} == set(words)
    assert not re.findall(r"[`\">][A-Z][a-z]+ [a-z]+", re.sub(r"/\*.*?\*/", "", script, flags=re.DOTALL))


def test_without_a_script_what_needs_somebody_is_listed() -> None:
    """Up to a limit, with how many are left; a season at rest says that nothing is needed."""
    view = a_season(900)
    pressing = sum(task.state in MEANINGS for task in view.tasks)
    page = render_season_page(view, DAY).decode()
    plain = page[page.index("<noscript>") : page.index("</noscript>")]
    assert plain.count("<tr>") == MOST_PLAIN + 1
    assert f"And {pressing - MOST_PLAIN} more." in plain
    assert "Nothing: no client has a problem" in render_season_page(a_season(0), DAY).decode()


def test_structure_for_those_who_listen() -> None:
    """Every field has a label, every button words, ids are unique, links to sections lead somewhere."""
    page = render_season_page(a_season(30), DAY)
    read = _Read(page)
    ids = [attributes["id"] for _, attributes in read.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    assert {(one["href"] or "")[1:] for one in read.all("a") if (one["href"] or "").startswith("#")} <= set(ids)
    assert read.all("html")[0]["lang"] == "en-GB"
    text = page.decode()
    assert len(re.findall(r"<label[^>]*>[^<]+<(?:select|input)", text)) == len(read.all("select") + read.all("input"))
    assert all(re.sub("<[^>]+>", "", words).strip() for words in re.findall(r"<button.*?>(.*?)</button>", text))
    assert {one.get("scope") for one in read.all("th")} <= {"col", "row"}
