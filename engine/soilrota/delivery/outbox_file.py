"""The outbox's file: its tables, how it is made, and when it is not fit to be used.

SQLite in WAL mode, synchronous FULL: what is committed survives a power cut. It is made whole beside its place and
renamed, so that a file that is there and cannot be read is always a damaged one. Such a file is put aside, and no new
one is begun until a person has decided: an outbox that forgot what went would send it again.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

from soilrota.delivery.faults import OutboxUnfitError
from soilrota.delivery.values import State
from soilrota.files.databases import database_put_aside, make_database, put_database_aside

VERSION = 1
#: Marks a file as ours in SQLite's header: `mail` in ASCII.
_APPLICATION = 0x6D61696C
_STATES = ", ".join(f"'{state}'" for state in State)
_TABLES = f"""
CREATE TABLE outbox (
    id TEXT PRIMARY KEY, person TEXT NOT NULL, event TEXT NOT NULL, day TEXT NOT NULL, subject_of TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ({_STATES})), urgency INTEGER NOT NULL, sender TEXT NOT NULL,
    address TEXT NOT NULL, subject TEXT NOT NULL, needs_utf8 INTEGER NOT NULL, about TEXT NOT NULL,
    message_id TEXT NOT NULL UNIQUE, made_at TEXT NOT NULL, waits_since TEXT NOT NULL, attempts INTEGER NOT NULL,
    next_at TEXT NOT NULL, answer TEXT NOT NULL, sent_to TEXT NOT NULL, forced INTEGER NOT NULL,
    UNIQUE (person, event, day)
) STRICT;
CREATE INDEX outbox_by_state ON outbox (state);
CREATE TABLE emls (id TEXT PRIMARY KEY REFERENCES outbox (id), eml BLOB NOT NULL) STRICT;
CREATE TABLE steps (
    number INTEGER PRIMARY KEY, id TEXT NOT NULL REFERENCES outbox (id), at TEXT NOT NULL, before TEXT NOT NULL,
    after TEXT NOT NULL, words TEXT NOT NULL
) STRICT;
CREATE INDEX steps_by_id ON steps (id);
CREATE INDEX steps_by_time ON steps (after, at);
"""
_FULL = 2
_HOW_ON = (
    "Restore outbox.sqlite from a backup; or, where what went out may go out again, move the damaged file out of "
    "the folder"
)


def open_connection(path: Path) -> sqlite3.Connection:
    """Return a checked connection to the outbox, which is made where there never was one.

    Args:
        path: the outbox's file; its folder must be there.

    Raises:
        OutboxUnfitError: it is damaged (then it was put aside), was put aside before, is from a newer engine, or lies
            where it cannot be kept safely.
    """
    if not path.exists():
        _refuse_beside_damaged(path)
        _make(path)
    connection = sqlite3.connect(path, timeout=0, isolation_level=None)
    try:
        _refuse_unfit(connection, path)
        _make_durable(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection


def open_to_read(path: Path) -> sqlite3.Connection:
    """Return a connection that changes nothing; the file must be there.

    Raises:
        OutboxUnfitError: it cannot be read.
    """
    connection = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=5, isolation_level=None)
    try:
        words = _unfit(connection, path)
    except BaseException:
        connection.close()
        raise
    if words:
        connection.close()
        raise OutboxUnfitError(words)
    return connection


def _unfit(connection: sqlite3.Connection, path: Path) -> str:
    """Return why the outbox is not to be used; empty where it is."""
    try:
        if _pragma(connection, "quick_check") != "ok" or _pragma(connection, "application_id") != _APPLICATION:
            return f"the outbox {path} is damaged"
        version = _pragma(connection, "user_version")
    except sqlite3.OperationalError as fault:
        raise OutboxUnfitError(f"the outbox {path} cannot be opened: {fault}") from fault
    except sqlite3.DatabaseError:
        return f"the outbox {path} is damaged"
    if version != VERSION:
        newer = f"the outbox {path} was written by a newer soilrota (version {version}, this one reads {VERSION})"
        raise OutboxUnfitError(f"{newer}; use that one")
    return ""


def _refuse_unfit(connection: sqlite3.Connection, path: Path) -> None:
    """Raise where the outbox is not to be used; leave it as it is, but for a damaged one, which is put aside."""
    words = _unfit(connection, path)
    if words:
        connection.close()
        raise OutboxUnfitError(f"{words}; it was put aside as {put_database_aside(path)}. {_HOW_ON}")


def _make_durable(connection: sqlite3.Connection, path: Path) -> None:
    """Have every commit last through a power cut, or raise."""
    is_wal = _pragma(connection, "journal_mode = WAL") == "wal"
    connection.execute("PRAGMA synchronous = FULL")
    if not is_wal or _pragma(connection, "synchronous") != _FULL:
        raise OutboxUnfitError(f"the outbox {path} cannot be kept safely there; keep the book on a local disk")
    connection.execute("PRAGMA foreign_keys = ON")


def _pragma(connection: sqlite3.Connection, words: str) -> object:
    """Return what SQLite says of itself."""
    return connection.execute(f"PRAGMA {words}").fetchone()[0]


def _make(path: Path) -> None:
    """Make an empty outbox, whole at the moment at which it gets its name."""
    try:
        make_database(path, _TABLES, _APPLICATION, VERSION)
    except (OSError, sqlite3.Error) as fault:
        raise OutboxUnfitError(f"the outbox {path} cannot be made: {fault}") from fault


def _refuse_beside_damaged(path: Path) -> None:
    """Raise where a damaged outbox stands in for the missing one."""
    damaged = database_put_aside(path)
    if damaged:
        raise OutboxUnfitError(f"there is no outbox {path}, and {damaged} was put aside as damaged. {_HOW_ON}")
