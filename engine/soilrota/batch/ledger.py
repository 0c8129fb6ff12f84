"""What was made from which inputs, and on which date: the memory of the nights.

A single SQLite file in WAL mode with full synchronisation, written by one process. It is made whole beside its place
and renamed, so that a file that is there and cannot be read is always a damaged one: such a file is put aside, and no
new one is begun until a person has decided.

Tables: `book` (one row, see `BookFacts`), `clients` (a row a client: digests of what it was made from, as-of date,
last day on which the answer holds, outcome, rows of the season table, problems, visits and missing bags as JSON),
`documents` (a row a document: digest of its view, its date, SHA-256 of the file), `shared_documents` (a row a document
of the practice, see `SharedRecord`), `packs` (a row a client, see `PackRecord`), `reports` (likewise, see
`ReportRecord`), `overtaken` (a row a document that shows results from before the correction of a report), `feeds` (a
row a calendar feed: its events as JSON).
"""

from __future__ import annotations

import json
import sqlite3
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import asdict, dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.intake_values import Overtaken
from soilrota.batch.ledger_file import open_connection
from soilrota.batch.problem_records import from_records, to_records
from soilrota.batch.values import KnownDocument, Outcome, PlacedRow, SeasonRow, VisitRow
from soilrota.model.intake import MissingBag
from soilrota.problems import Problem


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
        missing: its bags that had not come back.
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
    missing: tuple[MissingBag, ...] = ()


@dataclass(frozen=True, slots=True)
class SharedRecord:
    """What the ledger knows of a document of the practice, for instance the field calendar.

    Attributes:
        name: which document.
        inputs: digest of what it was made from.
        made_on: its date: the as-of date from which it was made.
        holds_until: last as-of date on which it stands while its inputs do.
        files: SHA-256 of each of its files, by name; empty where there was nothing to show.
        placed: of the field calendar: day and person of each visit that has one, see `PlacedRow`.
        problems: of the files that it rests on.
    """

    name: str
    inputs: str
    made_on: date
    holds_until: date
    files: dict[str, str]
    placed: tuple[PlacedRow, ...] = ()
    problems: tuple[Problem, ...] = ()


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


@dataclass(frozen=True, slots=True)
class ReportRecord:
    """What the ledger knows of the farm reports of one client.

    Attributes:
        client: id of the client.
        inputs: digest of what they were made from.
        made_on: as-of date of the night that last looked at them.
        holds_until: last as-of date on which the same inputs give the same reports.
        files: its reports by path below the output folder; empty while there are none.
    """

    client: str
    inputs: str
    made_on: date
    holds_until: date
    files: Mapping[str, KnownDocument]


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
        """Remember a client and its documents, in one transaction; a document that is not named is forgotten."""
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
            json.dumps([asdict(bag) for bag in record.missing], ensure_ascii=False, default=str),
        )
        documents = [
            (record.client, name, known.view, known.day.isoformat(), known.output)
            for name, known in sorted(record.documents.items())
        ]
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO clients VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", row)
            self._connection.execute("DELETE FROM documents WHERE client = ?", (record.client,))
            self._connection.executemany("INSERT INTO documents VALUES (?, ?, ?, ?, ?)", documents)

    def shared(self, name: str) -> SharedRecord | None:
        """Return what is known of a document of the practice; None before the first one."""
        row = self._connection.execute("SELECT * FROM shared_documents WHERE name = ?", (name,)).fetchone()
        if row is None:
            return None
        return SharedRecord(
            name=row[0],
            inputs=row[1],
            made_on=date.fromisoformat(row[2]),
            holds_until=date.fromisoformat(row[3]),
            files=json.loads(row[4]),
            placed=tuple(json.loads(row[5])),
            problems=from_records(json.loads(row[6])),
        )

    def keep_shared(self, record: SharedRecord) -> None:
        """Remember a document of the practice."""
        row = (
            record.name,
            record.inputs,
            record.made_on.isoformat(),
            record.holds_until.isoformat(),
            json.dumps(record.files, sort_keys=True),
            json.dumps(record.placed),
            json.dumps(to_records(record.problems), ensure_ascii=False),
        )
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO shared_documents VALUES (?, ?, ?, ?, ?, ?, ?)", row)

    def feeds(self) -> dict[str, list[dict[str, Any]]]:
        """Return the events of every calendar feed as they were last given out, by the feed's name."""
        rows = self._connection.execute("SELECT name, events FROM feeds ORDER BY name")
        return {name: json.loads(events) for name, events in rows}

    def keep_feed(self, name: str, events: list[dict[str, Any]]) -> None:
        """Remember the events of a calendar feed."""
        with self._connection:
            self._connection.execute(
                "INSERT OR REPLACE INTO feeds VALUES (?, ?)", (name, json.dumps(events, ensure_ascii=False))
            )

    def packs(self) -> dict[str, PackRecord]:
        """Return what is known of the field packs of every client, by id."""
        rows = self._connection.execute("SELECT client, inputs, made_on, files FROM packs ORDER BY client")
        return {row[0]: PackRecord(row[0], row[1], date.fromisoformat(row[2]), json.loads(row[3])) for row in rows}

    def keep_packs(self, record: PackRecord) -> None:
        """Remember the field packs of a client."""
        row = (record.client, record.inputs, record.made_on.isoformat(), json.dumps(record.files, sort_keys=True))
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO packs VALUES (?, ?, ?, ?)", row)

    def reports(self) -> dict[str, ReportRecord]:
        """Return what is known of the farm reports of every client, by id."""
        rows = self._connection.execute("SELECT client, inputs, made_on, holds_until, files FROM reports ORDER BY 1")
        return {row[0]: _report_from(*row) for row in rows}

    def keep_reports(self, record: ReportRecord) -> None:
        """Remember the farm reports of a client."""
        files = {file: [one.view, one.day.isoformat(), one.output] for file, one in record.files.items()}
        days = (record.made_on.isoformat(), record.holds_until.isoformat())
        row = (record.client, record.inputs, *days, json.dumps(files, sort_keys=True))
        with self._connection:
            self._connection.execute("INSERT OR REPLACE INTO reports VALUES (?, ?, ?, ?, ?)", row)

    def overtaken(self) -> tuple[Overtaken, ...]:
        """Return the documents that show results from before the correction of a report, by client."""
        rows = self._connection.execute("SELECT client, document, day, report FROM overtaken ORDER BY 1, 2, 4")
        return tuple(Overtaken(row[0], row[1], date.fromisoformat(row[2]), row[3]) for row in rows)

    def mark_overtaken(self, client: str, reports: Iterable[str]) -> None:
        """Mark every document of a client as overtaken by corrected reports."""
        rows = [(report, client) for report in sorted(reports)]
        with self._connection:
            self._connection.executemany(
                "INSERT OR IGNORE INTO overtaken SELECT client, document, day, ? FROM documents WHERE client = ?", rows
            )

    def unmark_overtaken(self, client: str, documents: Iterable[str]) -> None:
        """Take the mark off documents that were made anew."""
        rows = [(client, document) for document in documents]
        with self._connection:
            self._connection.executemany("DELETE FROM overtaken WHERE client = ? AND document = ?", rows)


@contextmanager
def open_ledger(path: Path) -> Iterator[Ledger]:
    """Open the ledger, making it where there never was one.

    Args:
        path: the ledger's file; its folder must be there.

    Raises:
        CannotStartError: it is damaged (then it was put aside), was put aside before, is from a newer engine, or
            lies where it cannot be kept safely.
    """
    with closing(open_connection(path)) as connection:
        yield Ledger(connection)


def _facts_from(text: str) -> BookFacts:
    """Return the facts from their JSON."""
    record = json.loads(text)
    for name in ("clients", "unreadable"):
        record[name] = tuple(record[name])
    return BookFacts(**{**record, "problems": from_records(record["problems"])})


def _client_from(row: tuple[str, ...], documents: Mapping[str, KnownDocument]) -> ClientRecord:
    """Return what is known of a client from its row."""
    client, inputs, engine, as_of, holds_until, outcome, rows, problems, visits, missing = row
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
        missing=tuple(map(_missing_from, json.loads(missing))),
    )


def _report_from(client: str, inputs: str, made_on: str, holds_until: str, files: str) -> ReportRecord:
    """Return what is known of a client's reports from its row."""
    known = {
        file: KnownDocument(view, date.fromisoformat(day), output)
        for file, (view, day, output) in json.loads(files).items()
    }
    return ReportRecord(client, inputs, date.fromisoformat(made_on), date.fromisoformat(holds_until), known)


def _missing_from(fields: dict[str, Any]) -> MissingBag:
    """Return a missing bag from its JSON."""
    due = fields["due"]
    days = {"since": date.fromisoformat(fields["since"]), "due": None if due is None else date.fromisoformat(due)}
    return MissingBag(**{**fields, **days})
