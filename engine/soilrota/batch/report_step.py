"""Farm reports in the night: made where results are complete, or the wait for them is over, and what they say changed.

A client's reports rest on its files, the engine, the record of its signatures and the bags given out. Drafts lie under
`drafts/`, signed ones among the client's documents: what is not signed is never there, and what loses its signature
leaves it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path

from soilrota.batch.fingerprints import same_files
from soilrota.batch.issued import issued_file
from soilrota.batch.ledger import Ledger, ReportRecord
from soilrota.batch.record_files import signature_file
from soilrota.batch.report_values import ReportAnswer, ReportOrder
from soilrota.batch.values import DocumentEntry, Failure
from soilrota.files import replace_file

#: The job that makes the reports of one client.
JOB = "soilrota.batch.report_work:make_reports"
#: Reports show many charts: they may take this many times what a client's other documents may.
_DEADLINES = 3


@dataclass(frozen=True, slots=True)
class ReportRequest:
    """What the step needs of the night.

    Attributes:
        root, out: the book's folder and the output folder.
        as_of: the as-of date.
        engine: digest of the engine.
        wait_days: how long a first report waits for bags that have not come back [d].
        jobs: workers at once [-].
        deadline_s: time that one client may take [s].
        memory_mb: memory that one client may take [MB].
        job: `module:function` that makes the reports.
    """

    root: Path
    out: Path
    as_of: date
    engine: str
    wait_days: int
    jobs: int
    deadline_s: float
    memory_mb: int
    job: str = JOB


def keep_reports(
    request: ReportRequest, clients: Mapping[str, str], ledger: Ledger, must_stop: Callable[[], bool]
) -> tuple[tuple[DocumentEntry, ...], tuple[str, ...]]:
    """See that the reports stand; return their files, and in words what went wrong.

    Args:
        request: what the step needs of the night.
        clients: digest of the files of each client that is as its files say.
        ledger: the open ledger.
        must_stop: asked a few times a second.

    Raises:
        OSError: a file cannot be written.
    """
    step = _Step(request, ledger)
    step.have_made([order for client in sorted(clients) if (order := step.order(client, clients[client]))], must_stop)
    return tuple(sorted(step.entries, key=lambda entry: entry.file)), tuple(step.faults)


def remove_reports(out: Path, ledger: Ledger, departed: Mapping[str, object]) -> None:
    """Remove the reports of clients that are no longer in the book.

    Args:
        out: the output folder.
        ledger: the open ledger.
        departed: the clients.

    Raises:
        OSError: a file cannot be removed.
    """
    for client, record in ledger.reports().items():
        if client in departed:
            for file in record.files:
                _remove(out, file)


class _Step:
    """The state of the step."""

    def __init__(self, request: ReportRequest, ledger: Ledger) -> None:
        self._request = request
        self._ledger = ledger
        self._known = ledger.reports()
        self._inputs: dict[str, str] = {}
        self.entries: list[DocumentEntry] = []
        self.faults: list[str] = []

    def order(self, client: str, files: str) -> ReportOrder | None:
        """Return what a worker is to make of a client; None where its reports stand."""
        request, known = self._request, self._known.get(client)
        marks = [files, request.engine, str(request.wait_days)]
        marks += [_mark(signature_file(request.root, client)), _mark(issued_file(request.root, client))]
        inputs = sha256("\n".join(marks).encode()).hexdigest()
        same = known is not None and known.inputs == inputs and known.made_on <= request.as_of <= known.holds_until
        outputs = {file: one.output for file, one in known.files.items()} if known is not None else {}
        if known is not None and same and (not outputs or same_files(request.out, outputs)):
            self.entries += _entries(known)
            return None
        self._inputs[client] = inputs
        day = known.made_on if known is not None and same else request.as_of
        return ReportOrder(
            request.root, request.out, client, day, known.files if known is not None else {}, request.wait_days
        )

    def have_made(self, orders: list[ReportOrder], must_stop: Callable[[], bool]) -> None:
        """Have the reports made, and put in place what comes."""
        if not orders or must_stop():
            return
        from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - loaded where there is work

        request = self._request
        limits = Limits(request.jobs, _DEADLINES * request.deadline_s, request.memory_mb, warm=True)
        days = {order.client: order.as_of for order in orders}
        for answer in work_through(orders, request.job, limits, must_stop):
            if isinstance(answer, Failure):
                self.faults.append(f"the farm reports of {answer.client} could not be made: {answer.words}")
            else:
                told = f"farm reports of {answer.client} could not be made"
                self.faults += [f"{told}: {problem}" for problem in answer.problems]
                self._settle(answer, days[answer.client])

    def _settle(self, answer: ReportAnswer, day: date) -> None:
        """Take away what is not to stand, put in place what is, and remember it."""
        known, out = self._known.get(answer.client), self._request.out
        files = {report.file: report.known for report in answer.reports}
        for file in sorted(set(known.files) - set(files)) if known is not None else ():
            _remove(out, file)
        for report in answer.reports:
            if report.content is not None:
                replace_file(out / report.file, report.content)
        made = {report.file for report in answer.reports if report.content is not None}
        record = ReportRecord(answer.client, self._inputs[answer.client], day, answer.holds_until, files)
        self._ledger.keep_reports(record)
        self.entries += _entries(record, made)


def _mark(path: Path) -> str:
    """Return what stands for a small record: its digest; empty where there is none."""
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError as fault:
        return "" if isinstance(fault, FileNotFoundError) else f"unreadable {fault.errno}"


def _remove(out: Path, file: str) -> None:
    """Remove a report, and its folder where nothing else is in it."""
    path = out / file
    path.unlink(missing_ok=True)
    if path.parent.is_dir() and not any(path.parent.iterdir()):
        path.parent.rmdir()


def _entries(record: ReportRecord, made: frozenset[str] | set[str] = frozenset()) -> Iterator[DocumentEntry]:
    """Yield what is said of the files."""
    for file, known in sorted(record.files.items()):
        yield DocumentEntry(file, known.day, known.output, made=file in made)
