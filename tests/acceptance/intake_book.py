"""What the tests of the intake share: files dropped into the inbox, the command, and what stands in the records."""

from __future__ import annotations

import csv
import json
import os
import subprocess
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from tests.acceptance.small_book import AS_OF, soilrota

#: Long before any test: what is dropped has been quiet for long enough.
_OLD = 1_000_000_000
_BENCH = """\
name: Bench Laboratory
country: AU
turnaround_working_days: 5
courier_days: 1
forms:
  - name: table
    numbers: {decimal: "."}
    sample: Bag
    report: Report
    issue: Issue
    sampled: Sampled
    reported: Reported
    depth: Depth
    columns:
      - {heading: pH, analysis: ph.cacl2, unit: pH}
      - {heading: P, analysis: phosphorus.colwell, unit: mg/kg, low: 2}
"""
HEADINGS = "Bag,Report,Issue,Sampled,Reported,Depth,pH,P"
NOTES = "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note"


def add_laboratory(book: Path, name: str = "bench") -> None:
    """Write a laboratory with one form into a book."""
    path = book / "laboratories" / f"{name}.yaml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(_BENCH, encoding="utf-8")


def add_notes(book: Path, client: str, bags: Mapping[str, str]) -> None:
    """Write field notes of a small client's only zone: the day of sampling of each bag."""
    path = book / "clients" / client / "field_notes.csv"
    before = path.read_text(encoding="utf-8") if path.exists() else f"{NOTES}\n"
    rows = (f"{day},home,flat,topsoil,0,10,25,moist,Lee,{bag},\n" for bag, day in bags.items())
    path.write_text(before + "".join(rows), encoding="utf-8")


def table(*rows: str) -> bytes:
    """Return a file of the laboratory: its headings and rows of text."""
    return "\n".join([HEADINGS, *rows, ""]).encode()


def row(bag: str, report: str = "R1", day: str = "2027-02-01", ph: str = "5.1", p: str = "30", **more: str) -> str:
    """Return a row of the laboratory; `issue`, `reported` and `depth` may be given."""
    facts = [bag, report, more.get("issue", "1"), day, more.get("reported", "2027-02-10"), more.get("depth", "0-10")]
    return ",".join([*facts, ph, p])


def drop(book: Path, name: str, content: bytes) -> Path:
    """Put a file into the inbox, as if it had lain there for long."""
    path = book / "inbox" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    os.utime(path, (_OLD, _OLD))
    return path


def inbox(book: Path) -> list[str]:
    """Return what lies in the inbox."""
    folder = book / "inbox"
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def intake(book: Path, out: Path, *words: str, as_of: str = AS_OF, **options: Any) -> subprocess.CompletedProcess[str]:
    """Run an intake over the book."""
    return soilrota("intake", book, "--out", out, "--as-of", as_of, *words, **options)


def received(book: Path) -> dict[str, dict[str, Any]]:
    """Return the record of every file that came, by its name in the inbox; their rows all add up."""
    paths = sorted((book / "records" / "received").glob("*.json"))
    records = [json.loads(path.read_text(encoding="utf-8")) for path in paths]
    for record in records:
        assert_adds_up(record)
    return {record["name"]: record for record in records}


def assert_adds_up(record: Mapping[str, Any]) -> None:
    """See that every row of a file is accepted, waits or is settled, and none is two of them."""
    waiting, settled = ({int(number) for number in record[name]} for name in ("waiting", "settled"))
    accepted = set(record["accepted"])
    assert len(record["accepted"]) == len(accepted)
    assert len(accepted | waiting | settled) == len(accepted) + len(waiting) + len(settled), record["name"]
    assert record["rows"] == len(accepted) + len(waiting) + len(settled), record["name"]
    assert bool(record["refused"]) <= (not record["rows"]), record["name"]


def waiting(book: Path, name: str) -> dict[int, list[str]]:
    """Return the codes of the reasons of each row of a file that waits."""
    reasons = received(book)[name]["waiting"]
    return {int(number): [one["code"] for one in found] for number, found in reasons.items()}


def results(book: Path, client: str) -> list[dict[str, str]]:
    """Return the rows of all accepted results of a client; none stands twice."""
    found: list[dict[str, str]] = []
    for path in sorted((book / "records" / "results" / client).glob("*.csv")):
        found += csv.DictReader(path.read_text(encoding="utf-8").splitlines())
    names = ("laboratory", "report", "issue", "bag", "farm", "zone", "sampled", "top_cm", "analyte", "method")
    keys = [tuple(one[name] for name in names) for one in found]
    assert len(set(keys)) == len(keys)
    return found


def values(book: Path, client: str, names: Iterable[str] = ("report", "issue", "bag", "analyte", "value")) -> list[str]:
    """Return accepted results of a client in short, sorted."""
    return sorted(" ".join(one[name] for name in names) for one in results(book, client))
