"""The ledger's file: its tables, how it is made and brought up to date, and when it is not fit to be used."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.files.databases import database_put_aside, make_database, put_database_aside

VERSION = 5
#: Marks a file as ours in SQLite's header: `soil` in ASCII.
_APPLICATION = 0x736F696C
_TABLES = """
CREATE TABLE book (one INTEGER PRIMARY KEY CHECK (one = 1), facts TEXT NOT NULL) STRICT;
CREATE TABLE clients (
    client TEXT PRIMARY KEY, inputs TEXT NOT NULL, engine TEXT NOT NULL, as_of TEXT NOT NULL, holds_until TEXT NOT NULL,
    outcome TEXT NOT NULL, season_rows TEXT NOT NULL, problems TEXT NOT NULL, visits TEXT NOT NULL DEFAULT '[]'
) STRICT;
CREATE TABLE documents (
    client TEXT NOT NULL, document TEXT NOT NULL, view TEXT NOT NULL, day TEXT NOT NULL, output TEXT NOT NULL,
    PRIMARY KEY (client, document)
) STRICT;
"""
_CALENDAR = """
CREATE TABLE field_calendar (
    one INTEGER PRIMARY KEY CHECK (one = 1), inputs TEXT NOT NULL, planned_on TEXT NOT NULL, holds_until TEXT NOT NULL,
    files TEXT NOT NULL
) STRICT;
"""
_PACKS = """
ALTER TABLE field_calendar ADD COLUMN placed TEXT NOT NULL DEFAULT '[]';
CREATE TABLE packs (
    client TEXT PRIMARY KEY, inputs TEXT NOT NULL, made_on TEXT NOT NULL, files TEXT NOT NULL
) STRICT;
"""
_INTAKE = """
CREATE TABLE shared_documents (
    name TEXT PRIMARY KEY, inputs TEXT NOT NULL, made_on TEXT NOT NULL, holds_until TEXT NOT NULL, files TEXT NOT NULL,
    placed TEXT NOT NULL, problems TEXT NOT NULL
) STRICT;
INSERT INTO shared_documents
    SELECT 'field calendar', inputs, planned_on, holds_until, files, placed, '[]' FROM field_calendar;
DROP TABLE field_calendar;
ALTER TABLE clients ADD COLUMN missing TEXT NOT NULL DEFAULT '[]';
CREATE TABLE overtaken (
    client TEXT NOT NULL, document TEXT NOT NULL, day TEXT NOT NULL, report TEXT NOT NULL,
    PRIMARY KEY (client, document, report)
) STRICT;
CREATE TABLE feeds (name TEXT PRIMARY KEY, events TEXT NOT NULL) STRICT;
"""
_REPORTS = """
CREATE TABLE reports (
    client TEXT PRIMARY KEY, inputs TEXT NOT NULL, made_on TEXT NOT NULL, holds_until TEXT NOT NULL, files TEXT NOT NULL
) STRICT;
"""
#: What brings a ledger from each version to the next.
_UPGRADES = {
    1: f"ALTER TABLE clients ADD COLUMN visits TEXT NOT NULL DEFAULT '[]'; {_CALENDAR}",
    2: _PACKS,
    3: _INTAKE,
    4: _REPORTS,
}


def open_connection(path: Path) -> sqlite3.Connection:
    """Return a checked connection to the ledger, which is made where there never was one.

    Args:
        path: the ledger's file; its folder must be there.

    Raises:
        CannotStartError: it is damaged (then it was put aside), was put aside before, is from a newer engine, or
            lies where it cannot be kept safely.
    """
    if not path.exists():
        _refuse_beside_damaged(path)
        _make(path)
    return _connect(path)


def _connect(path: Path) -> sqlite3.Connection:
    """Return a checked connection."""
    connection = sqlite3.connect(path, timeout=0)
    try:
        _refuse_unfit(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection


def _refuse_unfit(connection: sqlite3.Connection, path: Path) -> None:
    """Raise where the ledger is not to be used; leave it as it is, but for a damaged one, which is put aside."""

    def pragma(words: str) -> object:
        return connection.execute(f"PRAGMA {words}").fetchone()[0]

    try:
        ours = pragma("integrity_check") == "ok" and pragma("application_id") == _APPLICATION
        version = pragma("user_version")
    except sqlite3.OperationalError as fault:
        raise CannotStartError(f"the ledger {path} cannot be opened: {fault}") from fault
    except sqlite3.DatabaseError:
        ours, version = False, 0
    if not ours:
        connection.close()
        aside = put_database_aside(path)
        raise CannotStartError(f"the ledger {path} is damaged; it was put aside as {aside}. {_HOW_ON}")
    if isinstance(version, int) and version in _UPGRADES:
        _upgrade(connection, version)
    elif version != VERSION:
        words = (
            f"the ledger {path} was written by a newer soilrota (ledger version {version}, this one reads {VERSION})"
        )
        raise CannotStartError(f"{words}; use that one")
    if pragma("journal_mode = WAL") != "wal":
        raise CannotStartError(f"the ledger {path} cannot be kept safely there; keep the book on a local disk")
    connection.execute("PRAGMA synchronous = FULL")


def _upgrade(connection: sqlite3.Connection, version: int) -> None:
    """Bring a ledger of an earlier version up to date, each step in one transaction."""
    for step in range(version, VERSION):
        connection.executescript(f"BEGIN IMMEDIATE; {_UPGRADES[step]} PRAGMA user_version = {step + 1}; COMMIT;")


def _make(path: Path) -> None:
    """Make an empty ledger, whole at the moment at which it gets its name."""
    try:
        make_database(path, _TABLES + _CALENDAR + _PACKS + _INTAKE + _REPORTS, _APPLICATION, VERSION)
    except (OSError, sqlite3.Error) as fault:
        raise CannotStartError(f"the ledger {path} cannot be made: {fault}") from fault


def _refuse_beside_damaged(path: Path) -> None:
    """Raise where a damaged ledger stands in for the missing one."""
    damaged = database_put_aside(path)
    if damaged:
        raise CannotStartError(f"there is no ledger {path}, and {damaged} was put aside as damaged. {_HOW_ON}")


_HOW_ON = (
    "Restore ledger.sqlite from a backup; or, to begin anew with today's date on every document, "
    "move the damaged file out of the folder"
)
