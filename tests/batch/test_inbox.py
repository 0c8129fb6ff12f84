"""Files of the inbox: whole ones are found, others are left alone with the reason."""

from __future__ import annotations

import os
from math import inf
from pathlib import Path

import pytest

from soilrota.batch.inbox import INBOX, LARGEST, look_through

NOW = 1_800_000_000.0


@pytest.fixture
def inbox(tmp_path: Path) -> Path:
    """Return an empty inbox in the folder of a book."""
    folder = tmp_path / INBOX
    folder.mkdir()
    return folder


def drop(path: Path, age_s: float = 3600.0) -> Path:
    """Write a file that is so old [s]."""
    path.parent.mkdir(exist_ok=True)
    path.write_text("bag\n", encoding="utf-8")
    os.utime(path, (NOW - age_s, NOW - age_s))
    return path


def quiet(_seconds: float) -> None:
    """Let no time pass, and fail where somebody waits."""
    raise AssertionError


def test_no_inbox_no_files(tmp_path: Path) -> None:
    """A book without an inbox has none to take in."""
    assert look_through(tmp_path, 10, lambda: NOW, quiet) == ((), ())


def test_files_by_name_with_the_laboratory_of_their_folder(inbox: Path) -> None:
    """A folder inside the inbox names the laboratory; hidden files and litter are passed over without a word."""
    drop(inbox / "b.csv")
    drop(inbox / "a.xlsx")
    drop(inbox / "north-bench" / "c.csv")
    for name in (".hidden", "~$a.xlsx", "Thumbs.db", "README.md"):
        drop(inbox / name)
    files, alone = look_through(inbox.parent, 10, lambda: NOW, quiet)
    assert [(file.name, file.laboratory) for file in files] == [
        ("a.xlsx", ""),
        ("b.csv", ""),
        ("north-bench/c.csv", "north-bench"),
    ]
    assert alone == ()


def test_what_is_no_file_is_left_and_said(inbox: Path) -> None:
    """Links, folders in folders and names of unfinished downloads stay, each with a reason."""
    drop(inbox / "results.csv.part")
    (inbox / "link.csv").symlink_to(drop(inbox.parent / "elsewhere.csv"))
    (inbox / "deep" / "deeper").mkdir(parents=True)
    files, alone = look_through(inbox.parent, 10, lambda: NOW, quiet)
    assert files == ()
    assert [one.name for one in alone] == ["deep/deeper", "link.csv", "results.csv.part"]
    assert all(one.reason for one in alone)


def test_what_is_far_too_large_is_left_and_said(inbox: Path) -> None:
    """Nobody reads it into memory; the files beside it are taken."""
    with drop(inbox / "disk.csv").open("r+b") as stream:
        stream.truncate(LARGEST + 1)
    drop(inbox / "old.csv")
    files, alone = look_through(inbox.parent, 0, lambda: inf, quiet)
    assert [file.name for file in files] == ["old.csv"]
    assert [(one.name, one.reason.partition(",")[0]) for one in alone] == [("disk.csv", "it holds 268")]


def test_a_name_that_cannot_be_written_down(inbox: Path) -> None:
    """It is left, and told of by the signs that can be read; so is what lies in a folder of such a name."""
    drop(inbox / os.fsdecode(b"feb\xff.csv"))
    drop(inbox / os.fsdecode(b"lab\xff") / "mar.csv")
    files, alone = look_through(inbox.parent, 10, lambda: NOW, quiet)
    assert files == ()
    assert [one.name for one in alone] == ["feb\ufffd.csv", "lab\ufffd/mar.csv"]
    assert all("UTF-8" in one.reason for one in alone)


def test_a_young_file_is_waited_for_and_taken_where_it_did_not_move(inbox: Path) -> None:
    """The wait is what is left of the quiet time."""
    drop(inbox / "young.csv", age_s=4)
    waits: list[float] = []
    files, alone = look_through(inbox.parent, 10, lambda: NOW + sum(waits), waits.append)
    assert [file.name for file in files] == ["young.csv"]
    assert waits == [pytest.approx(6.0)]
    assert alone == ()


def test_a_file_that_grows_is_left_for_the_next_night(inbox: Path) -> None:
    """It is said, and the files beside it are taken."""
    young = drop(inbox / "young.csv", age_s=1)
    drop(inbox / "old.csv")
    waits: list[float] = []

    def grow(seconds: float) -> None:
        waits.append(seconds)
        young.write_text("bag\nA0000-E\n", encoding="utf-8")
        os.utime(young, (NOW + 5, NOW + 5))

    files, alone = look_through(inbox.parent, 10, lambda: NOW + sum(waits), grow)
    assert [file.name for file in files] == ["old.csv"]
    assert [(one.name, "still being written" in one.reason) for one in alone] == [("young.csv", True)]


def test_a_file_that_is_gone_again_is_nobodys_fault(inbox: Path) -> None:
    """It is neither taken nor complained of as whole."""
    young = drop(inbox / "young.csv", age_s=1)
    waits: list[float] = []

    def take_away(seconds: float) -> None:
        waits.append(seconds)
        young.unlink(missing_ok=True)

    files, _ = look_through(inbox.parent, 10, lambda: NOW + sum(waits), take_away)
    assert files == ()


def test_a_file_from_the_future_waits_no_longer_than_others(inbox: Path) -> None:
    """A clock that was wrong keeps no file in the inbox for ever."""
    drop(inbox / "future.csv", age_s=-86400)
    waits: list[float] = []
    files, _ = look_through(inbox.parent, 10, lambda: NOW + sum(waits), waits.append)
    assert [file.name for file in files] == ["future.csv"]
    assert waits == [10]


def test_no_hurry(inbox: Path) -> None:
    """At the end of time every file is old enough."""
    drop(inbox / "a.csv", age_s=0)
    files, _ = look_through(inbox.parent, 10, lambda: inf, quiet)
    assert len(files) == 1
