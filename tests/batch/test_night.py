"""The night: outcomes, dates of documents, what is left alone, what stops it. Quick jobs stand in for typesetting."""

from __future__ import annotations

import csv
import errno
import io
import os
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.faults import CannotStartError
from soilrota.batch.values import NightReport
from tests.acceptance.small_book import CLIENTS, edit, last_run, tree
from tests.batch.jobs import POISON, SLOW
from tests.batch.watching import DAY, Watched, one_night, outcomes_of

NEXT = date(2027, 2, 16)
LATER = date(2027, 3, 20)
ALL_MADE = dict.fromkeys(CLIENTS, "made")
ALL_UNCHANGED = dict.fromkeys(CLIENTS, "unchanged")


def _dated(out: Path, client: str) -> str:
    """Return the date that a client's document carries."""
    return (out / "clients" / client / "programme.pdf").read_bytes().split()[0].decode()


def test_first_night_makes_and_the_next_leaves_alone(book: Path, out: Path) -> None:
    """Made on the first night; unchanged, byte for byte, on the same date and on the next one."""
    assert outcomes_of(one_night(book, out)) == ALL_MADE
    before = tree(out)
    for day in (DAY, NEXT):
        watcher = Watched()
        assert outcomes_of(one_night(book, out, as_of=day, watcher=watcher)) == ALL_UNCHANGED
        assert tree(out) == before
        assert [entry.tries for entry in watcher.told] == [0, 0, 0]


def test_an_answer_that_no_longer_holds_is_asked_again_and_keeps_its_date(book: Path, out: Path) -> None:
    """Beyond the last day on which it holds, a client is looked at; with the same content nothing is written."""
    one_night(book, out)
    before = tree(out)
    night = one_night(book, out, as_of=LATER)
    assert [entry.tries for entry in night.entries] == [1, 1, 1]
    assert outcomes_of(night) == ALL_UNCHANGED
    assert tree(out) == before


def test_a_document_keeps_the_date_of_its_content(book: Path, out: Path) -> None:
    """Deleted documents come back with their own date; a changed one gets the date of the night."""
    one_night(book, out)
    edit(book / "clients" / "birch-farm" / "client.yaml", "Lou Example", "Kim Example")
    assert outcomes_of(one_night(book, out, as_of=NEXT)) == {**ALL_UNCHANGED, "birch-farm": "made"}
    before = tree(out)
    shutil.rmtree(out)
    assert outcomes_of(one_night(book, out, as_of=LATER, jobs=1)) == ALL_MADE
    assert tree(out) == before
    assert [_dated(out, client) for client in CLIENTS] == ["2027-02-15", "2027-02-16", "2027-02-15"]


@pytest.mark.parametrize("jobs", [1, 3])
def test_the_number_of_workers_changes_no_byte(book: Path, tmp_path: Path, jobs: int) -> None:
    """One worker or three: the same files."""
    one_night(book, tmp_path / "two", jobs=2)
    (book / "records" / "ledger.sqlite").unlink()
    one_night(book, tmp_path / "other", jobs=jobs)
    assert tree(tmp_path / "two") == tree(tmp_path / "other")


def test_a_damaged_document_is_made_again(book: Path, out: Path) -> None:
    """A truncated file is noticed by its digest and comes back whole; a touched one is left alone."""
    one_night(book, out)
    before = tree(out)
    document = out / "clients" / "alder-farm" / "programme.pdf"
    document.write_bytes(document.read_bytes()[:10])
    os.utime(out / "clients" / "cedar-farm" / "programme.pdf", (1, 1))
    os.utime(book / "clients" / "cedar-farm" / "client.yaml", (1, 1))
    assert outcomes_of(one_night(book, out, as_of=NEXT)) == {**ALL_UNCHANGED, "alder-farm": "made"}
    assert tree(out) == before


def test_going_back_in_time_is_looked_at(book: Path, out: Path) -> None:
    """An as-of date before the recorded one is not taken for granted."""
    one_night(book, out)
    night = one_night(book, out, as_of=date(2027, 2, 1))
    assert [entry.tries for entry in night.entries] == [1, 1, 1]


def test_today_is_asked_only_where_no_date_is_named(book: Path, out: Path) -> None:
    """Without an as-of date the night asks for today in the practice's zone, and with one it does not ask."""
    assert one_night(book, out, as_of=None).as_of == DAY

    def refuse(time_zone: str) -> date:
        raise AssertionError(time_zone)

    assert one_night(book, out, as_of=NEXT, asked=refuse).as_of == NEXT


def test_a_failed_client_keeps_its_document_and_is_tried_again(book: Path, out: Path) -> None:
    """A fault leaves the earlier document and the last known rows; the next night makes what is missing."""
    shutil.copytree(book / "clients" / "birch-farm", book / "clients" / "is-killed")
    one_night(book, out)
    before = tree(out)
    edit(book / "clients" / "is-killed" / "client.yaml", "Lou", "Kim")
    night = one_night(book, out, POISON, as_of=NEXT)
    assert outcomes_of(night) == {**ALL_UNCHANGED, "is-killed": "failed"}
    after = tree(out)
    assert {name for name in before if before[name] != after[name]} == {"season.csv", "season.html"}
    assert "is-killed,,,,flat,,,,,,,,,,,,,,,,,last-known" in (out / "season.csv").read_text(encoding="utf-8")
    assert outcomes_of(one_night(book, out, as_of=NEXT)) == {**ALL_UNCHANGED, "is-killed": "made"}


def test_only_some_clients(book: Path, out: Path) -> None:
    """A night for one client tells of that one, and leaves the rows of the others in the table."""
    one_night(book, out)
    edit(book / "clients" / "cedar-farm" / "client.yaml", "Lou", "Kim")
    assert outcomes_of(one_night(book, out, only=("alder-farm",))) == {"alder-farm": "unchanged"}
    rows = csv.DictReader(io.StringIO((out / "season.csv").read_text(encoding="utf-8")))
    assert [(row["client"], row["standing"]) for row in rows] == [
        ("alder-farm", "current"),
        ("birch-farm", "current"),
        ("cedar-farm", "last-known"),
    ]


def test_a_client_that_left_the_book_leaves_the_output(book: Path, out: Path) -> None:
    """The output of a client without a folder is removed, so that a new output folder would be the same."""
    one_night(book, out)
    shutil.rmtree(book / "clients" / "birch-farm")
    one_night(book, out, as_of=NEXT)
    assert sorted(path.name for path in (out / "clients").iterdir()) == ["alder-farm", "cedar-farm"]
    assert b"birch" not in (out / "season.csv").read_bytes()


def test_a_folder_that_is_no_client_is_a_client_with_problems(book: Path, out: Path) -> None:
    """A folder of a bad name is told of, and stops nobody."""
    (book / "clients" / "Bad Name").mkdir()
    night = one_night(book, out)
    assert outcomes_of(night) == {**ALL_MADE, "Bad Name": "problems"}
    assert {problem.code for problem in night.entries[0].problems} == {"bad-id", "client-file-missing"}


def test_leftovers_of_a_killed_night_are_swept(book: Path, out: Path) -> None:
    """What an interrupted replacement left is gone after the next night."""
    leftover = out / "clients" / "alder-farm" / ".~programme.pdf.123.tmp"
    leftover.parent.mkdir(parents=True)
    leftover.write_bytes(b"half")
    one_night(book, out)
    assert not leftover.exists()


def test_an_end_asked_for_leaves_everything_whole(book: Path, out: Path) -> None:
    """A night that is ended tells who was not reached; the next completes to what an unbroken one gives."""
    night = one_night(book, out, SLOW, jobs=1, watcher=Watched(end_after=1))
    assert night.stopped_by == 15
    assert sorted(outcomes_of(night).values()) == ["made", "not-reached", "not-reached"]
    assert last_run(out)["stopped_by"] == 15
    assert not (out / "season.csv").exists()
    one_night(book, out)
    broken = tree(out)
    shutil.rmtree(out)
    (book / "records" / "ledger.sqlite").unlink()
    one_night(book, out)
    assert tree(out) == broken


def test_a_full_disk_stops_the_night_and_harms_nothing(book: Path, out: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing can be written any more: the old files stand, nothing more is begun, the ledger claims nothing."""
    one_night(book, out)
    before = tree(out)
    for client in CLIENTS:
        edit(book / "clients" / client / "client.yaml", "Lou", "Kim")
    _fill_the_disk(monkeypatch)
    night = one_night(book, out, as_of=NEXT, jobs=1)
    assert sorted(outcomes_of(night).values()) == ["failed", "not-reached", "not-reached"]
    assert len(night.faults) == 2  # the document and run.json
    assert "No space left on device" in night.faults[0]
    assert tree(out) == before
    monkeypatch.undo()
    assert outcomes_of(one_night(book, out, as_of=NEXT)) == ALL_MADE


def _fill_the_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every flush of a file fail as on a full disk."""

    def full(_descriptor: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr("soilrota.files.replace.os.fsync", full)


def _without_practice(book: Path) -> None:
    (book / "practice.yaml").unlink()


def _bad_practice(book: Path) -> None:
    edit(book / "practice.yaml", "name:", "nmae:")


def _no_clients(book: Path) -> None:
    shutil.rmtree(book / "clients")


def _records_is_a_file(book: Path) -> None:
    (book / "records").write_text("no folder", encoding="utf-8")


@pytest.mark.parametrize(
    ("harm", "words"),
    [
        (_without_practice, "no practice.yaml"),
        (_bad_practice, "all clients share have errors"),
        (_no_clients, "no client to work on"),
        (_records_is_a_file, "cannot be made"),
    ],
)
def test_nothing_is_begun_where_the_book_is_not_fit(
    book: Path, out: Path, harm: Callable[[Path], None], words: str
) -> None:
    """No practice, a wrong practice, no clients, no place for records: said, and nothing made."""
    harm(book)
    with pytest.raises(CannotStartError, match=words):
        one_night(book, out)
    assert not out.exists()


def test_an_unknown_client_is_refused_with_the_nearest(book: Path, out: Path) -> None:
    """A misspelt client is not passed over in silence."""
    with pytest.raises(CannotStartError, match="did you mean alder-farm"):
        one_night(book, out, only=("alder-frm",))


def test_a_client_with_errors_is_not_read_again_until_its_files_change(book: Path, out: Path) -> None:
    """The same errors are told on later nights from the ledger alone."""
    edit(book / "clients" / "birch-farm" / "client.yaml", "area_ha: 9", "area_ha: nine")
    first = _real_problems(book, out)
    again = _real_problems(book, out)
    assert [night.entries[0].problems for night in (first, again)] == [first.entries[0].problems] * 2
    assert [night.entries[0].tries for night in (first, again)] == [1, 0]
    assert str(first.entries[0].problems[0].place) == "clients/birch-farm/client.yaml:16:18"


def _real_problems(book: Path, out: Path) -> NightReport:
    """Run a night for the client with errors, with the engine's own job: nothing is set in type for it."""
    return one_night(book, out, "soilrota.batch.work:make_client", only=("birch-farm",))
