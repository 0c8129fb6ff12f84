"""Nights in which nothing changed are over at once, and leave what a night leaves that looks at every client."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

import pytest

from soilrota.cli import main
from tests.acceptance.small_book import AS_OF, copied, edit, last_run, night, soilrota, tree, untraced

DAYS = 60 if os.environ.get("SOILROTA_LONG") else 8
_TIMES = re.compile(r"[0-9.]+ s\b")
#: Loaded by a night that looks at clients, by none that need not.
_HEAVY = ("soilrota.batch.night", "soilrota.batch.ledger", "dataclasses", "sqlite3", "tqdm", "multiprocessing")


def told(capsys: pytest.CaptureFixture[str], book: Path, out: Path, day: date) -> tuple[int, str, str]:
    """Run a night in this process; return its exit code and what it said, without how long it took."""
    code = main(["overnight", str(book), "--out", str(out), "--as-of", str(day)])
    said = capsys.readouterr()
    return code, _TIMES.sub("", said.out), "\n".join(sorted(_TIMES.sub("", said.err).splitlines()))


def report(out: Path) -> dict[str, object]:
    """Return the report of the last night, without its times."""
    clients = [{**entry, "took_s": 0} for entry in last_run(out)["clients"]]
    return {**last_run(out), "started": "", "took_s": 0, "clients": clients}


def test_the_same_comes_of_every_night(book: Path, out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Days on end, each of them twice, with and without what a night kept: same words, same files, same report."""
    other, other_out = copied(book, book.with_name("other")), out.with_name("other-out")
    still = 0
    for number in range(2 * DAYS):
        day = date.fromisoformat(AS_OF) + timedelta(days=number // 2)
        (other / "records" / "still.json").unlink(missing_ok=True)
        kept = mark(book)
        assert told(capsys, book, out, day) == told(capsys, other, other_out, day)
        still += kept is not None and mark(book) == kept
        assert report(out) == report(other_out)
        assert tree(out) == tree(other_out)
        assert (out / "season.html").read_bytes() == (other_out / "season.html").read_bytes()
    assert still >= DAYS


def mark(book: Path) -> int | None:
    """Return when what a night keeps was last written [ns]; None where it is not there."""
    kept = book / "records" / "still.json"
    return kept.stat().st_mtime_ns if kept.exists() else None


def test_nothing_is_loaded_that_looks_at_clients(book: Path, out: Path) -> None:
    """The command ends before it needs anything else; a change brings the whole night back."""
    for _ in range(2):
        assert night(book, out).returncode == 0
    words = ["overnight", str(book), "--out", str(out), "--as-of", AS_OF]
    script = f"import sys; from soilrota.cli import main; print(main({words!r}), *sorted(sys.modules))"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, env=untraced())
    assert done.stdout.splitlines()[1].split()[0] == "0"
    assert not {*_HEAVY} & {*done.stdout.split()}
    edit(book / "clients" / "alder-farm" / "client.yaml", "Flat", "Low flat")
    assert night(book, out).stdout.startswith("as of 2027-02-15: 3 clients: 1 made, 2 unchanged; ")


def test_a_log_tells_the_same_of_every_night(book: Path, out: Path) -> None:
    """Made, looked at and found unchanged, not even looked at: the same events, the last two in the same words."""
    log = out.with_name("log.jsonl")
    for _ in range(3):
        assert night(book, out, "--log", log).returncode == 0
    events = [json.loads(line) for line in log.read_text().splitlines()]
    nights = [events[:5], events[5:10], events[10:]]
    assert [[event["event"] for event in one] for one in nights] == [["begin", *["client"] * 3, "end"]] * 3
    told = [[{**event, "at": "", "took_s": 0, "sum": ""} for event in one] for one in nights]
    assert told[1] == told[2]
    assert [event.keys() for event in nights[1]] == [event.keys() for event in nights[2]]
    assert "1 client: 1 unchanged" in night(book, out, "--only", "birch-farm").stdout
    assert "3 clients: 3 unchanged" in night(book, out).stdout


def test_the_day_of_the_practice_is_asked_for(book: Path, out: Path) -> None:
    """Without a date it is today's in the practice's time zone, in a quiet night as in any other."""
    for _ in range(3):
        done = soilrota("overnight", book, "--out", out)
        assert done.returncode == 0
    assert last_run(out)["as_of"] in done.stdout
