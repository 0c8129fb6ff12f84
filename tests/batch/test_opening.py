"""How every command that writes to a book begins."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.batch.opening import known_facts, open_book
from tests.acceptance.small_book import CLIENTS, edit


def test_a_folder_that_is_no_book(tmp_path: Path) -> None:
    """Nothing is made in it."""
    with pytest.raises(CannotStartError, match="is not a book"), open_book(tmp_path, "then"):
        pass
    assert list(tmp_path.iterdir()) == []


def test_records_that_cannot_be_kept(book: Path) -> None:
    """A file in the place of the folder is said."""
    (book / "records").write_text("in the way", encoding="utf-8")
    with pytest.raises(CannotStartError, match="cannot be made"), open_book(book, "then"):
        pass


def test_one_at_a_time(book: Path) -> None:
    """The second is refused while the first holds the book, and may begin afterwards."""
    with open_book(book, "then"), pytest.raises(AnotherRunError), open_book(book, "now"):
        pass
    with open_book(book, "later") as ledger:
        assert ledger.book() is None


def test_facts_are_kept_while_nothing_changes(book: Path) -> None:
    """What is known comes from the ledger; a changed file has it read anew, and errors are said every time."""
    with open_book(book, "then") as ledger:
        facts = known_facts(book, ledger)
        assert facts.clients == CLIENTS
        assert ledger.book() == facts
        assert known_facts(book, ledger) is not facts
        assert known_facts(book, ledger) == facts
        edit(book / "practice.yaml", "deadline_s: 60", "deadline_s: 61")
        assert known_facts(book, ledger).deadline_s == 61
        edit(book / "practice.yaml", "deadline_s: 61", "deadline_s: none")
        with pytest.raises(CannotStartError):
            known_facts(book, ledger)
