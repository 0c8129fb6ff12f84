"""`soilrota check`: problems on standard output, ways to name what to check, exit codes."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from soilrota.cli import main
from tests.acceptance.small_book import edit, untraced

ROOT = Path(__file__).resolve().parents[2]
LOADED = """
import sys
from soilrota.cli import main
code = main(["check", sys.argv[1]])
assert code == 0, code
heavy = {"weasyprint", "jinja2", "pandas", "soilrota.documents", "pebble", "multiprocessing"} & set(sys.modules)
assert not heavy, heavy
"""


@pytest.fixture
def wrong(book: Path) -> Path:
    """Return a book of which one client has an error, and another a warning."""
    edit(book / "clients" / "cedar-farm" / "client.yaml", "area_ha: 9", "area_ha: nine")
    edit(book / "clients" / "birch-farm" / "applications.csv", "home,flat,", "home,,")
    return book


def test_problems_stand_one_a_line_where_editors_jump_to(wrong: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Path, line and column, severity and code; the sum is on standard error; errors exit with 1."""
    assert main(["check", str(wrong)]) == 1
    out, err = capsys.readouterr()
    first, second = out.splitlines()
    assert first.startswith(f"{wrong}/clients/birch-farm/applications.csv:2:")
    assert ": warning [no-zone-named] " in first
    assert second.startswith(f"{wrong}/clients/cedar-farm/client.yaml:16:18: error [")
    assert err == "soilrota: 3 clients checked: 1 error, 1 warning\n"


def test_inside_the_book_places_are_as_short_as_they_can_be(
    wrong: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """`soilrota check .` names files from the book's folder."""
    monkeypatch.chdir(wrong)
    assert main(["check", "."]) == 1
    assert capsys.readouterr().out.startswith("clients/birch-farm/applications.csv:2:")


def test_warnings_alone_are_no_reason_to_stop(wrong: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A client that has only a warning exits with 0."""
    assert main(["check", str(wrong), "--only", "birch-farm"]) == 0
    assert "no-zone-named" in capsys.readouterr().out


def test_json_for_programs(wrong: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One list of records; an empty one where all is well."""
    assert main(["check", "--json", str(wrong)]) == 1
    warning, error = json.loads(capsys.readouterr().out)
    assert (warning["severity"], error["severity"]) == ("warning", "error")
    assert (error["book"], error["file"], error["line"]) == (str(wrong), "clients/cedar-farm/client.yaml", 16)
    assert main(["check", "--json", str(wrong), "--only", "alder-farm"]) == 0
    assert json.loads(capsys.readouterr().out) == []


@pytest.mark.parametrize(
    ("names", "clients", "code"),
    [
        (["clients/alder-farm/client.yaml"], 1, 0),
        (["clients/alder-farm/client.yaml", "clients/cedar-farm/applications.csv"], 2, 1),
        (["clients/alder-farm"], 1, 0),
        (["practice.yaml"], 3, 1),
        (["clients/alder-farm/client.yaml", "protocols.yaml"], 3, 1),
    ],
)
def test_files_of_a_book_name_what_to_check(
    wrong: Path, capsys: pytest.CaptureFixture[str], names: list[str], clients: int, code: int
) -> None:
    """A client's file checks that client, a shared file every client: the way a commit hook calls."""
    assert main(["check", *(str(wrong / name) for name in names)]) == code
    noun = "client" if clients == 1 else "clients"
    assert f"{clients} {noun} checked" in capsys.readouterr().err


def test_nothing_to_check_exits_with_2(book: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A path that is in no book, one that does not exist, an unknown client."""
    (tmp_path / "other.yaml").touch()
    for path in (tmp_path / "other.yaml", book / "clients" / "nobody" / "client.yaml", tmp_path):
        assert main(["check", str(path)]) == 2
        assert "no practice.yaml there or above" in capsys.readouterr().err
    assert main(["check", str(book), "--only", "nobody"]) == 2
    assert capsys.readouterr().out == ""


def test_no_check_loads_what_sets_pages(book: Path) -> None:
    """A check stays quick: no PDF writer, no templates, no workers."""
    done = subprocess.run(
        [sys.executable, "-c", LOADED, str(book)],
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
        env=untraced(),
    )
    assert (done.returncode, done.stderr) == (0, "soilrota: 3 clients checked: 0 errors, 0 warnings\n")


def test_the_commit_hook_calls_this_command_for_the_files_of_a_book() -> None:
    """The shipped hook names the command, and its pattern takes a book's files and leaves others alone."""
    (hook,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    assert (hook["entry"], hook["language"], hook["require_serial"]) == ("soilrota check", "python", True)
    for name in (
        "practice.yaml",
        "book/protocols.yaml",
        "book/laboratories/bench.yaml",
        "book/clients/alder-farm/client.yaml",
        "book/clients/alder-farm/map.geojson",
        "clients/alder-farm/field_notes.csv",
        "book/records/results/alder-farm/r1.csv",
    ):
        assert re.search(hook["files"], name), name
    for name in ("README.md", ".github/workflows/test.yaml", "clients/alder-farm/notes.txt", "my-practice.yaml"):
        assert not re.search(hook["files"], name), name
