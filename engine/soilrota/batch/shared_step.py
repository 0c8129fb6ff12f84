"""Documents of the practice in the night: made anew where their inputs changed, their time is over, or a file is gone.

Each is made from the as-of date of the night on which it changed, which the ledger keeps: an ordinary night leaves it
alone, and one that finds a file gone makes the same bytes again.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path

from soilrota.batch.fingerprints import same_files
from soilrota.batch.ledger import Ledger, SharedRecord
from soilrota.batch.template_faults import of_template
from soilrota.batch.values import Answer, DocumentEntry, Failure, Order, VisitRow
from soilrota.files import replace_file
from soilrota.model.documents import DocumentKind
from soilrota.problems import Problem

#: What serves all clients may take this many times what one client may.
_DEADLINES = 5


@dataclass(frozen=True, slots=True)
class SharedDocument:
    """A document of the practice: its name, and the job (`module:function`) that makes it."""

    name: str
    job: str


FIELD_CALENDAR = SharedDocument("field calendar", "soilrota.batch.calendar_work:make_calendar")
LABORATORY_CHECKS = SharedDocument("laboratory checks", "soilrota.batch.checks_work:make_checks")
OF_KIND = {DocumentKind.FIELD_CALENDAR: FIELD_CALENDAR, DocumentKind.LABORATORY_CHECKS: LABORATORY_CHECKS}


@dataclass(frozen=True, slots=True)
class SharedRequest:
    """What the step needs of the night.

    Attributes:
        root, out: the book's folder and the output folder.
        as_of: the as-of date.
        rests_on: digests of the shared files and of the engine.
        deadline_s: time that one client may take [s].
        memory_mb: memory that one client may take [MB].
    """

    root: Path
    out: Path
    as_of: date
    rests_on: tuple[str, str]
    deadline_s: float
    memory_mb: int


@dataclass(frozen=True, slots=True)
class SharedKept:
    """How a document of the practice stands: its files, what went wrong in words, problems of the files it rests on."""

    files: tuple[DocumentEntry, ...] = ()
    fault: str = ""
    problems: tuple[Problem, ...] = ()


def keep_shared(
    request: SharedRequest,
    document: SharedDocument,
    ledger: Ledger,
    must_stop: Callable[[], bool],
    *,
    visits: Sequence[VisitRow] = (),
    further: str = "",
) -> SharedKept:
    """See that a document of the practice stands.

    Args:
        request: what the step needs of the night.
        document: which document.
        ledger: the open ledger.
        must_stop: asked a few times a second.
        visits: visits of all clients, where it rests on them, by client.
        further: digest of what it rests on besides.

    Raises:
        OSError: a file cannot be written.
    """
    rests_on: list[object] = [request.rests_on, visits]
    content = json.dumps([*rests_on, further] if further else rests_on, ensure_ascii=False, sort_keys=True)
    inputs = sha256(content.encode()).hexdigest()
    known = ledger.shared(document.name)
    holds = known is not None and known.inputs == inputs and known.made_on <= request.as_of <= known.holds_until
    if known is not None and holds and (not known.files or same_files(request.out, known.files)):
        return _kept(known, document, made=())
    from_day = known.made_on if known is not None and holds else request.as_of
    order = Order(request.root, request.out, document.name, from_day, visits=tuple(visits))
    answer = _made(order, document.job, request, must_stop)
    if not isinstance(answer, Answer):
        return SharedKept(fault="" if answer is None else f"the {document.name} could not be made: {answer.words}")
    for one in answer.documents:
        if one.content is not None:
            replace_file(request.out / one.name, one.content)
    files = {one.name: one.known.output for one in answer.documents}
    for name in sorted(set(known.files) - set(files)) if known else ():
        (request.out / name).unlink(missing_ok=True)
    until = answer.holds_until or from_day
    record = SharedRecord(document.name, inputs, from_day, until, files, answer.placed, answer.problems)
    ledger.keep_shared(record)
    return _kept(record, document, made=[one.name for one in answer.documents if one.content is not None])


def _made(order: Order, job: str, request: SharedRequest, must_stop: Callable[[], bool]) -> Answer | Failure | None:
    """Have a worker make the document; None where the night was asked to end."""
    from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - loaded where there is work

    limits = Limits(1, _DEADLINES * request.deadline_s, request.memory_mb, warm=True)
    return next(iter(work_through([order], job, limits, must_stop)), None)


def _kept(record: SharedRecord, document: SharedDocument, made: Collection[str]) -> SharedKept:
    """Return how a document stands: one that a template of the practice kept from being made is a fault."""
    faults = [f"the {document.name} could not be made: {one}" for one in record.problems if of_template(one)]
    files = tuple(
        DocumentEntry(name, record.made_on, digest, made=name in made) for name, digest in sorted(record.files.items())
    )
    return SharedKept(files, "; ".join(faults), tuple(one for one in record.problems if not of_template(one)))
