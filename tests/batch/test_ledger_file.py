"""The ledger's file: made whole, brought up to date from every earlier version, refused where it is too new."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from soilrota.batch.faults import CannotStartError
from soilrota.batch.ledger_file import _CALENDAR, _INTAKE, _PACKS, _TABLES, VERSION, open_connection

#: What a ledger of each earlier version was made with.
EARLIER = {
    1: _TABLES.replace(", visits TEXT NOT NULL DEFAULT '[]'", ""),
    2: _TABLES + _CALENDAR,
    3: _TABLES + _CALENDAR + _PACKS,
    4: _TABLES + _CALENDAR + _PACKS + _INTAKE,
}


#: The last version that had the field calendar in a table of its own.
_SHARED_SINCE = 3


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return where the ledger lies."""
    return tmp_path / "ledger.sqlite"


def _shape(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Return the columns of every table of a ledger."""
    with closing(open_connection(path)) as connection:
        names = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {name: connection.execute(f"PRAGMA table_info({name})").fetchall() for name in sorted(names)}


def _write(path: Path, tables: str, version: int) -> None:
    """Write a ledger of a version, with a row."""
    with closing(sqlite3.connect(path)) as connection:
        connection.executescript(tables)
        connection.execute("PRAGMA application_id = 0x736F696C")
        connection.execute(f"PRAGMA user_version = {version}")
        connection.execute("INSERT INTO documents VALUES ('alder-farm', 'programme.pdf', 'v', '2027-02-01', 'o')")
        if version > _SHARED_SINCE:
            connection.execute(
                "INSERT INTO shared_documents"
                " VALUES ('field calendar', 'i', '2027-02-01', '2027-02-08', '{}', '[]', '[]')"
            )
        elif version > 1:
            connection.execute(
                "INSERT INTO field_calendar (one, inputs, planned_on, holds_until, files)"
                " VALUES (1, 'i', '2027-02-01', '2027-02-08', '{}')"
            )
        connection.commit()


def test_versions_are_counted() -> None:
    """A change of the tables comes with a version and a way to it."""
    assert sorted(EARLIER) == list(range(1, VERSION))


@pytest.mark.parametrize("version", sorted(EARLIER))
def test_a_ledger_of_an_earlier_version_is_brought_up_to_date(path: Path, version: int) -> None:
    """It has the tables of a new one and keeps its rows; the field calendar moved among the shared documents."""
    _write(path, EARLIER[version], version)
    assert _shape(path) == _shape(path.with_name("new.sqlite"))
    with closing(open_connection(path)) as connection:
        assert connection.execute("PRAGMA user_version").fetchone() == (VERSION,)
        assert connection.execute("SELECT client, output FROM documents").fetchall() == [("alder-farm", "o")]
        shared = connection.execute("SELECT name, inputs, placed FROM shared_documents").fetchall()
        assert shared == ([("field calendar", "i", "[]")] if version > 1 else [])


def test_a_ledger_of_a_newer_version_is_left_alone(path: Path) -> None:
    """It is refused, and not a byte of it changes."""
    _write(path, EARLIER[4], VERSION + 1)
    before = path.read_bytes()
    with pytest.raises(CannotStartError, match=f"ledger version {VERSION + 1}"):
        open_connection(path)
    assert path.read_bytes() == before


def test_what_a_cut_off_making_left_is_swept(path: Path) -> None:
    """A half-made ledger of another process goes, and none is left beside the new one."""
    path.with_name(".~ledger.sqlite.99.tmp").write_bytes(b"half")
    open_connection(path).close()
    assert [one.name for one in path.parent.iterdir() if one.name.endswith(".tmp")] == []


def test_a_place_in_which_none_can_be_made(tmp_path: Path) -> None:
    """It is said in words."""
    with pytest.raises(CannotStartError, match="cannot be made"):
        open_connection(tmp_path / "nowhere" / "ledger.sqlite")
