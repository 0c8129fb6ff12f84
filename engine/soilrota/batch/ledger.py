"""What was made from which inputs, and on which date: the memory of the nights.

A single SQLite file in WAL mode with full synchronisation, written by one process. It is made whole beside its place
and renamed, so that a file that is there and cannot be read is always a damaged one: such a file is put aside, and no
new one is begun until a person has decided.

Tables: `book` (one row, see `BookFacts`), `clients` (a row a client: digests of what it was made from, as-of date,
last day on which the answer holds, outcome, rows of the season table, problems and visits as JSON), `documents` (a row
a document: digest of its view, its date, SHA-256 of the file), `field_calendar` (one row, see `CalendarRecord`),
`packs` (a row a client, see `PackRecord`).
"""

from __future__ import annotations

import json
import os
import sqlite3
from collections import defaultdict
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import asdict, dataclass, field
from datetime import date
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.faults import CannotStartError
from soilrota.batch.problem_records import from_records, to_records
from soilrota.batch.values import KnownDocument, Outcome, PlacedRow, SeasonRow, VisitRow
from soilrota.problems import Problem

VERSION = 3
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
#: What brings a ledger from each version to the next.
_UPGRADES = {1: f"ALTER TABLE clients ADD COLUMN visits TEXT NOT NULL DEFAULT '[]'; {_CALENDAR}", 2: _PACKS}


@dataclass(frozen=True, slots=True)
class ClientRecord:
    """What the ledger knows of one client.

    Attributes:
        client: id of the client.
        inputs, engine: digests of its files and of the engine that looked at them last.
        as_of, holds_until: as-of dates from and to which what was found holds while no file changes.
        outcome: `made`, or `problems` where its files have errors.
        rows: its last known rows of the season table.
        problems: of its files.
        documents: its documents, by file name.
        visits: its last known visits that want a day.
    """

    client: str
    inputs: str
    engine: str
    as_of: date
    holds_until: date
    outcome: Outcome
    rows: tuple[SeasonRow, ...]
    problems: tuple[Problem, ...]
    documents: Mapping[str, KnownDocument] = field(default_factory=dict)
    visits: tuple[VisitRow, ...] = ()


@dataclass(frozen=True, slots=True)
class CalendarRecord:
    """What the ledger knows of the field calendar.

    Attributes:
        inputs: digest of what it was made from.
        planned_on: the as-of date from which days were planned.
        holds_until: last as-of date on which the plan stands while its inputs do: its first planned day.
        files: SHA-256 of each of its files, by name.
        placed: day and person of each visit that has one, see `PlacedRow`.
    """

    inputs: str
    planned_on: date
    holds_until: date
    files: dict[str, str]
    placed: tuple[PlacedRow, ...] = ()


@dataclass(frozen=True, slots=True)
class PackRecord:
    """What the ledger knows of the field packs of one client.

    Attributes:
        client: id of the client.
        inputs: digest of what they were made from.
        made_on: their date: the as-of date of the night on which that last changed.
        files: SHA-256 of each of their files, by name.
    """

    client: str
    inputs: str
    made_on: date
    files: dict[str, str]


class Ledger:
    """The ledger of one book, open; `open_ledger` opens it."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection

    def book(self) -> BookFacts | None:
        """Return what was known of the book; None before the first night."""
        row = self._connection.execute("SELECT facts FROM book").fetchone()
        return _facts_from(row[0]) if row else None

    def keep_book(self, facts: BookFacts) -> None:
        """Remember what is known of the book."""
        record = {**asdict(facts), "problems": to_records(facts.problems)}
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO book VALUES (1, ?)", (json.dumps(record),))

    def clients(self) -> dict[str, ClientRecord]:
        """Return what is known of every client that ever was in the book, by id."""
        documents: defaultdict[str, dict[str, KnownDocument]] = defaultdict(dict)
        for client, name, view, day, output in self._connection.execute("SELECT * FROM documents ORDER BY 1, 2"):
            documents[client][name] = KnownDocument(view, date.fromisoformat(day), output)
        return {row[0]: _client_from(row, documents[row[0]]) for row in self._client_rows()}

    def _client_rows(self) -> Iterator[tuple[str, ...]]:
        """Yield the rows of the clients by id."""
        yield from self._connection.execute("SELECT * FROM clients ORDER BY client")

    def keep(self, record: ClientRecord) -> None:
        """Remember a client and its documents, in one transaction; a document that is not named keeps its row."""
        row = (
            record.client,
            record.inputs,
            record.engine,
            record.as_of.isoformat(),
            record.holds_until.isoformat(),
            str(record.outcome),
            json.dumps(record.rows, ensure_ascii=False),
            json.dumps(to_records(record.problems), ensure_ascii=False),
            json.dumps(record.visits, ensure_ascii=False),
        )
        documents = [
            (record.client, name, known.view, known.day.isoformat(), known.output)
            for name, known in sorted(record.documents.items())
        ]
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO clients VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)", row)
            self._connection.executemany("INSERT OR REPLACE INTO documents VALUES (?, ?, ?, ?, ?)", documents)

    def calendar(self) -> CalendarRecord | None:
        """Return what is known of the field calendar; None before the first one."""
        row = self._connection.execute(
            "SELECT inputs, planned_on, holds_until, files, placed FROM field_calendar"
        ).fetchone()
        if row is None:
            return None
        return CalendarRecord(
            row[0],
            date.fromisoformat(row[1]),
            date.fromisoformat(row[2]),
            json.loads(row[3]),
            tuple(json.loads(row[4])),
        )

    def keep_calendar(self, record: CalendarRecord) -> None:
        """Remember the field calendar."""
        days = record.planned_on.isoformat(), record.holds_until.isoformat()
        row = (record.inputs, *days, json.dumps(record.files, sort_keys=True), json.dumps(record.placed))
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO field_calendar VALUES (1, ?, ?, ?, ?, ?)", row)

    def packs(self) -> dict[str, PackRecord]:
        """Return what is known of the field packs of every client, by id."""
        rows = self._connection.execute("SELECT client, inputs, made_on, files FROM packs ORDER BY client")
        return {row[0]: PackRecord(row[0], row[1], date.fromisoformat(row[2]), json.loads(row[3])) for row in rows}

    def keep_packs(self, record: PackRecord) -> None:
        """Remember the field packs of a client."""
        row = (record.client, record.inputs, record.made_on.isoformat(), json.dumps(record.files, sort_keys=True))
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO packs VALUES (?, ?, ?, ?)", row)


@contextmanager
def open_ledger(path: Path) -> Iterator[Ledger]:
    """Open the ledger, making it where there never was one.

    Args:
        path: the ledger's file; its folder must be there.

    Raises:
        CannotStartError: it is damaged (then it was put aside), was put aside before, is from a newer engine, or
            lies where it cannot be kept safely.
    """
    if not path.exists():
        _refuse_beside_damaged(path)
        _make(path)
    with closing(_connect(path)) as connection:
        yield Ledger(connection)


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
        raise CannotStartError(_put_aside(path))
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
    beside = path.with_name(f".~{path.name}.{os.getpid()}.tmp")
    for old in path.parent.glob(f".~{path.name}.*"):
        old.unlink(missing_ok=True)
    try:
        with closing(sqlite3.connect(beside)) as connection:
            connection.executescript(_TABLES + _CALENDAR + _PACKS)
            connection.execute(f"PRAGMA application_id = {_APPLICATION}")
            connection.execute(f"PRAGMA user_version = {VERSION}")
            connection.commit()
        beside.replace(path)
    except (OSError, sqlite3.Error) as fault:
        beside.unlink(missing_ok=True)
        raise CannotStartError(f"the ledger {path} cannot be made: {fault}") from fault


def _put_aside(path: Path) -> str:
    """Rename a damaged ledger with its companions, and return the words that say so."""
    number = 1
    while (aside := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    for companion in ("-wal", "-shm", ""):
        part = path.with_name(path.name + companion)
        if part.exists():
            part.rename(aside.with_name(aside.name + companion))
    return f"the ledger {path} is damaged; it was put aside as {aside.name}. {_HOW_ON}"


def _refuse_beside_damaged(path: Path) -> None:
    """Raise where a damaged ledger stands in for the missing one."""
    damaged = sorted(found.name for found in path.parent.glob(f"{path.name}.damaged-*"))
    if damaged:
        raise CannotStartError(f"there is no ledger {path}, and {damaged[0]} was put aside as damaged. {_HOW_ON}")


_HOW_ON = (
    "Restore ledger.sqlite from a backup; or, to begin anew with today's date on every document, "
    "move the damaged file out of the folder"
)


def _facts_from(text: str) -> BookFacts:
    """Return the facts from their JSON."""
    record = json.loads(text)
    for name in ("clients", "unreadable"):
        record[name] = tuple(record[name])
    return BookFacts(**{**record, "problems": from_records(record["problems"])})


def _client_from(row: tuple[str, ...], documents: Mapping[str, KnownDocument]) -> ClientRecord:
    """Return what is known of a client from its row."""
    client, inputs, engine, as_of, holds_until, outcome, rows, problems, visits = row
    return ClientRecord(
        client=client,
        inputs=inputs,
        engine=engine,
        as_of=date.fromisoformat(as_of),
        holds_until=date.fromisoformat(holds_until),
        outcome=Outcome(outcome),
        rows=tuple(json.loads(rows)),
        problems=from_records(json.loads(problems)),
        documents=documents,
        visits=tuple(json.loads(visits)),
    )
