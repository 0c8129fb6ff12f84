"""Hostile files dropped into one inbox: every row accounted for, every reason located, time and memory bounded."""

from __future__ import annotations

import subprocess
import time
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.acceptance.intake_book import add_notes, drop, inbox, received, results
from tests.acceptance.processes import peak_memory
from tests.acceptance.small_book import command, edit, soilrota, untraced, write_book
from tests.hostile.making import hostile_files, table_rows

LABORATORY = """\
name: Laboratory of the invented table
country: AU
turnaround_working_days: 5
courier_days: 1
forms:
  - name: table
    numbers: {decimal: "."}
    sample: Bag
    report: Report
    sampled: Sampled
    received: Received
    columns:
      - {heading: pH CaCl2, analysis: ph.cacl2, unit: pH}
      - {heading: P Colwell mg/kg, analysis: phosphorus.colwell, unit: mg/kg}
      - {heading: K Colwell mg/kg, analysis: potassium.colwell, unit: mg/kg}
"""
#: Bags that field notes name; the others of the files are unknown.
NOTED = 40
#: What a worker may take on top of what it has [MB], the address space of every process [KiB], the memory that the
#: largest may have used [byte], and how long all files may take [s].
WORKER_MB = 1024
ADDRESS_SPACE_KB = 3 << 20
MOST_MEMORY = 700 << 20
LONGEST_S = 240
#: Files that have headings and no row: there is nothing to accept and nothing to set aside.
WITHOUT_ROWS = {"cut_01.csv", "cut_wide_01.csv", "header_without_end.csv", "only_header.csv"}


@dataclass(frozen=True)
class Taken:
    """An intake of all hostile files: the book, the files' names, what was said, and what it took [s, byte]."""

    book: Path
    names: frozenset[str]
    words: str
    code: int
    took_s: float
    peak: int


@pytest.fixture(scope="module")
def taken(tmp_path_factory: pytest.TempPathFactory) -> Taken:
    """Drop every hostile file into one inbox, and take it in, every process with little memory."""
    book = write_book(tmp_path_factory.mktemp("hostile") / "book", ("alder-farm",))
    edit(book / "practice.yaml", "deadline_s: 60, memory_mb: 1024", f"deadline_s: 30, memory_mb: {WORKER_MB}")
    (book / "laboratories").mkdir()
    (book / "laboratories" / "bench.yaml").write_text(LABORATORY, encoding="utf-8")
    add_notes(book, "alder-farm", {cells[0]: cells[2] for cells in table_rows(NOTED)})
    files = dict(hostile_files())
    for name, content in files.items():
        drop(book, name, content)
    words = command("intake", book, "--out", book.parent / "out", "--as-of", "2027-03-01", "--jobs", "2")
    bounded = ["sh", "-c", f'ulimit -v {ADDRESS_SPACE_KB}; exec "$@"', "sh", *words]
    said = book.parent / "said.txt"
    began, peak = time.monotonic(), 0
    with (
        said.open("wb") as stream,
        subprocess.Popen(bounded, stdout=stream, stderr=stream, env=untraced(), start_new_session=True) as running,
    ):
        while running.poll() is None:
            peak = max(peak, peak_memory(running.pid))
            time.sleep(0.1)
    took_s = time.monotonic() - began
    return Taken(book, frozenset(files), said.read_text(encoding="utf-8"), running.returncode, took_s, peak)


def test_rows_wait_and_nothing_falls_over(taken: Taken) -> None:
    """Exit code 1, because rows wait; no traceback, within its time and its memory."""
    assert taken.code == 1, taken.words
    assert "Traceback" not in taken.words
    assert "What went wrong" not in taken.words
    assert taken.took_s < LONGEST_S
    assert 0 < taken.peak < MOST_MEMORY
    assert all(line.isprintable() for line in taken.words.split("\n"))


def test_every_file_came_in(taken: Taken) -> None:
    """The inbox is empty; each has its record, or is told to be the same as another."""
    assert inbox(taken.book) == []
    again = {line.partition(": the same file came on")[0].strip() for line in taken.words.splitlines()}
    lost = taken.names - received(taken.book).keys()
    assert {name.replace("\u202e", "\ufffd") for name in lost} <= again
    assert len(lost) == 2


def test_rows_are_accepted_or_wait_with_a_located_reason(taken: Taken) -> None:
    """`received` saw that rows add up; every reason names its file, and of a row its line."""
    accepted = 0
    records = received(taken.book)
    assert {name for name, record in records.items() if not record["rows"] and not record["refused"]} == WITHOUT_ROWS
    for name, record in records.items():
        accepted += len(record["accepted"])
        for reason in record["refused"]:
            assert (reason["file"], bool(reason["mend"])) == (f"inbox/{name}", True)
        assert all(record["waiting"].values())
        for reason in (reason for reasons in record["waiting"].values() for reason in reasons):
            assert (reason["file"], reason["line"] >= 1, bool(reason["mend"])) == (f"inbox/{name}", True, True)
    assert accepted > NOTED


def test_the_book_is_in_order_afterwards(taken: Taken) -> None:
    """What was accepted is valid, and no value stands twice."""
    assert results(taken.book, "alder-farm")
    done = soilrota("check", taken.book)
    assert done.returncode == 0, done.stdout
