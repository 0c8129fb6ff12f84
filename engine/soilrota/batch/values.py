"""The values of a night: what a worker is asked, what it answers, what is said of each client at the end."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from soilrota.batch.intake_values import IntakeReport, Overtaken
from soilrota.model.intake import MissingBag
from soilrota.problems import Problem

if TYPE_CHECKING:
    from soilrota.model.field_pack import Bag
    from soilrota.model.issued import IssuedPoint

#: A row of the season table: text by column name.
SeasonRow = dict[str, str]
#: A visit that wants a day: text by column name, see `soilrota.batch.visit_rows`.
VisitRow = dict[str, str]
#: A visit that has a day in the field calendar: `visit`, `day` and `last` (ISO 8601), `person` (name), `person_id`.
PlacedRow = dict[str, str]


class Outcome(StrEnum):
    """What became of a client in a night.

    `made`: at least one document was written. `unchanged`: its documents stand as they are. `problems`: its files
    have errors, so its earlier documents stand. `failed`: the program or the machine let it down, its earlier
    documents stand, and the next night tries again. `not-reached`: the night ended before its turn.
    """

    MADE = "made"
    UNCHANGED = "unchanged"
    PROBLEMS = "problems"
    FAILED = "failed"
    NOT_REACHED = "not-reached"


class Cause(StrEnum):
    """Why a client failed."""

    DEADLINE = "deadline"
    MEMORY = "memory"
    CRASHED = "crashed"
    FAULT = "fault"
    NOT_WRITTEN = "not-written"


@dataclass(frozen=True, slots=True)
class KnownDocument:
    """What the ledger knows of a document.

    Attributes:
        view: digest of its view.
        day: its date, the as-of date of the night on which its content last changed.
        output: SHA-256 of the file.
    """

    view: str
    day: date
    output: str


@dataclass(frozen=True, slots=True)
class Order:
    """What a worker is asked: one client on one as-of date.

    Attributes:
        root: the book's folder.
        out: the output folder; a worker reads there and never writes.
        client: id of the client.
        as_of: the as-of date.
        known: what the ledger knows of its documents, by file name.
        visits: for the field calendar: the visits of all clients; for field packs: those of the client that get one.
        placed: for field packs: day and person of each visit that has one.
        bags: for field packs: the bags with their ids.
    """

    root: Path
    out: Path
    client: str
    as_of: date
    known: dict[str, KnownDocument] = field(default_factory=dict)
    visits: tuple[VisitRow, ...] = ()
    placed: tuple[PlacedRow, ...] = ()
    bags: tuple[Bag, ...] = ()


@dataclass(frozen=True, slots=True)
class DocumentAnswer:
    """One document of a worker's answer.

    Attributes:
        name: its name.
        known: what to remember of it.
        content: its bytes; None where the file on disk stands.
        is_stale: whether it stands only because a new one cannot be made.
    """

    name: str
    known: KnownDocument
    content: bytes | None
    is_stale: bool = False


def made_document(name: str, day: date, content: bytes, view: str = "") -> DocumentAnswer:
    """Return a document that was made, with its date and, where its kind has one, the digest of its view."""
    return DocumentAnswer(name, KnownDocument(view, day, sha256(content).hexdigest()), content)


@dataclass(frozen=True, slots=True)
class Answer:
    """What a worker made of one client.

    Attributes:
        client: id of the client.
        inputs: digest of the files it was made from, taken before they were read.
        holds_until: last as-of date on which the same files give the same answer; None where there are errors.
        rows: its rows of the season table; empty where there are errors.
        documents: its documents; empty where there are errors.
        problems: of its files, in order.
        took_s: time spent [s].
        visits: its visits that want a day.
        placed: of the field calendar: day and person of each visit that has one.
        points: of field packs: the points that they give out.
        missing: its bags that have not come back.
    """

    client: str
    inputs: str
    holds_until: date | None
    rows: tuple[SeasonRow, ...]
    documents: tuple[DocumentAnswer, ...]
    problems: tuple[Problem, ...]
    took_s: float
    visits: tuple[VisitRow, ...] = ()
    placed: tuple[PlacedRow, ...] = ()
    points: tuple[IssuedPoint, ...] = ()
    missing: tuple[MissingBag, ...] = ()


@dataclass(frozen=True, slots=True)
class Failure:
    """Why a worker has no answer: the cause, words for people, and the trace for those who mend the program."""

    client: str
    cause: Cause
    words: str
    trace: str = ""
    tries: int = 1


@dataclass(frozen=True, slots=True)
class DocumentEntry:
    """A document of a client at the end of a night: its path below the output folder, its date, its SHA-256."""

    file: str
    day: date
    output: str
    made: bool


@dataclass(frozen=True, slots=True)
class Entry:
    """What is said of one client at the end of a night.

    Attributes:
        client: id of the client.
        outcome: what became of it.
        reason: why it failed or was not reached, in words; else empty.
        cause: the cause of a failure; None otherwise.
        problems: of its files, in order.
        documents: its documents that stand in the output folder.
        tasks: number of its rows in the season table [-].
        took_s: time spent on it [s].
        tries: workers that tried it [-]; 0 where none was needed.
        trace: for those who mend the program; may be empty.
    """

    client: str
    outcome: Outcome
    reason: str = ""
    cause: Cause | None = None
    problems: tuple[Problem, ...] = ()
    documents: tuple[DocumentEntry, ...] = ()
    tasks: int = 0
    took_s: float = 0.0
    tries: int = 0
    trace: str = ""


@dataclass(frozen=True, slots=True)
class NightReport:
    """A night as it went.

    Attributes:
        as_of: the as-of date.
        started: when it started, ISO 8601, as the command gave it.
        took_s: the whole night [s].
        entries: one a client, by id.
        problems: of the files that all clients share, and of the clients' folder.
        stopped_by: number of the signal that ended it early; None otherwise.
        faults: what could not be made or written, in words.
        shared: the files of the documents of the practice that stand in the output folder.
        packs: the files of the field packs that stand there.
        reports: the files of the farm reports, drafts and signed ones.
        feeds: the calendar feeds that stand there.
        intake: how the inbox was taken in; None where the night ended before.
        missing: bags that were taken and have not come back, the longest awaited first.
        overtaken: documents that showed results from before a correction.
        still_until: last day up to which a night has nothing to do while nothing changes; None where this one had.
        time_zone: IANA name, the practice's.
    """

    as_of: date
    started: str
    took_s: float
    entries: tuple[Entry, ...]
    problems: tuple[Problem, ...]
    stopped_by: int | None = None
    faults: tuple[str, ...] = ()
    shared: tuple[DocumentEntry, ...] = ()
    packs: tuple[DocumentEntry, ...] = ()
    reports: tuple[DocumentEntry, ...] = ()
    feeds: tuple[DocumentEntry, ...] = ()
    intake: IntakeReport | None = None
    missing: tuple[MissingBag, ...] = ()
    overtaken: tuple[Overtaken, ...] = ()
    still_until: date | None = None
    time_zone: str = "UTC"

    def count(self, outcome: Outcome) -> int:
        """Return the number of clients with this outcome [-]."""
        return sum(entry.outcome is outcome for entry in self.entries)
