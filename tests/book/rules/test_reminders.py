"""Who is to be reminded can be written to, or it is said; drafts stay with advisers."""

from __future__ import annotations

import pytest

from soilrota.problems import Severity
from tests.book.small_book import Book

WITH_MAIL = "reminders: {}\n"


def test_without_the_section_nobody_is_asked_for_an_address(book: Book) -> None:
    """A book that does not speak of reminders loads without a word."""
    assert book.problems() == ()
    assert book.shared_problems() == ()


def test_people_without_an_address_are_named(book: Book) -> None:
    """Adviser and sampler have none; an empty list asks for none."""
    book.add("practice.yaml", WITH_MAIL)
    assert [(one.code, one.severity) for one in book.shared_problems()] == [("no-address", Severity.WARNING)] * 2
    book.edit("practice.yaml", "role: adviser}", "role: adviser, email: mara@two-rivers.example}")
    book.edit("practice.yaml", "role: sampler}", "role: sampler, gets: []}")
    assert book.shared_problems() == ()


def test_a_client_that_nobody_of_can_be_reached_is_named(book: Book) -> None:
    """One address is enough; a contact who asks for reminders needs one."""
    book.add("practice.yaml", WITH_MAIL)
    problem = book.only()
    assert (problem.code, problem.severity) == ("nobody-to-remind", Severity.WARNING)
    assert problem.place.line == book.line("client.yaml", "contacts:") + 1
    book.edit(
        "client.yaml",
        "role: manager}",
        "role: manager, email: lee@anvil.example}\n  - {name: Kit, role: hand, gets: [visit]}",
    )
    assert book.only().code == "no-address"
    assert book.only().place.line == book.line("client.yaml", "Kit")


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("client.yaml", "role: manager}", "role: manager, email: lee@a.example, gets: [draft]}"),
        ("practice.yaml", "role: sampler}", "role: sampler, gets: [draft]}"),
        ("practice.yaml", "seasons:\n", "reminders: {gets: {contact: [draft]}}\nseasons:\n"),
    ],
)
def test_drafts_go_to_advisers_alone(book: Book, name: str, old: str, new: str) -> None:
    """Nobody else can be put down for them."""
    book.edit(name, old, new)
    problems = book.shared_problems() if name == "practice.yaml" else book.problems()
    (problem,) = [one for one in problems if one.code == "draft-not-for-them"]
    assert problem.severity is Severity.ERROR
    assert problem.place.line == book.line(name, "draft")


def test_a_client_may_set_lead_times(book: Book) -> None:
    """They reach the client as they are written."""
    book.add("client.yaml", "reminders: {opens_days: 40}\n")
    client, _ = book.client()
    assert client is not None
    assert client.lead_times == {"opens_days": 40}
