"""The output folder: which are refused, what is swept, what a departed client leaves."""

from __future__ import annotations

from pathlib import Path

import pytest

from soilrota.batch.faults import CannotStartError
from soilrota.batch.outputs import (
    DOCUMENTS,
    advice_name,
    document_file,
    document_name,
    farm_of_advice,
    is_signed,
    prepare_output,
    remove_departed,
    report_name,
)


@pytest.mark.parametrize("place", [".", "clients", "clients/alder-farm", "records/out", ".."])
def test_an_output_folder_that_would_mix_with_the_book_is_refused(book: Path, place: str) -> None:
    """The book itself, what is above it, and the folders of its own."""
    with pytest.raises(CannotStartError, match="name another one"):
        prepare_output(book, book / place)


def test_a_folder_inside_the_book_may_be_the_output(book: Path) -> None:
    """A folder of another name beside the book's own is fine, and is made."""
    prepare_output(book, book / "out" / "deep")
    assert (book / "out" / "deep").is_dir()


def test_a_file_in_its_place_is_said(book: Path, out: Path) -> None:
    """A file where the folder should be is a reason not to begin."""
    out.write_text("a file", encoding="utf-8")
    with pytest.raises(CannotStartError, match="cannot be made ready"):
        prepare_output(book, out)


def test_a_folder_that_cannot_be_written_is_said(book: Path, out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A read-only file system is found before any client is begun."""
    monkeypatch.setattr("soilrota.batch.outputs.os.access", lambda _path, _mode: False)
    with pytest.raises(CannotStartError, match="cannot be written"):
        prepare_output(book, out)


def test_a_departed_client_leaves_only_what_is_not_ours(out: Path) -> None:
    """Our documents go; a folder that holds something else stays with it."""
    for client in ("gone", "gone-too"):
        document_file(out, client, "programme.pdf").parent.mkdir(parents=True)
        document_file(out, client, "programme.pdf").write_bytes(b"x")
    (out / "clients" / "gone-too" / "letter.txt").write_text("x", encoding="utf-8")
    remove_departed(out, dict.fromkeys(["gone", "gone-too", "never-there"], DOCUMENTS))
    assert sorted(path.relative_to(out / "clients").as_posix() for path in (out / "clients").rglob("*")) == [
        "gone-too",
        "gone-too/letter.txt",
    ]


def test_names_below_the_output_folder() -> None:
    """A document's name uses forward slashes."""
    assert document_name("alder-farm", "programme.pdf") == "clients/alder-farm/programme.pdf"


def test_a_file_of_advice_says_whose_it_is() -> None:
    """A report, a rate map, rates; of two farms that fit the longer id; nothing else is one."""
    farms = ("home", "home-2")
    names = {"farm_report-home.pdf": "home", "rate_map-home-2-lime.geojson": "home-2", "rates-home.csv": "home"}
    assert {name: farm_of_advice(name, farms) for name in names} == names
    assert [farm_of_advice(name, farms) for name in ("programme.pdf", "rates-hill.csv", "points.csv")] == [None] * 3
    assert is_signed(report_name("alder", "home", is_signed=True))
    assert not is_signed(advice_name("alder", "rates-home.csv", is_signed=False))
