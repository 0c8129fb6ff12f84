"""A book of three small clients, written into a folder; each test says what it changes in it."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from hashlib import sha256
from pathlib import Path
from typing import Any

CLIENTS = ("alder-farm", "birch-farm", "cedar-farm")
AS_OF = "2027-02-15"
PRACTICE = """\
name: Small Soil Practice
time_zone: Australia/Melbourne
contact: 1 Example Lane
people:
  - {id: ann-lee, name: Ann Lee, role: adviser}
seasons:
  - id: late-summer
    name: Late summer
    southern: [{first: 01-20, last: 03-31}]
night: {deadline_s: 60, memory_mb: 1024}
"""
PROTOCOLS = """\
protocols:
  - id: topsoil
    name: Topsoil
    season: late-summer
    interval_months: 12
    layers:
      - {top_cm: 0, bottom_cm: 10}
    pattern: transect
    largest_area_ha: 20
    analyses: [ph.cacl2, phosphorus.colwell]
"""
CLIENT = """\
name: {name}
hemisphere: southern
country: AU
adviser: ann-lee
contacts:
  - {{name: Lou Example, role: manager}}
farms:
  - id: home
    name: Home
    zones:
      - id: flat
        name: Flat
        soil_type: grey clay
        land_use: pasture
        landscape_position: flat
        area_ha: 9
        protocols: [topsoil]
        last_sampled:
          - {{protocol: topsoil, day: 2026-02-20}}
"""
APPLICATIONS = """\
farm,zones,class,material,first_day,last_day,standing,rate_kg_ha,note
home,flat,mineral-fertiliser,superphosphate,2026-10-01,2026-10-03,done,120,
"""


def write_book(root: Path, clients: tuple[str, ...] = CLIENTS) -> Path:
    """Write the small book, and return its folder."""
    (root / "clients").mkdir(parents=True)
    (root / "practice.yaml").write_text(PRACTICE, encoding="utf-8")
    (root / "protocols.yaml").write_text(PROTOCOLS, encoding="utf-8")
    for client in clients:
        folder = root / "clients" / client
        folder.mkdir()
        name = client.replace("-", " ").title()
        (folder / "client.yaml").write_text(CLIENT.format(name=name), encoding="utf-8")
        (folder / "applications.csv").write_text(APPLICATIONS, encoding="utf-8")
    return root


def edit(path: Path, old: str, new: str) -> None:
    """Replace a text that stands in a file."""
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def untraced() -> dict[str, str]:
    """Return the environment without coverage, which loads modules and writes files of its own in each process."""
    return {name: value for name, value in os.environ.items() if not name.startswith("COVERAGE")}


def soilrota(*words: str | Path, **options: Any) -> subprocess.CompletedProcess[str]:
    """Run the command as a user would, in a process of its own."""
    return subprocess.run(
        command(*words), capture_output=True, text=True, timeout=300, check=False, stdin=subprocess.DEVNULL, **options
    )


def command(*words: str | Path) -> list[str]:
    """Return the command line."""
    return [sys.executable, "-m", "soilrota.cli", *map(str, words)]


def night(book: Path, out: Path, *words: str, as_of: str = AS_OF) -> subprocess.CompletedProcess[str]:
    """Run a night over the book."""
    return soilrota("overnight", book, "--out", out, "--as-of", as_of, *words)


def outcomes(out: Path) -> dict[str, str]:
    """Return the outcome of every client of the last night."""
    return {entry["client"]: entry["outcome"] for entry in last_run(out)["clients"]}


def last_run(out: Path) -> dict[str, Any]:
    """Return the report of the last night."""
    report: dict[str, Any] = json.loads((out / "run.json").read_text(encoding="utf-8"))
    return report


def tree(out: Path) -> dict[str, str]:
    """Return the digest of every file below the output folder but the report, by path; of the page without its day."""
    files = (path for path in sorted(out.rglob("*")) if path.is_file() and path.name != "run.json")
    return {path.relative_to(out).as_posix(): sha256(_undated(path)).hexdigest() for path in files}


def _undated(path: Path) -> bytes:
    """Return the bytes of a file; of the season page without the as-of date, which every night puts in."""
    content = path.read_bytes()
    return re.sub(rb'<time class="as-of".*?</time>', b"", content) if path.name == "season.html" else content


def copied(book: Path, to: Path) -> Path:
    """Return a copy of a book without its ledger."""
    shutil.copytree(book, to, ignore=shutil.ignore_patterns("ledger*", "night.lock"))
    return to
