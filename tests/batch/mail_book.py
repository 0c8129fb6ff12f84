"""A small book with mail, and messages in its outbox."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from soilrota.batch.edge import Edge
from soilrota.batch.reading import read_shared
from soilrota.batch.sending import OUTBOX, queue_messages
from soilrota.delivery.outbox import open_outbox
from soilrota.delivery.values import Entry
from soilrota.model.messages import Message
from soilrota.model.practice import Practice
from tests.acceptance.small_book import write_book
from tests.delivery.making import message


def mail_book(root: Path, port: int = 0, more: str = "") -> Path:
    """Write a small book that sends to a server on this machine, or keeps its mail on disk where there is no port."""
    book = write_book(root)
    lines = f"  host: localhost\n  port: {port}\n" if port else ""
    with (book / "practice.yaml").open("a", encoding="utf-8") as file:
        file.write(f"mail:\n  from_address: office@small.example\n{lines}{more}")
    (book / "records").mkdir()
    return book


def practice_of(book: Path) -> Practice:
    """Return a book's practice."""
    shared, problems = read_shared(book)
    assert shared is not None, problems
    return shared.practice


def queue(book: Path, *people: str | Message, at: datetime | None = None) -> tuple[Entry, ...]:
    """Put messages to people into a book's outbox."""
    messages = [message(one) if isinstance(one, str) else one for one in people]
    return queue_messages(book, practice_of(book), messages, at or datetime.now(UTC))


def states(book: Path) -> dict[str, str]:
    """Return the state of every message by whom it is for."""
    with open_outbox(book / OUTBOX, to_read=True) as outbox:
        return {entry.key.person.rpartition("/")[2]: entry.state.value for entry in outbox.entries()}


def edge(environment: dict[str, str] | None = None) -> Edge:
    """Return the edge of the program: the real clock, nobody who ends it."""
    return Edge(lambda: datetime.now(UTC), environment or {}, lambda: False)
