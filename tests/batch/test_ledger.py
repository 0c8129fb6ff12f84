"""The ledger remembers exactly, survives, and is never replaced behind anybody's back."""

from __future__ import annotations

import os
import sqlite3
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.faults import CannotStartError
from soilrota.batch.ledger import ClientRecord, PackRecord, ReportRecord, SharedRecord, open_ledger
from soilrota.batch.ledger_file import VERSION
from soilrota.batch.values import KnownDocument, Outcome
from soilrota.model.intake import MissingBag
from soilrota.problems import Place, warning

PROBLEM = warning("zone-mixed", Place("clients/a/client.yaml", 3, 4, "farms[0]"), "two soils", "one", "split it")
MISSING = (
    MissingBag(
        "alder-farm", "home", "flat", "topsoil", "A0001-C", 0.0, 10.0, date(2027, 2, 1), date(2027, 2, 12), "nb"
    ),
    MissingBag("alder-farm", "home", "flat", "topsoil", "", 10.0, 30.0, date(2027, 2, 1), None, ""),
)
RECORD = ClientRecord(
    client="alder-farm",
    inputs="i",
    engine="e",
    as_of=date(2027, 2, 15),
    holds_until=date.max,
    outcome=Outcome.MADE,
    rows=({"client": "alder-farm", "zone": "Ñandú"},),
    problems=(PROBLEM,),
    documents={"programme.pdf": KnownDocument("v", date(2027, 2, 1), "o")},
    visits=({"visit": "alder-farm/home/1", "zones": "Ñandú"},),
    missing=MISSING,
)
FACTS = BookFacts("s", "l", "e", "Australia/Melbourne", "", 120.0, 1024, ("alder-farm",), ("Bad",), (PROBLEM,))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return where the ledger lies."""
    return tmp_path / "ledger.sqlite"


def test_what_is_kept_is_given_back(path: Path) -> None:
    """Facts and records come back equal, after closing too; a document that is not named again is forgotten."""
    with open_ledger(path) as ledger:
        assert ledger.book() is None
        assert ledger.clients() == {}
        ledger.keep_book(FACTS)
        ledger.keep(RECORD)
        ledger.keep(replace(RECORD, outcome=Outcome.PROBLEMS, documents={}))
    with open_ledger(path) as ledger:
        assert ledger.book() == FACTS
        assert ledger.clients() == {"alder-farm": replace(RECORD, outcome=Outcome.PROBLEMS, documents={})}


def test_it_is_written_through_to_the_disk(path: Path) -> None:
    """Write-ahead logging with full synchronisation is in force."""
    with open_ledger(path) as ledger:
        modes = [ledger._connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("journal_mode", "synchronous")]
    assert modes == ["wal", 2]


@pytest.mark.parametrize("content", [b"", b"not a ledger at all", b"SQLite format 3\0" + b"x" * 5000])
def test_a_damaged_ledger_is_put_aside_and_not_begun_anew(path: Path, content: bytes) -> None:
    """Put aside with its bytes; no new one is made until the damaged one is moved away."""
    path.write_bytes(content)
    with pytest.raises(CannotStartError, match=r"put aside as ledger.sqlite.damaged-1"), open_ledger(path):
        pass
    assert path.with_name("ledger.sqlite.damaged-1").read_bytes() == content
    with pytest.raises(CannotStartError, match="Restore"), open_ledger(path):
        pass
    assert not path.exists()
    path.with_name("ledger.sqlite.damaged-1").unlink()
    with open_ledger(path) as ledger:
        assert ledger.clients() == {}


def test_a_page_that_was_overwritten_is_noticed(path: Path) -> None:
    """Damage inside the file is found at the start of the night, not in its middle."""
    with open_ledger(path) as ledger:
        for number in range(200):
            ledger.keep(replace(RECORD, client=f"farm-{number}"))
    with path.open("r+b") as file:
        file.seek(4096 * 2)
        file.write(os.urandom(4096))
    with pytest.raises(CannotStartError, match="damaged"), open_ledger(path):
        pass


def test_another_program_s_database_is_not_taken_for_ours(path: Path) -> None:
    """A sound SQLite file of somebody else is put aside as well."""
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE other (x)")
    connection.close()
    with pytest.raises(CannotStartError, match="put aside"), open_ledger(path):
        pass


PLACED = {"visit": "alder-farm/home/1", "day": "2027-02-04", "person": "Ned Marlow"}


SHARED = SharedRecord(
    "field calendar", "i", date(2027, 2, 1), date(2027, 2, 4), {"field_calendar.pdf": "o"}, (PLACED,), (PROBLEM,)
)


def test_documents_of_the_practice_are_kept(path: Path) -> None:
    """One record a document, replaced by the next."""
    with open_ledger(path) as ledger:
        assert ledger.shared(SHARED.name) is None
        ledger.keep_shared(replace(SHARED, inputs="j"))
        ledger.keep_shared(SHARED)
        ledger.keep_shared(replace(SHARED, name="another"))
    with open_ledger(path) as ledger:
        assert ledger.shared(SHARED.name) == SHARED


def test_documents_that_a_correction_has_overtaken(path: Path) -> None:
    """Every document of the client is marked once a report, until it is made anew."""
    with open_ledger(path) as ledger:
        ledger.keep(RECORD)
        ledger.mark_overtaken("alder-farm", ["NB-2", "NB-1"])
        ledger.mark_overtaken("alder-farm", ["NB-1"])
        ledger.mark_overtaken("birch-farm", ["NB-1"])
    with open_ledger(path) as ledger:
        found = ledger.overtaken()
        assert [(one.client, one.document, one.day, one.report) for one in found] == [
            ("alder-farm", "programme.pdf", date(2027, 2, 1), "NB-1"),
            ("alder-farm", "programme.pdf", date(2027, 2, 1), "NB-2"),
        ]
        ledger.unmark_overtaken("alder-farm", ["farm_report.pdf"])
        assert ledger.overtaken() == found
        ledger.unmark_overtaken("alder-farm", ["programme.pdf"])
        assert ledger.overtaken() == ()


def test_field_packs_are_kept(path: Path) -> None:
    """One record a client, replaced by the next."""
    record = PackRecord("alder-farm", "i", date(2027, 2, 1), {"field_pack-home-1.pdf": "o"})
    with open_ledger(path) as ledger:
        assert ledger.packs() == {}
        ledger.keep_packs(replace(record, inputs="j"))
        ledger.keep_packs(record)
    with open_ledger(path) as ledger:
        assert ledger.packs() == {"alder-farm": record}


def test_farm_reports_are_kept(path: Path) -> None:
    """One record a client with every report's view, date and bytes, replaced by the next."""
    files = {"drafts/alder-farm/farm_report-home.pdf": KnownDocument("v", date(2027, 2, 1), "o")}
    record = ReportRecord("alder-farm", "i", date(2027, 2, 2), date(2027, 3, 1), files)
    with open_ledger(path) as ledger:
        assert ledger.reports() == {}
        ledger.keep_reports(replace(record, files={}))
        ledger.keep_reports(record)
    with open_ledger(path) as ledger:
        assert ledger.reports() == {"alder-farm": record}


#: What takes a ledger back to its third version: the field calendar had a table of its own.
TO_THIRD = """
DROP TABLE shared_documents; DROP TABLE overtaken; DROP TABLE feeds; DROP TABLE reports;
ALTER TABLE clients DROP COLUMN missing;
CREATE TABLE field_calendar (
    one INTEGER PRIMARY KEY CHECK (one = 1), inputs TEXT NOT NULL, planned_on TEXT NOT NULL, holds_until TEXT NOT NULL,
    files TEXT NOT NULL, placed TEXT NOT NULL DEFAULT '[]'
) STRICT;
INSERT INTO field_calendar VALUES (1, 'i', '2027-02-01', '2027-02-04', '{"field_calendar.pdf": "o"}', '[]');
"""
TO_SECOND = f"{TO_THIRD} ALTER TABLE field_calendar DROP COLUMN placed; DROP TABLE packs;"
TO_FIRST = f"{TO_SECOND} ALTER TABLE clients DROP COLUMN visits; DROP TABLE field_calendar;"


@pytest.mark.parametrize(("version", "back"), [(3, TO_THIRD), (2, TO_SECOND), (1, TO_FIRST)])
def test_a_ledger_of_an_earlier_version_is_brought_up_to_date(path: Path, version: int, back: str) -> None:
    """What it remembers stays, what it could not know yet is empty; opening it twice does no more."""
    with open_ledger(path) as ledger:
        ledger.keep(RECORD)
    connection = sqlite3.connect(path)
    connection.executescript(f"{back} PRAGMA user_version = {version}")
    connection.close()
    for _ in range(2):
        with open_ledger(path) as ledger:
            assert ledger.clients() == {
                "alder-farm": replace(RECORD, visits=RECORD.visits if version > 1 else (), missing=())
            }
            calendar = ledger.shared("field calendar")
            assert calendar == (replace(SHARED, placed=(), problems=()) if version > 1 else None)
            assert ledger.packs() == {}
            assert ledger.reports() == {}
            assert ledger.overtaken() == ()


def test_a_newer_ledger_is_refused_and_left(path: Path) -> None:
    """A ledger of a later version stays where it is."""
    with open_ledger(path):
        pass
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    connection.close()
    with pytest.raises(CannotStartError, match="newer soilrota"), open_ledger(path):
        pass
    assert path.exists()


def test_a_second_damaged_ledger_does_not_replace_the_first(path: Path) -> None:
    """Each is put aside under its own number."""
    for number in (1, 2):
        path.write_bytes(b"damaged %d" % number)
        with pytest.raises(CannotStartError), open_ledger(path):
            pass
        assert path.with_name(f"ledger.sqlite.damaged-{number}").read_bytes() == b"damaged %d" % number


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A missing folder is a reason not to begin, not a traceback."""
    with pytest.raises(CannotStartError, match="cannot be made"), open_ledger(tmp_path / "nowhere" / "ledger.sqlite"):
        pass
