"""Reminders in the night: who is told what, once; calendar feeds; and the sending of what waits.

Messages are in the outbox, committed, before a feed is written or anything leaves. What was said is read from the
outbox itself, so that nobody is told twice, whatever a night was cut off at. Nothing that goes wrong here undoes the
night.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from soilrota.batch.check_records import check_values_digest
from soilrota.batch.edge import Edge
from soilrota.batch.fingerprints import same_files
from soilrota.batch.ledger import Ledger, SharedRecord
from soilrota.batch.record_files import OUTBOX
from soilrota.batch.values import DocumentEntry, Failure, KnownDocument, NightReport, Outcome, PlacedRow
from soilrota.files import file_digest, replace_file
from soilrota.model.intake import MissingBag

if TYPE_CHECKING:
    from soilrota.batch.remind_work import RemindAnswer
    from soilrota.batch.sending_report import SendReport
    from soilrota.model.messages import Message
    from soilrota.model.practice import Practice
    from soilrota.model.reminders import Said

#: The job that makes the messages and feeds of a night.
JOB = "soilrota.batch.remind_work:make_reminders"
NAME = "reminders"
_DEADLINES = 5
#: Messages bear this hour of the as-of date, so that the same night makes the same bytes.
_HOUR = time(6, 0, tzinfo=UTC)
_WAITING = "records/received"


@dataclass(frozen=True, slots=True)
class RemindRequest:
    """What the step needs of the night.

    Attributes:
        root, out: the book's folder and the output folder.
        as_of: the as-of date.
        rests_on: digests of the shared files and of the engine.
        clients: digest of the files of each client whose files are in order, by id.
        placed: day and person of each visit that the field calendar has placed.
        missing: bags that have not come back.
        reports: the latest farm report of each client that has any, by id.
        deadline_s: time that one client may take [s].
        memory_mb: memory that one client may take [MB].
        job: `module:function` that makes messages and feeds.
    """

    root: Path
    out: Path
    as_of: date
    rests_on: tuple[str, str]
    clients: Mapping[str, str]
    placed: tuple[PlacedRow, ...]
    missing: tuple[MissingBag, ...]
    reports: Mapping[str, KnownDocument]
    deadline_s: float
    memory_mb: int
    job: str = JOB


@dataclass(frozen=True, slots=True)
class Reminded:
    """How reminders went: feeds that stand, messages made tonight, what went wrong in words."""

    files: tuple[DocumentEntry, ...] = ()
    messages: tuple[Message, ...] = ()
    faults: tuple[str, ...] = ()


def keep_reminders(request: RemindRequest, ledger: Ledger, must_stop: Callable[[], bool]) -> Reminded:
    """Put what people must be told into the outbox, and see that calendar feeds stand.

    Args:
        request: what the step needs of the night.
        ledger: the open ledger.
        must_stop: asked a few times a second.

    Raises:
        OSError: a feed cannot be written.
    """
    inputs, known = _inputs(request), ledger.shared(NAME)
    if known is not None and _holds(known, inputs, request) and same_files(request.out, known.files):
        return Reminded(_entries(known))
    from soilrota.batch.sending import messages_said, queue_messages  # noqa: PLC0415 - loaded where there is work
    from soilrota.delivery.faults import OutboxUnfitError  # noqa: PLC0415 - as above

    try:
        answer = _made(request, ledger, messages_said(request.root), must_stop)
        if answer is None:
            return Reminded()
        if isinstance(answer, Failure):
            return Reminded(faults=(f"the reminders could not be made: {answer.words}",))
        practice = _practice(request.root)
        if practice is not None:
            queue_messages(request.root, practice, answer.messages, datetime.combine(request.as_of, _HOUR))
    except (OutboxUnfitError, sqlite3.Error) as fault:
        return Reminded(faults=(f"nobody was reminded: {fault}",))
    made = frozenset(_put_in_place(request.out, answer, ledger))
    files = {feed.file: sha256(feed.content).hexdigest() for feed in answer.feeds.values()}
    record = SharedRecord(NAME, inputs, request.as_of, answer.quiet_until, files)
    ledger.keep_shared(record)
    return Reminded(_entries(record, made), answer.messages, answer.faults)


def _put_in_place(out: Path, answer: RemindAnswer, ledger: Ledger) -> Iterator[str]:
    """Write and remember the feeds; yield those that did not stand already."""
    for name, feed in sorted(answer.feeds.items()):
        if not same_files(out, {feed.file: sha256(feed.content).hexdigest()}):
            replace_file(out / feed.file, feed.content)
            yield feed.file
        ledger.keep_feed(name, feed.events)


def close_night(root: Path, report: NightReport, edge: Edge, *, sends: bool) -> Iterator[str]:
    """Put the morning summary into the outbox, and send what waits; yield what went wrong, in words.

    Args:
        root: the book's folder.
        report: the night.
        edge: clock, environment, and who may end it.
        sends: whether the practice names a mail server; without one nothing leaves the outbox.
    """
    if is_worth_telling(report):
        from soilrota.batch.morning import morning_messages  # noqa: PLC0415 - loaded where there is something to tell
        from soilrota.batch.sending import queue_messages  # noqa: PLC0415 - as above
        from soilrota.delivery.faults import OutboxUnfitError  # noqa: PLC0415 - as above

        practice = _practice(root)
        try:
            if practice is not None:
                made_at = datetime.combine(report.as_of, _HOUR)
                queue_messages(root, practice, morning_messages(report, practice), made_at)
        except (OutboxUnfitError, OSError, sqlite3.Error) as fault:
            yield f"the morning summary was not written: {fault}"
    sent = send_what_waits(root, edge) if sends else None
    if sent is not None and not sent.is_good:
        yield sent.fault or "messages wait or need somebody; see: soilrota send --dry-run"


def is_worth_telling(report: NightReport) -> bool:
    """Return whether anything happened in a night that the practice did not know before."""
    return bool(report.faults) or any(entry.outcome is not Outcome.UNCHANGED for entry in report.entries)


def send_what_waits(root: Path, edge: Edge) -> SendReport | None:
    """Send what waits in the outbox; None where there never was a message, or the shared files have errors."""
    from soilrota.batch.sending import send_waiting  # noqa: PLC0415 - loaded where there is an outbox

    if not (root / OUTBOX).is_file():
        return None
    practice = _practice(root)
    return None if practice is None else send_waiting(root, practice, edge)


def _practice(root: Path) -> Practice | None:
    """Return the practice; None where the shared files got errors since the night began."""
    from soilrota.batch.reading import read_shared  # noqa: PLC0415 - as above

    shared, _ = read_shared(root)
    return shared.practice if shared else None


def _holds(known: SharedRecord, inputs: str, request: RemindRequest) -> bool:
    """Return whether nobody is to be told anything new and no feed changed.

    Only a night says anything, so that what was said is as it was; but an outbox that is gone has told nobody.
    """
    is_time = known.made_on <= request.as_of <= known.holds_until
    return is_time and known.inputs == inputs and (request.root / OUTBOX).is_file()


def _inputs(request: RemindRequest) -> str:
    """Return the digest of everything that reminders rest on, the day and what was said before apart."""
    waiting = request.root / _WAITING
    records = sorted(waiting.glob("*.json")) if waiting.is_dir() else ()
    rests_on = [
        request.rests_on,
        sorted(request.clients.items()),
        request.placed,
        [str(bag) for bag in request.missing],
        sorted((client, known.output) for client, known in request.reports.items()),
        [file_digest(path) for path in records],
        check_values_digest(request.root),
    ]
    return sha256(json.dumps(rests_on, ensure_ascii=False, sort_keys=True).encode()).hexdigest()


def _made(
    request: RemindRequest, ledger: Ledger, said: tuple[Said, ...], must_stop: Callable[[], bool]
) -> RemindAnswer | Failure | None:
    """Have a worker make the messages and feeds; None where the night was asked to end."""
    from soilrota.batch.remind_work import RemindOrder  # noqa: PLC0415 - loaded where there is work
    from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - as above

    order = RemindOrder(
        root=request.root,
        out=request.out,
        client=NAME,
        as_of=request.as_of,
        clients=tuple(sorted(request.clients)),
        placed=request.placed,
        missing=request.missing,
        reports={client: known.day for client, known in request.reports.items()},
        said=said,
        feeds=ledger.feeds(),
    )
    limits = Limits(1, _DEADLINES * request.deadline_s, request.memory_mb)
    return next(iter(work_through([order], request.job, limits, must_stop)), None)


def _entries(record: SharedRecord, made: frozenset[str] = frozenset()) -> tuple[DocumentEntry, ...]:
    """Return what is said of the feeds."""
    files = sorted(record.files.items())
    return tuple(DocumentEntry(name, record.made_on, digest, made=name in made) for name, digest in files)
