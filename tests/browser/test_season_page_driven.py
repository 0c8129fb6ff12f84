"""The season page in a real browser: filters, order, keyboard, links, telephone, paper; nothing asked, no error."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from soilrota.documents import SeasonTask, SeasonView, render_season_page
from soilrota.documents.dates import long_day, number
from soilrota.documents.season_wanted import MEANINGS, URGENCY
from soilrota.documents.words import STATES
from soilrota.model.windows import State
from tests.browser.driving import Page
from tests.documents.seasons import DAY, a_season

VIEW = a_season(400)
STEP = 100


@pytest.fixture
def page(browser_page: Page, tmp_path: Path) -> Page:
    """Return a page that shows a season of 400 tasks."""
    return _opened(browser_page, VIEW, tmp_path)


def _opened(page: Page, view: SeasonView, folder: Path) -> Page:
    """Open the page of a season, from disk."""
    file = folder / "season.html"
    file.write_bytes(render_season_page(view, DAY))
    page.errors.clear()
    page.size(1280)
    page.open(file.as_uri())
    return page


def _told(page: Page) -> str:
    """Return how many tasks are shown, as it is said."""
    return str(page.ask("document.getElementById('told').textContent"))


def _choose(page: Page, field: str, value: str) -> None:
    """Choose an entry of a list."""
    page.ask(
        f"{{ const f = document.getElementById('{field}'); f.value = {value!r};"
        " f.dispatchEvent(new Event('change')); }"
    )


def _cells(page: Page, column: int) -> list[str]:
    """Return the words of a column of the rows that are drawn."""
    script = f"[...document.querySelectorAll('#rows tr')].map((row) => row.children[{column}].innerText)"
    words: list[str] = page.ask(script)
    return words


def _day(task: SeasonTask) -> date | None:
    """Return the day by which a task belongs to a week."""
    return task.planned or task.best


def _focused(page: Page) -> str:
    """Return what has the focus: id, or its words."""
    return str(page.ask("document.activeElement.id || document.activeElement.innerText"))


def test_all_tasks_in_steps_without_a_request_or_an_error(page: Page) -> None:
    """The first hundred rows are drawn, more by the button or by reading on; nothing but the page is loaded."""
    assert _told(page) == "400 tasks."
    assert len(_cells(page, 0)) == STEP
    page.ask("document.getElementById('more').click()")
    assert len(_cells(page, 0)) >= 2 * STEP
    page.ask("scrollTo(0, document.body.scrollHeight)")
    page.ask("new Promise((done) => setTimeout(done, 300))")
    assert len(_cells(page, 0)) >= 3 * STEP
    assert page.errors == []
    assert [one for one in page.requests if not one.startswith(("file:", "data:font/"))] == []
    assert sum(one.startswith("file:") for one in page.requests) == 1


def test_every_filter_counts_as_the_tasks_do(page: Page) -> None:
    """Client, person, state and week, one by one and together, against counting straight from the tasks."""
    client, person, state = VIEW.clients[3].id, "Ben Carr", State.OVERDUE
    week = next(day for task in VIEW.tasks if (day := _day(task)))
    monday = week - timedelta(week.weekday())
    in_week = [task for task in VIEW.tasks if (day := _day(task)) and day - timedelta(day.weekday()) == monday]
    number = str((monday - date(1970, 1, 1)).days)
    for field, value, expected in (
        ("by-client", client, sum(task.client == client for task in VIEW.tasks)),
        ("by-person", person, sum(person in (task.person, task.adviser) for task in VIEW.tasks)),
        ("by-state", state.value, sum(task.state is state for task in VIEW.tasks)),
        ("by-week", number, len(in_week)),
    ):
        _choose(page, field, value)
        assert _told(page) == f"{expected} of 400 tasks.", field
        _choose(page, field, "")
    _choose(page, "by-person", person)
    _choose(page, "by-state", state.value)
    both = [task for task in VIEW.tasks if task.state is state and task.person == person]
    assert _told(page).startswith(f"{len(both)} of 400")
    assert _cells(page, 1) == [f"{task.zone}\n{task.protocol}" for task in both]
    page.ask("document.querySelector('#filters [type=reset]').click()")
    page.ask("new Promise((done) => setTimeout(done, 50))")
    assert _told(page) == "400 tasks."


def test_words_are_found_anywhere_whatever_their_marks(page: Page) -> None:
    """All words must stand somewhere; case and accents do not matter; nothing found says what to do."""
    wanted = [task for task in VIEW.tasks if task.person == "Édith Fenn" and "Barn" in task.zone]
    for words, expected in (
        ("EDITH barn", f"{len(wanted)} of 400 tasks."),
        ("no such", "0 of 400 tasks. Show all, or"),
    ):
        field = f"const f = document.getElementById('by-words'); f.value = {words!r}"
        page.ask(f"{{ {field}; f.dispatchEvent(new Event('input')); }}")
        page.ask("new Promise((done) => setTimeout(done, 250))")
        assert _told(page).startswith(expected)


@pytest.mark.parametrize("language", ["en-GB", "en-US", "es", "es-AR"])
def test_days_and_counts_are_written_as_documents_write_them(browser_page: Page, tmp_path: Path, language: str) -> None:
    """What the script writes is what the engine writes in the page's language; no script fault."""
    page = _opened(browser_page, replace(a_season(1200), language=language), tmp_path)
    shown = _cells(page, 3)
    days = [_day(task) for task in a_season(1200).tasks[: len(shown)]]
    assert sum(day is not None for day in days) > STEP / 2
    assert [words for day, words in zip(days, shown, strict=True) if day and long_day(day, language) not in words] == []
    assert number(1200, language) in _told(page)
    assert not {"{", "undefined", "null"} & set(re.findall(r"[{]|\w+", page.ask("document.body.innerText")))
    assert page.errors == []


def test_order_by_any_column_there_and_back(page: Page) -> None:
    """Up, down, and the order of the book again; told to those who listen; equal rows stay in the book's order."""
    head = "document.querySelector('th[data-sort=day]')"
    days = [_day(task) or date.max for task in VIEW.tasks]
    up = sorted(range(len(days)), key=lambda place: days[place])
    zones = [task.zone for task in VIEW.tasks]
    for expected, told in (
        (up, "ascending"),
        (sorted(range(len(days)), key=lambda place: (-days[place].toordinal(), place)), "descending"),
        (list(range(len(days))), "none"),
    ):
        page.ask(f"{head}.firstElementChild.click()")
        assert page.ask(f"{head}.getAttribute('aria-sort')") == told
        shown = [words.split("\n")[0] for words in _cells(page, 1)]
        assert shown == [zones[place] for place in expected[: len(shown)]]
    page.ask("document.querySelector('th[data-sort=state] button').click()")
    order = {f"{STATES[state]}": place for place, state in enumerate(URGENCY)}
    ranks = [next(rank for said, rank in order.items() if said in words) for words in _cells(page, 2)]
    assert ranks == sorted(ranks)


def test_what_needs_somebody_is_shown_by_its_button(page: Page) -> None:
    """The button of a group filters the table by its state and takes the reader there."""
    counts = Counter(task.state for task in VIEW.tasks)
    page.ask("document.querySelector('button[data-state=\"last-days\"]').click()")
    assert _told(page) == f"{counts[State.LAST_DAYS]} of 400 tasks."
    assert _focused(page) == "tasks"


def test_by_keyboard_alone(page: Page) -> None:
    """Skip links come first; tabs reach every filter, in reading order, with a visible ring; keys change the list."""
    page.press("Tab")
    assert _focused(page) == "To what needs somebody today"
    page.press("Tab")
    page.press("Enter")
    page.ask("new Promise((done) => setTimeout(done, 100))")
    assert _focused(page) == "tasks"
    met = []
    for _ in range(10):
        page.press("Tab")
        met.append(_focused(page))
        assert page.ask("getComputedStyle(document.activeElement).outlineStyle") == "solid", met
    fields = ["by-client", "by-person", "by-state", "by-week", "by-words"]
    assert met == [*fields, "Show all", "Client and farm", "Zone and protocol", "Where it stands", "When and who"]
    page.press("Enter")
    assert page.ask("document.querySelector('th[data-sort=day]').getAttribute('aria-sort')") == "ascending"
    for _ in range(5):
        page.press("Tab", shift=True)
    assert _focused(page) == "by-words"
    for letter in "dam":
        page.press(letter)
    page.ask("new Promise((done) => setTimeout(done, 250))")
    assert _told(page).startswith(f"{sum('Dam' in task.zone for task in VIEW.tasks)} of")


def test_what_is_read_out(page: Page) -> None:
    """A table with its heads and rows, a name for every field and picture; nothing without words."""
    read = page.names_read_out()
    roles = Counter(role for role, _ in read)
    assert roles["table"] == 1
    assert roles["columnheader"] == 6
    assert roles["rowheader"] == STEP
    told = {"image", "button", "link", "combobox", "searchbox", "heading", "columnheader", "rowheader"}
    assert [one for one in read if one[0] in told and not one[1].strip()] == []
    pictures = [name for role, name in read if role == "image" and name.startswith("Late summer")]
    assert len(pictures) == STEP
    first = VIEW.tasks[0]
    assert first.season is not None
    assert str(first.season.first.year) in pictures[0]
    assert "closed" in pictures[0]


def test_links_are_relative_and_named_apart(page: Page) -> None:
    """Every paper of a row leads below the page's own folder and names whose it is."""
    script = "[...document.querySelectorAll('#rows a')].map((a) => [a.getAttribute('href'), a.textContent])"
    links: list[list[str]] = page.ask(script)
    assert {address.split("/")[0] for address, _ in links} == {"clients"}
    assert ["clients/client-0/programme.pdf", "Programme, Farm 0"] in links


def test_the_address_keeps_what_was_chosen(page: Page) -> None:
    """Loaded again from its address, the page shows the same; an address that names nothing shows all."""
    _choose(page, "by-client", VIEW.clients[2].id)
    page.ask("document.querySelector('th[data-sort=zone] button').click()")
    told, cells, address = _told(page), _cells(page, 1), page.ask("location.href")
    page.open(str(address))
    assert (_told(page), _cells(page, 1)) == (told, cells)
    page.open(str(address).partition("#")[0] + "#?client=nobody&state=nothing&order=-constructor&week=")
    assert _told(page) == "400 tasks."
    assert page.errors == []


@pytest.mark.parametrize("width", [320, 390, 768, 1280])
def test_no_width_needs_scrolling_sideways(page: Page, width: int) -> None:
    """From a small telephone to a desk: the page is as wide as the window, in words of 12 px or more."""
    page.size(width)
    assert page.ask("document.documentElement.scrollWidth") <= width
    said = "[...document.querySelectorAll('main p, main li, th, td, label')]"
    assert page.ask(f"Math.min(...{said}.map((e) => parseFloat(getComputedStyle(e).fontSize)))") >= 12
    roles = Counter(role for role, _ in page.names_read_out())
    assert roles["rowheader"] == STEP


def test_on_paper_every_task_stands_and_no_control(page: Page) -> None:
    """All 400 rows are printed, under heads that repeat, without fields and buttons."""
    document = pypdfium2.PdfDocument(page.printed())
    pages = [one.get_textpage().get_text_range() for one in document]
    words = "\n".join(pages)
    assert sum(words.count(name) for name in ("Topsoil under pasture", "Deep nitrogen before sowing")) == len(
        VIEW.tasks
    )
    assert "Show" not in words.replace("Show all, or", "")
    first = next(number for number, one in enumerate(pages) if "Client and farm" in one)
    assert len(pages) - first > 10
    assert all("Client and farm" in one for one in pages[first:-1])
    unfolded = sum(one.count("Farm ") for one in pages[:first])
    assert unfolded > len({(task.client, task.state) for task in VIEW.tasks if task.state in MEANINGS}) * 0.9


def test_without_a_script_the_plain_list_stands(browser_page: Page, tmp_path: Path) -> None:
    """No control that does nothing; what needs somebody is listed; season.csv is named."""
    browser_page.without_script()
    try:
        page = _opened(browser_page, VIEW, tmp_path)
        read = page.names_read_out()
    finally:
        browser_page.without_script(off=False)
    assert not [role for role, _ in read if role in {"button", "combobox", "searchbox"}]
    assert any("season.csv" in name for _, name in read)
    assert any(role == "table" for role, _ in read)


def test_names_that_try_to_leave_their_place_stand_as_text(browser_page: Page, tmp_path: Path) -> None:
    """Markup in names is shown, not run."""
    from tests.documents.test_season_page import EVIL, _evil

    page = _opened(browser_page, _evil(), tmp_path)
    assert EVIL.split("\u2028")[0].strip() in _cells(page, 1)[0].replace("\n", " ")
    assert page.ask("document.scripts.length") == 2
    assert page.errors == []


def test_a_season_without_tasks(browser_page: Page, tmp_path: Path) -> None:
    """Nothing to show is a page all the same."""
    page = _opened(browser_page, a_season(0), tmp_path)
    assert _told(page) == "0 tasks."
    assert page.errors == []


def colours(page: Page) -> Any:
    """Return foreground and background of every element that shows words."""
    return page.ask(
        """[...document.querySelectorAll('main *, header *, footer *')]
        .filter((e) => [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()) && e.offsetParent)
        .map((e) => { let under = e, back;
          do { back = getComputedStyle(under).backgroundColor; under = under.parentElement; }
          while (under && back === 'rgba(0, 0, 0, 0)'); return [getComputedStyle(e).color, back]; })"""
    )


def test_words_stand_out_from_their_ground(page: Page) -> None:
    """At least 4.5 to 1, the contrast that WCAG 2 asks of small words."""

    def light(colour: str) -> float:
        parts = [int(part) / 255 for part in colour[colour.index("(") + 1 : -1].split(",")[:3]]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    for words, ground in {
        (one, "rgb(255, 255, 255)" if under.startswith("rgba(0") else under) for one, under in colours(page)
    }:
        bright, dark = sorted((light(words), light(ground)), reverse=True)
        assert (bright + 0.05) / (dark + 0.05) >= 4.5, (words, ground)
