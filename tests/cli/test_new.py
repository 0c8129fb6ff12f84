"""`soilrota new`: first files with marked blanks that the check lists until they are filled in."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from soilrota.batch.checking import check_book
from soilrota.cli import main

FILLED = {
    "name of the practice": "Small Soil Practice",
    "IANA name": "Australia/Melbourne",
    "one line for the foot": "1 Example Lane",
    "short id of the adviser": "ann-lee",
    "name of the adviser": "Ann Lee",
    "analyte and method": "phosphorus.olsen",
    "name of the client": "Alder Farm",
    "southern or northern": "southern",
    "two letters": "AU",
    "id of a person": "ann-lee",
    "name of a person": "Lou Example",
    "name of the farm": "Home",
    "short id of the zone": "flat",
    "name of the zone": "Flat",
    "soil type": "grey clay",
    "crop or pasture": "pasture",
    "flat or crest": "flat",
    "area in hectares": "9",
}


def _fill(book: Path) -> None:
    """Write something fitting into every blank of a book."""
    for path in sorted(book.rglob("*.yaml")):
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        for number, line in enumerate(lines):
            for wanted, value in FILLED.items():
                if f"__FILL__ {wanted}" in line:
                    lines[number] = re.sub("__FILL__.*", value, line)
        path.write_text("".join(lines), encoding="utf-8")


def test_a_new_book_lists_its_blanks_and_passes_once_they_are_filled(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Practice, protocols and client are begun; every blank is a located problem, and nothing else is wrong."""
    book = tmp_path / "book"
    assert main(["new", str(book), "alder-farm"]) == 0
    assert capsys.readouterr().out.splitlines()[:3] == [
        f"{book}/practice.yaml",
        f"{book}/protocols.yaml",
        f"{book}/clients/alder-farm/client.yaml",
    ]
    problems = check_book(book, None).problems
    assert len(problems) == len(FILLED)
    assert {problem.code for problem in problems} == {"blank-left"}
    assert all(problem.place.line and problem.place.column for problem in problems)
    _fill(book)
    assert check_book(book, None).problems == ()


def test_a_blank_never_reaches_a_document(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The night refuses a practice with blanks."""
    book = tmp_path / "book"
    main(["new", str(book), "alder-farm"])
    assert main(["overnight", str(book), "--out", str(tmp_path / "out")]) == 2
    assert "[blank-left]" in capsys.readouterr().err


def test_a_second_client_touches_nothing_else(tmp_path: Path) -> None:
    """In a book that is there, only the client's file is written."""
    book = tmp_path / "book"
    main(["new", str(book), "alder-farm"])
    _fill(book)
    before = {path: path.read_bytes() for path in book.rglob("*.yaml")}
    assert main(["new", str(book), "birch-farm"]) == 0
    assert {path: path.read_bytes() for path in before} == before
    assert {problem.place.file for problem in check_book(book, None).problems} == {"clients/birch-farm/client.yaml"}


def test_every_file_tells_editors_its_schema(tmp_path: Path) -> None:
    """The first line leads to a schema that is there."""
    main(["new", str(tmp_path / "book"), "alder-farm"])
    for path in (tmp_path / "book").rglob("*.yaml"):
        first = path.read_text(encoding="utf-8").splitlines()[0]
        assert Path(urlsplit(first.partition("$schema=")[2]).path).name == f"{path.stem}.schema.json"
        assert Path(urlsplit(first.partition("$schema=")[2]).path).is_file()


@pytest.mark.parametrize(
    ("client", "words"),
    [
        ("Alder Farm", "try alder-farm"),
        ("../../up", "try up"),
        ("a" * 65, "at most 64"),
        ("", "cannot be an id"),
        ("there", "is there already; nothing was touched"),
    ],
)
def test_what_cannot_be_begun_is_refused(
    book: Path, capsys: pytest.CaptureFixture[str], client: str, words: str
) -> None:
    """A name that is no id, or a client that is there, leaves the book as it is."""
    (book / "clients" / "there").mkdir()
    before = sorted(book.rglob("*"))
    assert main(["new", str(book), client]) == 2
    assert words in capsys.readouterr().err
    assert sorted(book.rglob("*")) == before


def test_a_folder_of_something_else_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder that is not empty and no book is not made one."""
    (tmp_path / "letter.txt").touch()
    assert main(["new", str(tmp_path), "alder-farm"]) == 2
    assert "not a book" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["letter.txt"]
