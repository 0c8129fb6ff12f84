"""What every command that writes to a book begins with: its lock, its ledger, and what is known of it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from soilrota.batch.book_facts import BookFacts, read_book_facts
from soilrota.batch.faults import CannotStartError
from soilrota.batch.fingerprints import engine_digest
from soilrota.batch.ledger import Ledger, open_ledger
from soilrota.batch.lock import night_lock
from soilrota.batch.record_files import LEDGER, LOCK


@contextmanager
def open_book(root: Path, started: str) -> Iterator[Ledger]:
    """Hold a book's lock and its ledger.

    Args:
        root: the book's folder.
        started: when the command started, ISO 8601, for those who ask.

    Raises:
        CannotStartError: it is no book, or its ledger cannot be used.
        AnotherRunError: another process is at work on it.
    """
    records = root / "records"
    if not (root / "practice.yaml").is_file():
        raise CannotStartError(f"{root} is not a book: it has no practice.yaml")
    try:
        records.mkdir(exist_ok=True)
    except OSError as fault:
        raise CannotStartError(f"the folder {records} cannot be made: {fault.strerror}") from fault
    with night_lock(root / LOCK, started), open_ledger(root / LEDGER) as ledger:
        yield ledger


def known_facts(root: Path, ledger: Ledger) -> BookFacts:
    """Return what is known of the book as a whole: from the ledger while nothing changed, else read anew and kept.

    Raises:
        CannotStartError: there is no practice, its files have errors, or there is no client.
    """
    engine = engine_digest()
    facts = ledger.book()
    if facts is None or not facts.hold(root, engine):
        facts = read_book_facts(root, engine)
        ledger.keep_book(facts)
    return facts
