"""Nights that are cut off, doubled, or have nowhere to write."""

from __future__ import annotations

import os
import random
import resource
import signal
import sqlite3
import subprocess
import time
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tests.acceptance.processes import all_gone, session
from tests.acceptance.small_book import AS_OF, CLIENTS, command, copied, night, outcomes, tree, untraced, write_book

#: Moments at which a night is killed; the full count runs once before an issue is closed.
KILLS = 50 if os.environ.get("SOILROTA_LONG") else 5


@pytest.fixture(scope="module")
def unbroken(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, str], float]:
    """Return a book, the tree that an unbroken night makes of it, and how long the night took [s]."""
    book = write_book(tmp_path_factory.mktemp("unbroken") / "book")
    out = book.parent / "out"
    began = time.monotonic()
    assert night(copied(book, book.parent / "copy"), out, "--jobs", "2").returncode == 0
    return book, tree(out), time.monotonic() - began


def _start(book: Path, out: Path, **options: Any) -> subprocess.Popen[str]:
    """Start a night that is not waited for."""
    words = command("overnight", book, "--out", out, "--as-of", AS_OF, "--jobs", "2")
    return subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, **options)


@pytest.mark.parametrize("seed", range(KILLS))
def test_killed_at_any_moment_and_completed_by_the_next_night(
    unbroken: tuple[Path, dict[str, str], float], tmp_path: Path, seed: int
) -> None:
    """After kill -9 only whole files, a sound ledger, no orphans; the next night ends as an unbroken one."""
    original, expected, took_s = unbroken
    book, out = copied(original, tmp_path / "book"), tmp_path / "out"
    with _start(book, out, start_new_session=True) as running:
        time.sleep(random.Random(seed).uniform(0.0, took_s))
        running.kill()
        running.communicate()
        assert all_gone(running.pid)
    half = {name: digest for name, digest in (tree(out) if out.exists() else {}).items() if not name.endswith(".tmp")}
    assert half.items() <= expected.items()
    ledger = book / "records" / "ledger.sqlite"
    remembered = _remembered(ledger) if ledger.exists() else {}
    assert remembered.items() <= expected.items()
    done = night(book, out, "--jobs", "2")
    assert done.returncode == 0, done.stderr
    assert tree(out) == expected
    assert _remembered(ledger).keys() == {f"clients/{client}/programme.pdf" for client in CLIENTS}
    kept = [name for name in remembered if outcomes(out)[name.split("/")[1]] == "unchanged"]
    assert len(kept) == len(remembered), "what was finished before the kill is not made again"


def _remembered(ledger: Path) -> dict[str, str]:
    """Return the digests of documents that a sound ledger holds, by path."""
    with closing(sqlite3.connect(ledger)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        rows = connection.execute("SELECT client, document, output FROM documents").fetchall()
    return {f"clients/{client}/{document}": output for client, document, output in rows}


@pytest.mark.parametrize(("number", "code"), [(signal.SIGTERM, 143), (signal.SIGINT, 130)])
def test_asked_to_end(
    unbroken: tuple[Path, dict[str, str], float], tmp_path: Path, number: signal.Signals, code: int
) -> None:
    """A signal while clients are at work: its exit code, no traceback, no orphan, and the next night completes."""
    original, expected, _ = unbroken
    book, out = copied(original, tmp_path / "book"), tmp_path / "out"
    with _start(book, out, start_new_session=True) as running:
        _wait_for(lambda: len(session(running.pid)) > 2)
        time.sleep(0.3)
        running.send_signal(number)
        _, err = running.communicate(timeout=10)
        assert running.returncode == code
        assert "Traceback" not in err
        assert "not-reached" in err
        assert all_gone(running.pid)
    assert night(book, out).returncode == 0
    assert tree(out) == expected


def _wait_for(condition: Callable[[], bool]) -> None:
    """Wait until a condition holds."""
    until = time.monotonic() + 20
    while not condition():
        assert time.monotonic() < until
        time.sleep(0.02)


def test_two_nights_at_once(unbroken: tuple[Path, dict[str, str], float], tmp_path: Path) -> None:
    """The second is refused within a second, naming the first; it disturbs nothing."""
    original, expected, _ = unbroken
    book, out = copied(original, tmp_path / "book"), tmp_path / "out"
    with _start(book, out) as first:
        lock = book / "records" / "night.lock"
        _wait_for(lambda: lock.exists() and f"process {first.pid}" in lock.read_text(encoding="utf-8"))
        began = time.monotonic()
        second = night(book, tmp_path / "other")
        assert time.monotonic() - began < 1
        assert second.returncode == 3
        assert f"process {first.pid} on {os.uname().nodename} since 20" in second.stderr
        first.communicate()
        assert first.returncode == 0
    assert tree(out) == expected
    assert not (tmp_path / "other").exists()


def test_no_room_on_the_disk_leaves_the_old_files_whole(
    unbroken: tuple[Path, dict[str, str], float], tmp_path: Path
) -> None:
    """No file may grow beyond a few bytes: exit code 1, the earlier programmes stand, the next night makes the new."""
    original, expected, _ = unbroken
    book, out = copied(original, tmp_path / "book"), tmp_path / "out"
    assert night(book, out).returncode == 0
    path = book / "clients" / "alder-farm" / "client.yaml"
    zone = path.read_text(encoding="utf-8").partition("    zones:\n")[2]
    more = "".join(zone.replace("id: flat", f"id: flat-{number}") for number in range(12))
    path.write_text(path.read_text(encoding="utf-8") + more, encoding="utf-8")
    room = 36_000  # the ledger and its index of 32 KiB have room, a programme of 13 zones has not
    with _start(book, out, preexec_fn=lambda: _limit_files(room), env=untraced()) as running:
        _, err = running.communicate(timeout=120)
    assert running.returncode == 1
    assert "could not be written: File too large" in err
    assert "Traceback" not in err
    assert tree(out) == expected
    assert night(book, out).returncode == 0
    assert outcomes(out)["alder-farm"] == "made"
    assert (out / "clients" / "alder-farm" / "programme.pdf").stat().st_size > room


def _limit_files(size: int) -> None:
    """Let no file of this process grow beyond a size [byte]; such a write fails as on a full disk."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def test_an_output_folder_that_is_a_file(book: Path, out: Path) -> None:
    """Exit code 2, and the file is left as it was."""
    out.write_text("a letter", encoding="utf-8")
    done = night(book, out)
    assert done.returncode == 2
    assert "cannot be made ready" in done.stderr
    assert out.read_text(encoding="utf-8") == "a letter"


def test_a_damaged_ledger_stops_the_night_until_somebody_decides(book: Path, out: Path) -> None:
    """Exit code 2 both times: the damaged file is put aside, and nothing is begun anew behind anybody's back."""
    (book / "records").mkdir()
    (book / "records" / "ledger.sqlite").write_bytes(b"no ledger")
    for _ in range(2):
        done = night(book, out)
        assert done.returncode == 2
        assert "ledger.sqlite.damaged-1" in done.stderr
    assert (book / "records" / "ledger.sqlite.damaged-1").read_bytes() == b"no ledger"
