"""Whole nights by the command line, with real programmes."""

from __future__ import annotations

import csv
import io
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.acceptance.small_book import CLIENTS, edit, last_run, night, outcomes, soilrota, tree

ALL_MADE = dict.fromkeys(CLIENTS, "made")
ALL_UNCHANGED = dict.fromkeys(CLIENTS, "unchanged")
CALENDAR = ("field_calendar.csv", "field_calendar.pdf")
#: What a client's folder holds: the visit of each small client is in the coming weeks.
PAPERS = ("field_pack-home-1.pdf", "labels-home-1.pdf", "programme.pdf", "windows.ics")
QUIET = """
import sys
from soilrota.cli import main
code = main(["overnight", sys.argv[1], "--out", sys.argv[2], "--as-of", "2027-02-17"])
assert code == 0, code
third_party = {"yaml", "jsonschema", "shapely", "weasyprint", "jinja2", "pebble", "dateutil", "babel"}
assert not third_party & set(sys.modules), third_party & set(sys.modules)
"""


def _times(out: Path) -> dict[str, int]:
    """Return when every file but the report, and the page that bears each night's day, was last written [ns]."""
    dated = {"run.json", "season.html"}
    files = (path for path in out.rglob("*") if path.is_file() and path.name not in dated)
    return {str(path): path.stat().st_mtime_ns for path in files}


def test_first_night_second_night_and_a_new_output_folder(book: Path, out: Path) -> None:
    """Made; then unchanged without a byte moved, on the same date and the next; then the same bytes from nothing."""
    done = night(book, out, "--jobs", "2")
    assert done.returncode == 0, done.stderr
    assert outcomes(out) == ALL_MADE
    assert "3 clients: 3 made" in done.stdout
    assert sorted(tree(out)) == [
        *(f"clients/{client}/{paper}" for client in CLIENTS for paper in PAPERS),
        *CALENDAR,
        "season.csv",
        "season.html",
    ]
    assert all(path.read_bytes()[:5] == b"%PDF-" for path in out.rglob("*.pdf"))
    made, times = tree(out), _times(out)
    for day in ("2027-02-15", "2027-02-16"):
        assert night(book, out, as_of=day).returncode == 0
        assert outcomes(out) == ALL_UNCHANGED
        assert (tree(out), _times(out)) == (made, times)
    shutil.rmtree(out)
    assert night(book, out, "--jobs", "1", as_of="2027-02-17").returncode == 0
    assert tree(out) == made
    quiet = subprocess.run([sys.executable, "-c", QUIET, book, out], capture_output=True, text=True, check=False)
    assert quiet.returncode == 0, quiet.stderr


def test_the_season_table(book: Path, out: Path) -> None:
    """One row a task, every client, in order, without the date of the night."""
    night(book, out)
    text = (out / "season.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert [row["client"] for row in rows] == list(CLIENTS)
    assert {row["best_day"] for row in rows} == {"2027-02-19"}
    assert {row["standing"] for row in rows} == {"current"}
    assert "2027-02-15" not in text


MISTAKES = (
    ("hemisphere: southern", "hemisphere: south"),
    ("country: AU", "country: Australia"),
    ("adviser: ann-lee", "adviser: Ann Lee"),
    ("    role: manager", "    rol: manager"),
    ("  - id: home", "  - id: Home Block"),
    ("        soil_type: grey clay", "        soiltype: grey clay"),
    ("        land_use: pasture", "        land_use: grass"),
    ("        landscape_position: flat", "        landscape_position: plain"),
    ("        area_ha: 9", "        area_ha: nine"),
    ("        protocols: [topsoil]", "        protocols: topsoil"),
    ("day: 2026-02-20", "day: 20/02/2026"),
    ("name: Birch Farm", "name: 12"),
)


def test_twelve_mistakes_in_one_client_are_twelve_places_and_stop_nobody_else(book: Path, out: Path) -> None:
    """Every mistake has its own line in the output; the other clients' programmes are made."""
    path = book / "clients" / "birch-farm" / "client.yaml"
    edit(path, "  - {name: Lou Example, role: manager}", "  - name: Lou Example\n    role: manager")
    for right, wrong in MISTAKES:
        edit(path, right, wrong)
    lines = path.read_text(encoding="utf-8").splitlines()
    wanted = {number for number, line in enumerate(lines, 1) if any(wrong in line for _, wrong in MISTAKES)}
    assert len(wanted) == len(MISTAKES) == 12

    done = night(book, out)
    assert done.returncode == 1
    assert outcomes(out) == {**ALL_MADE, "birch-farm": "problems"}
    problems = {entry["client"]: entry["problems"] for entry in last_run(out)["clients"]}["birch-farm"]
    assert wanted <= {problem["line"] for problem in problems}
    assert all(problem["mend"] and problem["column"] for problem in problems)
    for line in wanted:
        assert f"  clients/birch-farm/client.yaml:{line}:" in done.stderr
    assert "Traceback" not in done.stderr
    assert sorted(path.parent.name for path in out.rglob("programme.pdf")) == ["alder-farm", "cedar-farm"]


def test_one_change_makes_one_programme(book: Path, out: Path) -> None:
    """A changed client alone is rendered; a touched, a damaged and a missing file are told apart."""
    night(book, out)
    before = tree(out)
    edit(book / "clients" / "alder-farm" / "client.yaml", "name: Flat", "name: River flat")
    os.utime(book / "clients" / "cedar-farm" / "client.yaml", (1, 1))
    os.truncate(out / "clients" / "birch-farm" / "programme.pdf", 100)
    assert night(book, out, as_of="2027-02-16").returncode == 0
    assert outcomes(out) == {"alder-farm": "made", "birch-farm": "made", "cedar-farm": "unchanged"}
    after = tree(out)
    assert {name for name in after if after[name] != before[name]} == {
        *(f"clients/alder-farm/{paper}" for paper in PAPERS),
        *CALENDAR,
        "season.csv",
        "season.html",
    }
    dates = {entry["client"]: entry["documents"][0]["date"] for entry in last_run(out)["clients"]}
    assert dates == {"alder-farm": "2027-02-16", "birch-farm": "2027-02-15", "cedar-farm": "2027-02-15"}


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("practice.yaml", "name: [", "practice.yaml:"),
        ("protocols.yaml", "protocols: 3\n", "protocols.yaml:1:"),
        ("practice.yaml", None, "no practice.yaml"),
    ],
)
def test_nothing_is_begun_where_the_shared_files_are_wrong(
    book: Path, out: Path, name: str, content: str | None, said: str
) -> None:
    """Exit code 2, the reason on standard error, nothing made."""
    (book / name).unlink()
    if content is not None:
        (book / name).write_text(content, encoding="utf-8")
    done = night(book, out)
    assert (done.returncode, done.stdout) == (2, "")
    assert said in done.stderr
    assert not out.exists()


def test_a_first_book_from_new_to_programme(tmp_path: Path, out: Path) -> None:
    """`new` in a book that is there, filled in by hand, gives a programme the same night."""
    book = tmp_path / "book"
    assert soilrota("new", book, "alder-farm").returncode == 0
    assert soilrota("check", book).returncode == 1
    done = night(book, out)
    assert done.returncode == 2
    assert "[blank-left]" in done.stderr
