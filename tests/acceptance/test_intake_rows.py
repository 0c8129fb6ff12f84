"""The life of a row: accepted, set aside, mended, closed, corrected; every row accounted for, nothing done twice."""

from __future__ import annotations

import csv
import io
import os
import time
from pathlib import Path

import pytest

from soilrota.results.accepting import report_file_name
from tests.acceptance.intake_book import (
    add_laboratory,
    add_notes,
    drop,
    inbox,
    intake,
    received,
    results,
    row,
    table,
    values,
    waiting,
)
from tests.acceptance.small_book import edit, last_run, night, tree, write_book

DAY = "2027-02-01"
CHECKS = """\
check_materials:
  - id: loam
    name: Loam
    values:
      - {analysis: ph.cacl2, value: 5.4, sd: 0.1}
      - {analysis: phosphorus.colwell, value: 32, sd: 2}
"""


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """Return a small book with a laboratory, and field notes that name two bags of Alder and one of Birch."""
    book = write_book(tmp_path / "book")
    add_laboratory(book)
    add_notes(book, "alder-farm", {"A1": DAY, "A2": DAY})
    add_notes(book, "birch-farm", {"B1": DAY})
    return book


def _set_aside(book: Path) -> Path:
    """Return the only file of what is set aside."""
    (found,) = sorted((book / "records" / "set_aside").iterdir())
    return found


def _told(out: Path) -> str:
    """Return the report of the last intake."""
    return (out / "intake.txt").read_text(encoding="utf-8")


def test_an_unknown_bag_is_set_aside_mended_and_dropped_again(book: Path, out: Path) -> None:
    """The row waits in a table; mended there it is accepted, and the row that it came from is settled."""
    drop(book, "feb.csv", table(row("A1"), row("A-2", p="41")))
    done = intake(book, out)
    assert done.returncode == 1
    assert waiting(book, "feb.csv") == {3: ["bag-unknown"]}
    assert values(book, "alder-farm") == ["R1 1 A1 ph 5.1", "R1 1 A1 phosphorus 30"]
    aside = _set_aside(book)
    text = aside.read_text(encoding="utf-8-sig")
    head, only = csv.reader(io.StringIO(text))
    assert head[:3] == ["set aside as", "because", "Bag"]
    assert (only[0].split(":")[1], only[2]) == ("3", "A-2")
    assert "bag A-2 was never given out" in only[1]
    drop(book, "mended.csv", text.replace(",A-2,", ",A2,").encode())
    done = intake(book, out)
    assert done.returncode == 0, done.stdout
    assert values(book, "alder-farm", ("report", "bag", "value")) == ["R1 A1 30", "R1 A1 5.1", "R1 A2 41", "R1 A2 5.1"]
    records = received(book)
    assert list(records["feb.csv"]["settled"]) == ["3"]
    assert records["feb.csv"]["settled"]["3"].startswith("mended and accepted as ")
    assert records["mended.csv"]["accepted"] == [2]
    assert list((book / "records" / "set_aside").iterdir()) == []


def test_a_mended_row_that_is_wrong_again(book: Path, out: Path) -> None:
    """It waits under its new name alone."""
    drop(book, "feb.csv", table(row("A-2")))
    intake(book, out)
    drop(book, "mended.csv", _set_aside(book).read_bytes().replace(b"A-2", b"A-3"))
    assert intake(book, out).returncode == 1
    assert waiting(book, "feb.csv") == {}
    assert waiting(book, "mended.csv") == {2: ["bag-unknown"]}
    assert _set_aside(book).name.startswith("mended-")


def test_mended_in_the_night_in_which_the_book_changed(book: Path, out: Path) -> None:
    """The row that came back mended is not looked at again beside its mended form."""
    drop(book, "feb.csv", table(row("A-2"), row("A-3")))
    intake(book, out)
    mended = _set_aside(book).read_bytes().replace(b"A-2", b"A2")
    drop(book, "mended.csv", b"".join(line for line in mended.splitlines(keepends=True) if b"A-3" not in line))
    add_notes(book, "cedar-farm", {"C1": DAY})
    assert intake(book, out, as_of="2027-02-16").returncode == 1
    assert list(received(book)["feb.csv"]["settled"]) == ["2"]
    assert waiting(book, "feb.csv") == {3: ["bag-unknown"]}
    assert "A-3" in _set_aside(book).read_text(encoding="utf-8")


def test_a_row_waits_for_its_field_note(book: Path, out: Path) -> None:
    """Once the note is written a later night takes the row in by itself, and nothing is left of it in the table."""
    drop(book, "feb.csv", table(row("A1"), row("A9", p="33")))
    night(book, out)
    assert waiting(book, "feb.csv") == {3: ["bag-unknown"]}
    night(book, out, as_of="2027-02-16")
    assert waiting(book, "feb.csv") == {3: ["bag-unknown"]}
    add_notes(book, "alder-farm", {"A9": DAY})
    done = night(book, out, as_of="2027-02-17")
    assert done.returncode == 0, done.stderr
    assert received(book)["feb.csv"]["accepted"] == [2, 3]
    assert "R1 A9 33" in values(book, "alder-farm", ("report", "bag", "value"))
    assert list((book / "records" / "set_aside").iterdir()) == []


def test_a_row_that_the_practice_closes(book: Path, out: Path) -> None:
    """It waits no longer, and the record says who closed it and why."""
    drop(book, "feb.csv", table(row("A1"), row("Z9")))
    intake(book, out)
    name = f"{received(book)['feb.csv']['digest'][:12]}:3"
    dismissed = f"dismissed_rows:\n  - {{row: {name}, reason: Of another practice; it was told, by: ann-lee}}\n"
    path = book / "practice.yaml"
    path.write_text(path.read_text(encoding="utf-8") + dismissed, encoding="utf-8")
    done = intake(book, out)
    assert done.returncode == 0, done.stdout
    assert received(book)["feb.csv"]["settled"] == {"3": "closed by Ann Lee: Of another practice; it was told"}
    assert list((book / "records" / "set_aside").iterdir()) == []


def test_a_finding_that_somebody_accepts(book: Path, out: Path) -> None:
    """A pH far from the zone's history waits; accepted with a reason it is taken in, and the reason is printed."""
    days = {f"A{year}": f"20{year}-02-01" for year in range(20, 27)}
    add_notes(book, "alder-farm", days)
    history = [row(bag, f"R{bag}", day, reported=day.replace("-02-01", "-02-10")) for bag, day in days.items()]
    drop(book, "a-history.csv", table(*history))
    drop(book, "feb.csv", table(row("A1", ph="8.9")))
    assert intake(book, out).returncode == 1
    assert waiting(book, "feb.csv") == {2: ["history"]}
    assert len(received(book)["a-history.csv"]["accepted"]) == len(days)
    accepted = "accepted_findings:\n  - {rule: history, bag: A1, reason: The lime heap stood here, by: ann-lee}\n"
    path = book / "clients" / "alder-farm" / "client.yaml"
    path.write_text(path.read_text(encoding="utf-8") + accepted, encoding="utf-8")
    done = intake(book, out)
    assert done.returncode == 0, done.stdout
    assert "R1 A1 8.9" in values(book, "alder-farm", ("report", "bag", "value"))
    assert "The lime heap stood here" in _told(out)
    assert "Ann Lee" in _told(out)


def test_the_same_file_again_changes_nothing(book: Path, out: Path) -> None:
    """The same bytes, under whatever name: no byte of the records moves, and the report says so."""
    content = table(row("A1"), row("A-2"))
    drop(book, "feb.csv", content)
    intake(book, out)
    intake(book, out)
    before = _records(book)
    drop(book, "again.csv", content)
    drop(book, "feb.csv", content)
    intake(book, out)
    assert _records(book) == before
    assert inbox(book) == []
    assert "again.csv: the same file came on 2027-02-15 as feb.csv" in _told(out)
    assert "feb.csv: the same file came on 2027-02-15\n" in _told(out)


def _records(book: Path) -> dict[str, str]:
    """Return the digest of everything that the intake keeps."""
    kept = tree(book / "records")
    return {name: digest for name, digest in kept.items() if not name.startswith(("ledger", "night.lock"))}


def test_twins_in_one_night_come_in_once(book: Path, out: Path) -> None:
    """Of two files of the same bytes one is taken in; the other is named in the report, and both are gone."""
    drop(book, "feb.csv", table(row("A1")))
    drop(book, "copy of feb.csv", table(row("A1")))
    assert intake(book, out).returncode == 0
    assert inbox(book) == []
    assert list(received(book)) == ["copy of feb.csv"]
    assert "feb.csv: the same file came on 2027-02-15 as copy of feb.csv" in _told(out)


def test_the_same_results_in_other_bytes(book: Path, out: Path) -> None:
    """They count as taken in; the results stay as they are to the byte."""
    drop(book, "feb.csv", table(row("A1"), row("A2")))
    intake(book, out)
    before = tree(book / "records" / "results")
    drop(book, "feb2.csv", table(row("A2"), row("A1")).replace(b"\n", b"\r\n"))
    assert intake(book, out).returncode == 0
    assert tree(book / "records" / "results") == before
    assert received(book)["feb2.csv"]["accepted"] == [2, 3]


def test_a_corrected_report(book: Path, out: Path) -> None:
    """Both issues are kept, the change is listed, and documents of the old one are marked and made again."""
    drop(book, "feb.csv", table(row("A1"), row("A2")))
    night(book, out)
    corrected = row("A1", issue="2", p="36", reported="2027-02-12")
    drop(book, "corrected.csv", table(corrected, row("A2", issue="2"), row("X9", issue="2")))
    assert intake(book, out, as_of="2027-02-16").returncode == 1
    names = [path.name for path in sorted((book / "records" / "results" / "alder-farm").iterdir())]
    assert names == [report_file_name("bench", "R1", 2), report_file_name("bench", "R1", 1)]
    assert {(one["issue"], one["value"]) for one in results(book, "alder-farm") if one["bag"] == "A1"} == {
        ("1", "5.1"),
        ("1", "30"),
        ("2", "5.1"),
        ("2", "36"),
    }
    told = _told(out)
    assert "Report R1, issue 2: Colwell P of Flat, 0–10 cm, is 36 mg/kg and no longer 30 mg/kg." in told
    mark = "programme.pdf of 2027-02-15 shows values of report R1 from before its correction"
    assert mark in told
    assert "birch-farm: programme.pdf" not in told
    night(book, out, as_of="2027-02-17")
    overtaken = last_run(out)["overtaken"]
    assert ("alder-farm", "programme.pdf") in {(one["client"], one["document"]) for one in overtaken}
    assert all(one["made_again"] for one in overtaken)
    add_notes(book, "cedar-farm", {"C1": DAY})
    night(book, out, as_of="2027-02-18")
    assert waiting(book, "corrected.csv") == {4: ["bag-unknown"]}
    assert last_run(out)["overtaken"] == [], "a row that is looked at again marks nothing"


def test_a_file_that_is_still_being_written(book: Path, out: Path) -> None:
    """It stays where it is and is told of; the next night takes it in."""
    edit(book / "practice.yaml", "night:", "inbox: {quiet_s: 1}\nnight:")
    path = drop(book, "feb.csv", table(row("A1")))
    soon = time.time() + 0.9
    os.utime(path, (soon, soon))
    done = intake(book, out)
    assert inbox(book) == ["feb.csv"]
    assert "it is still being written" in _told(out)
    assert done.returncode == 0
    os.utime(path, (1_000_000_000, 1_000_000_000))
    intake(book, out)
    assert inbox(book) == []
    assert received(book)["feb.csv"]["accepted"] == [2]


def test_a_file_of_no_known_form(book: Path, out: Path) -> None:
    """It is refused with the reason, kept whole, and taken in once the laboratory's form is written."""
    drop(book, "odd.csv", table(row("A1")).replace(b"Bag", b"Label"))
    assert intake(book, out).returncode == 1
    assert [reason["code"] for reason in received(book)["odd.csv"]["refused"]] == ["form-not-found"]
    assert "headings most like those of bench (table), without 'Bag'; expected" in _told(out)
    assert _set_aside(book).suffix == ".txt"
    add_laboratory(book, "other")
    path = book / "laboratories" / "other.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("sample: Bag", "sample: Label"), encoding="utf-8")
    done = intake(book, out, as_of="2027-02-16")
    assert done.returncode == 0, done.stdout
    assert received(book)["odd.csv"]["accepted"] == [2]
    assert {one["laboratory"] for one in results(book, "alder-farm")} == {"other"}
    assert list((book / "records" / "set_aside").iterdir()) == []


def test_two_files_of_one_report_and_a_file_of_two_clients(book: Path, out: Path) -> None:
    """Bags that come later join their report; each client gets its own rows."""
    drop(book, "one.csv", table(row("A1"), row("B1", p="55")))
    drop(book, "two.csv", table(row("A2", p="44")))
    assert intake(book, out).returncode == 0
    assert values(book, "alder-farm", ("report", "bag", "value")) == ["R1 A1 30", "R1 A1 5.1", "R1 A2 44", "R1 A2 5.1"]
    assert values(book, "birch-farm", ("report", "bag", "value")) == ["R1 B1 5.1", "R1 B1 55"]
    assert len(list((book / "records" / "results" / "alder-farm").iterdir())) == 1


def test_the_folder_decides_between_laboratories_of_equal_headings(book: Path, out: Path) -> None:
    """In the inbox itself the file is refused, because it could be of either."""
    add_laboratory(book, "other")
    drop(book, "unclear.csv", table(row("A1")))
    drop(book, "other/feb.csv", table(row("A2")))
    drop(book, "nobody/feb.csv", table(row("B1")))
    assert intake(book, out).returncode == 1
    records = received(book)
    assert [reason["code"] for reason in records["unclear.csv"]["refused"]] == ["form-unclear"]
    assert [reason["code"] for reason in records["nobody/feb.csv"]["refused"]] == ["unknown-laboratory"]
    assert {one["laboratory"] for one in results(book, "alder-farm")} == {"other"}


def test_a_refused_file_dropped_again_into_the_folder_of_its_laboratory(book: Path, out: Path) -> None:
    """The same bytes are looked at once more, because the folder may decide; only one of the two names is kept."""
    add_laboratory(book, "other")
    drop(book, "unclear.csv", table(row("A1")))
    assert intake(book, out).returncode == 1
    assert "drop the file into inbox/<laboratory>/" in _told(out)
    drop(book, "nobody/unclear.csv", table(row("A1")))
    assert intake(book, out).returncode == 1
    assert "the folder nobody names no laboratory" in _told(out)
    assert "the folder nobody" in _set_aside(book).read_text(encoding="utf-8")
    drop(book, "other/feb.csv", table(row("A1")))
    assert intake(book, out).returncode == 0
    assert {name: record["accepted"] for name, record in received(book).items()} == {"other/feb.csv": [2]}
    assert list((book / "records" / "set_aside").iterdir()) == []


def test_blind_check_samples(book: Path, out: Path) -> None:
    """Their values stand among the check samples and in no client, and the row counts as accepted."""
    path = book / "practice.yaml"
    path.write_text(path.read_text(encoding="utf-8") + CHECKS, encoding="utf-8")
    (book / "check_samples.csv").write_text(f"bag,material,laboratory,sent\nZ9000-W,loam,bench,{DAY}\n", "utf-8")
    drop(book, "feb.csv", table(row("A1"), row("Z9000-W", ph="5.4", p="32")))
    assert intake(book, out).returncode == 0
    assert received(book)["feb.csv"]["accepted"] == [2, 3]
    text = (book / "records" / "check_samples" / "bench.csv").read_text(encoding="utf-8")
    assert [one["value"] for one in csv.DictReader(text.splitlines())] == ["5.4", "32"]
    assert all(one["bag"] == "A1" for one in results(book, "alder-farm"))
    drop(book, "other.csv", table(row("Z9000-W", ph="5.9", p="32")))
    assert intake(book, out).returncode == 1
    assert waiting(book, "other.csv") == {2: ["check-contradicts"]}
    assert (book / "records" / "check_samples" / "bench.csv").read_text(encoding="utf-8") == text


def test_names_that_nobody_can_write_down(book: Path, out: Path) -> None:
    """A name that is not UTF-8 is left and told of; one with signs that cannot be seen comes in; others do too."""
    (book / "inbox").mkdir()
    odd = book / "inbox" / os.fsdecode(b"feb\xff.csv")
    odd.write_bytes(table(row("A2")))
    drop(book, "line\nend \x1b[2J.csv", table(row("A1")))
    done = intake(book, out)
    assert "feb\ufffd.csv: its name is not written in UTF-8" in done.stdout
    assert "\x1b" not in done.stdout
    assert received(book)["line\nend \x1b[2J.csv"]["accepted"] == [2]
    assert list((book / "inbox").iterdir()) == [odd]


def test_nothing_came(book: Path, out: Path) -> None:
    """The report says which bags are not back; there is nothing else to say."""
    done = intake(book, out)
    assert done.returncode == 0
    assert "Not back from the laboratory: 3 bags" in done.stdout
    assert "Taken in" not in done.stdout
    assert received(book) == {}
