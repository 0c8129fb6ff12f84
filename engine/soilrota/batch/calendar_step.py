"""The field calendar in the night: made anew where its inputs changed, its first day passed, or a file is gone.

The plan is made from the as-of date of the night on which it changed, which the ledger keeps: an ordinary night leaves
it alone, and one that finds a file gone makes the same bytes again.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path

from soilrota.batch.fingerprints import same_files
from soilrota.batch.ledger import CalendarRecord, Ledger
from soilrota.batch.values import Answer, DocumentEntry, Failure, Order, VisitRow
from soilrota.files import replace_file

#: The job that makes the calendar.
JOB = "soilrota.batch.calendar_work:make_calendar"
_NAME = "field calendar"
#: The calendar serves all clients: it may take this many times what one client may.
_DEADLINES = 5


@dataclass(frozen=True, slots=True)
class CalendarRequest:
    """What the step needs of the night.

    Attributes:
        root, out: the book's folder and the output folder.
        as_of: the as-of date.
        rests_on: digests of the shared files and of the engine.
        deadline_s: time that one client may take [s].
        memory_mb: memory that one client may take [MB].
        job: `module:function` that makes the calendar.
    """

    root: Path
    out: Path
    as_of: date
    rests_on: tuple[str, str]
    deadline_s: float
    memory_mb: int
    job: str = JOB


def keep_calendar(
    request: CalendarRequest, visits: Sequence[VisitRow], ledger: Ledger, must_stop: Callable[[], bool]
) -> tuple[tuple[DocumentEntry, ...], str]:
    """See that the calendar stands; return its files, and in words what went wrong (empty where nothing did).

    Args:
        request: what the step needs of the night.
        visits: of all clients, by client.
        ledger: the open ledger.
        must_stop: asked a few times a second.

    Raises:
        OSError: a file cannot be written.
    """
    content = json.dumps([request.rests_on, visits], ensure_ascii=False, sort_keys=True)
    inputs = sha256(content.encode()).hexdigest()
    known = ledger.calendar()
    holds = known is not None and known.inputs == inputs and known.planned_on <= request.as_of <= known.holds_until
    if known is not None and holds and same_files(request.out, known.files):
        return _entries(known, made=False), ""
    from_day = known.planned_on if known is not None and holds else request.as_of
    answer = _made(Order(request.root, request.out, _NAME, from_day, visits=tuple(visits)), request, must_stop)
    if not isinstance(answer, Answer):
        return (), "" if answer is None else f"the field calendar could not be made: {answer.words}"
    for document in answer.documents:
        if document.content is not None:
            replace_file(request.out / document.name, document.content)
    files = {document.name: document.known.output for document in answer.documents}
    record = CalendarRecord(inputs, from_day, answer.holds_until or from_day, files, answer.placed)
    ledger.keep_calendar(record)
    return _entries(record, made=True), ""


def _made(order: Order, request: CalendarRequest, must_stop: Callable[[], bool]) -> Answer | Failure | None:
    """Have a worker make the calendar; None where the night was asked to end."""
    from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - loaded where there is work

    limits = Limits(1, _DEADLINES * request.deadline_s, request.memory_mb)
    return next(iter(work_through([order], request.job, limits, must_stop)), None)


def _entries(record: CalendarRecord, *, made: bool) -> tuple[DocumentEntry, ...]:
    """Return what is said of the files."""
    return tuple(
        DocumentEntry(name, record.planned_on, digest, made=made) for name, digest in sorted(record.files.items())
    )
