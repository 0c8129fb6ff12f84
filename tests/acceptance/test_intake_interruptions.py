"""Intakes that are cut off, by a kill or by a write that fails: each row is accepted exactly once."""

from __future__ import annotations

import errno
import json
import os
import random
import subprocess
import time
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from soilrota.batch.intake import NO_HURRY, AloneRequest, run_intake
from soilrota.batch.intake_values import IntakeAnswer, IntakeOrder
from soilrota.batch.intake_work import take_in
from tests.acceptance.intake_book import (
    add_laboratory,
    add_notes,
    drop,
    inbox,
    intake,
    received,
    results,
    row,
    table,
    values,
)
from tests.acceptance.processes import all_gone
from tests.acceptance.small_book import AS_OF, CLIENTS, command, copied, soilrota, tree, write_book

#: Moments at which a command is killed; the full count runs once before an issue is closed.
KILLS = 50 if os.environ.get("SOILROTA_LONG") else 5
COMMANDS = ("intake", "overnight")
DAY = "2027-02-01"


@dataclass(frozen=True)
class Unbroken:
    """A book with a full inbox, what each command makes of its records, and how long an intake takes [s]."""

    book: Path
    records: dict[str, dict[str, Any]]
    took_s: float


def _book(root: Path) -> Path:
    """Write a book of which a first file was taken in and one of its rows waits."""
    book = write_book(root)
    add_laboratory(book)
    for client in CLIENTS:
        add_notes(book, client, {f"{client[0].upper()}{number}": DAY for number in range(1, 9)})
    drop(book, "first.csv", table(row("A1", "R0"), row("A-2", "R0", p="34")))
    assert intake(book, root.parent / "first").returncode == 1
    return book


def _mended(book: Path) -> bytes:
    """Return the table of the row that waits, mended."""
    (aside,) = (book / "records" / "set_aside").iterdir()
    return aside.read_bytes().replace(b"A-2", b"A2")


def _fill(book: Path) -> Path:
    """Drop ten files: of every client, of two clients, mended, corrected, with rows that are wrong."""
    drop(book, "01.csv", table(row("A3"), row("B1"), row("C1")))
    drop(book, "02.csv", table(row("A4"), row("A5", "R2")))
    drop(book, "03.csv", table(row("B2", "R3"), row("B3", "R3", ph="many"), row("X9", "R3")))
    drop(book, "04.csv", _mended(book))
    drop(book, "05.csv", table(row("A1", "R0", issue="2", p="36", reported="2027-02-12")))
    drop(book, "06.csv", table(row("C2", "R4"), row("C3", "R4")))
    drop(book, "07.csv", table(row("B4", "R5"), row("C4", "R5")))
    drop(book, "08.csv", table(row("B5", "R6"), row("C5", "R6", p="<2")))
    drop(book, "09.csv", b"no table at all")
    drop(book, "10.csv", table(row("A6", "R7"), row("A6", "R7", p="99"), row("A7", "R7")))
    return book


def _records(book: Path) -> dict[str, Any]:
    """Return what the records hold: digests, and what became of each file but for what it was judged by."""
    kept = tree(book / "records")
    found: dict[str, Any] = {name: digest for name, digest in kept.items() if not name.startswith(("ledger", "night"))}
    for path in (book / "records" / "received").glob("*.json"):
        found[f"received/{path.name}"] = {**json.loads(path.read_text(encoding="utf-8")), "rests_on": ""}
    return found


@pytest.fixture(scope="module")
def unbroken(tmp_path_factory: pytest.TempPathFactory) -> Unbroken:
    """Return a book with a full inbox, and what unbroken commands make of it."""
    book = _fill(_book(tmp_path_factory.mktemp("unbroken") / "book"))
    records, took_s = {}, 0.0
    for name in COMMANDS:
        copy = copied(book, book.parent / name)
        began = time.monotonic()
        assert soilrota(*_words(name, copy, book.parent / f"{name}-out")).returncode in (0, 1)
        took_s = took_s or time.monotonic() - began
        assert inbox(copy) == []
        records[name] = _records(copy)
    return Unbroken(book, records, took_s)


def _words(name: str, book: Path, out: Path) -> list[str | Path]:
    """Return the words of a command."""
    return [name, book, "--out", out, "--as-of", AS_OF, "--jobs", "2"]


def _assert_nothing_is_lost(book: Path, dropped: Iterable[str]) -> None:
    """See that every file lies in the inbox or has its record, rows add up, and no result stands twice."""
    assert set(dropped) <= {*inbox(book), *received(book)}
    for client in CLIENTS:
        results(book, client)


@pytest.mark.parametrize("seed", range(KILLS))
def test_killed_at_any_moment_and_completed_by_the_next(unbroken: Unbroken, tmp_path: Path, seed: int) -> None:
    """After kill -9 nothing is lost or doubled; the next run ends as an unbroken one, the inbox empty."""
    name = COMMANDS[seed % len(COMMANDS)]
    book, out = copied(unbroken.book, tmp_path / "book"), tmp_path / "out"
    dropped = inbox(book)
    words = command(*_words(name, book, out))
    with subprocess.Popen(
        words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    ) as running:
        time.sleep(random.Random(seed).uniform(0.0, unbroken.took_s))
        running.kill()
        running.communicate()
        assert all_gone(running.pid)
    _assert_nothing_is_lost(book, dropped)
    done = soilrota(*_words(name, book, out))
    assert "Traceback" not in done.stderr
    assert inbox(book) == []
    assert _records(book) == unbroken.records[name]


def test_what_an_unbroken_intake_makes_of_it(unbroken: Unbroken) -> None:
    """The full inbox is no idle one: accepted, corrected, mended, set aside and refused, as each file deserves."""
    book = unbroken.book.parent / "intake"
    found = received(book)
    sums = {name: (len(one["accepted"]), len(one["waiting"]), bool(one["refused"])) for name, one in found.items()}
    assert sums == {
        "first.csv": (1, 0, False),
        "01.csv": (3, 0, False),
        "02.csv": (2, 0, False),
        "03.csv": (1, 2, False),
        "04.csv": (1, 0, False),
        "05.csv": (1, 0, False),
        "06.csv": (2, 0, False),
        "07.csv": (2, 0, False),
        "08.csv": (2, 0, False),
        "09.csv": (0, 0, True),
        "10.csv": (1, 2, False),
    }
    assert "R0 2 A1 phosphorus 36" in values(book, "alder-farm")
    assert "R0 1 A2 phosphorus 34" in values(book, "alder-farm")


class _FailingWrites:
    """Lets the n-th file that is put in place or taken away below a folder fail, as on a full disk; the 0th never."""

    def __init__(self, folder: Path, number: int) -> None:
        self._folder = folder
        self._left = number
        self.has_failed = False

    def wrap(self, method: Callable[..., Any]) -> Callable[..., Any]:
        """Return a method of paths that may fail."""

        def failing(path: Path, *args: Any, **options: Any) -> Any:
            if path.is_relative_to(self._folder) and not path.name.startswith((".~ledger", "ledger", "night")):
                self._left -= 1
                if self._left == 0:
                    self.has_failed = True
                    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))
            return method(path, *args, **options)

        return failing


def _take_in_here(orders: Iterable[IntakeOrder], *_: object) -> Iterator[IntakeAnswer]:
    """Look at files in this process."""
    yield from map(take_in, orders)


def _intake_here(book: Path, number: int) -> bool:
    """Take the inbox in; let its n-th write fail, the 0th never; return whether it came to that."""
    writes = _FailingWrites(book, number)
    request = AloneRequest(book, book.parent / "out", "then", date.fromisoformat(AS_OF), 1)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("soilrota.batch.workers.work_through", _take_in_here)
        patch.setattr(Path, "replace", writes.wrap(Path.replace))
        patch.setattr(Path, "unlink", writes.wrap(Path.unlink))
        report, _ = run_intake(request, date.fromisoformat, NO_HURRY, lambda: False)
    assert bool(report.faults) is writes.has_failed
    return writes.has_failed


def test_whichever_write_fails(tmp_path: Path) -> None:
    """Each write in turn: the intake says so and loses nothing, and the next one ends as an undisturbed one does."""
    original = _book(tmp_path / "original" / "book")
    drop(original, "1.csv", table(row("A3"), row("B1"), row("X9")))
    drop(original, "2.csv", _mended(original))
    drop(original, "3.csv", table(row("A1", "R0", issue="2", p="36", reported="2027-02-12")))
    drop(original, "4.csv", b"no table at all")
    dropped = inbox(original)
    undisturbed = copied(original, tmp_path / "undisturbed" / "book")
    assert not _intake_here(undisturbed, 0)
    expected = _records(undisturbed)
    number = 1
    while True:
        book = copied(original, tmp_path / str(number) / "book")
        failed = _intake_here(book, number)
        _assert_nothing_is_lost(book, dropped)
        if failed:
            assert not _intake_here(book, 0)
        assert inbox(book) == []
        assert _records(book) == expected, f"write {number}"
        if not failed:
            break
        number += 1
    assert number > 4 * len(dropped)
