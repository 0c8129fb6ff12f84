"""What is known of the whole book, and when it must be read again."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.batch.book_facts import read_book_facts
from soilrota.batch.faults import CannotStartError
from tests.acceptance.small_book import CLIENTS, edit


def test_facts_of_a_book(book: Path) -> None:
    """Zone, limits and clients are read; folders that are wrong are told apart."""
    (book / "clients" / "Bad Name").mkdir()
    facts = read_book_facts(book, "engine")
    assert (facts.time_zone, facts.deadline_s, facts.memory_mb) == ("Australia/Melbourne", 60, 1024)
    assert (facts.clients, facts.unreadable) == (CLIENTS, ("Bad Name",))
    assert facts.hold(book, "engine")


def test_facts_hold_until_the_book_or_the_engine_changes(book: Path) -> None:
    """Another engine, a changed practice, a new client: each asks for reading again; a client's content does not."""
    facts = read_book_facts(book, "engine")
    assert not facts.hold(book, "another engine")
    edit(book / "clients" / "alder-farm" / "client.yaml", "Lou", "Kim")
    assert facts.hold(book, "engine")
    (book / "clients" / "new-farm").mkdir()
    assert not facts.hold(book, "engine")
    facts = read_book_facts(book, "engine")
    edit(book / "practice.yaml", "1 Example Lane", "2 Example Lane")
    assert not facts.hold(book, "engine")


def test_a_logo_counts_among_the_shared_files(book: Path) -> None:
    """The logo's bytes are part of what all clients share."""
    logo = (Path(__file__).parents[2] / "example_clients" / "logo.png").read_bytes()
    (book / "logo.png").write_bytes(logo)
    edit(book / "practice.yaml", "contact:", "logo: logo.png\ncontact:")
    facts = read_book_facts(book, "engine")
    assert facts.hold(book, "engine")
    (book / "logo.png").write_bytes(logo + b" ")
    assert not facts.hold(book, "engine")


def test_a_practice_with_errors_carries_them(book: Path) -> None:
    """The refusal brings the problems with their places."""
    edit(book / "practice.yaml", "role: adviser", "role: advisor")
    with pytest.raises(CannotStartError) as refusal:
        read_book_facts(book, "engine")
    assert [problem.place.line for problem in refusal.value.problems] == [5]
