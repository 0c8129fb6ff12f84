"""Field packs in the night: for the visits of the coming weeks, made anew where what they say changed.

A client's packs rest on its files, the engine, the day and person of each visit, and the bag ids given out. They are
dated by the night on which any of those last changed. What is given out is written down first: ids before a paper is
made, points before it is put in place.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import date, timedelta
from hashlib import sha256
from pathlib import Path

from soilrota.batch.bag_issue import BagIssue
from soilrota.batch.check_bags import reserved_ids
from soilrota.batch.fingerprints import same_files
from soilrota.batch.issued import add_points
from soilrota.batch.ledger import Ledger, PackRecord
from soilrota.batch.outputs import client_folder, document_file, document_name
from soilrota.batch.values import Answer, DocumentEntry, Failure, Order, PlacedRow, VisitRow
from soilrota.batch.visit_rows import bags_of, visit_day
from soilrota.files import replace_file

#: The job that makes the packs of one client.
JOB = "soilrota.batch.pack_work:make_packs"
#: A pack shows many maps: it may take this many times what a client's other documents may.
_DEADLINES = 3


@dataclass(frozen=True, slots=True)
class PackRequest:
    """What the step needs of the night.

    Attributes:
        root, out: the book's folder and the output folder.
        as_of: the as-of date.
        engine: digest of the engine.
        days_before: packs are made for visits up to so many days ahead [d].
        jobs: workers at once [-].
        deadline_s: time that one client may take [s].
        memory_mb: memory that one client may take [MB].
        job: `module:function` that makes the packs.
    """

    root: Path
    out: Path
    as_of: date
    engine: str
    days_before: int
    jobs: int
    deadline_s: float
    memory_mb: int
    job: str = JOB


def keep_packs(
    request: PackRequest,
    clients: Mapping[str, tuple[str, Sequence[VisitRow]]],
    placed: Sequence[PlacedRow],
    ledger: Ledger,
    must_stop: Callable[[], bool],
) -> tuple[tuple[DocumentEntry, ...], tuple[str, ...]]:
    """See that the packs stand; return their files, and in words what went wrong.

    Args:
        request: what the step needs of the night.
        clients: digest of the files and the visits of each client that is as its files say.
        placed: day and person of each visit that has one.
        ledger: the open ledger.
        must_stop: asked a few times a second.

    Raises:
        OSError: a file cannot be written.
    """
    step = _Step(request, {row["visit"]: row for row in placed}, ledger)
    orders = [
        order for client, (inputs, visits) in sorted(clients.items()) if (order := step.order(client, inputs, visits))
    ]
    step.have_made(orders, must_stop)
    return tuple(step.entries), tuple(step.faults)


class _Step:
    """The state of the step."""

    def __init__(self, request: PackRequest, placed: Mapping[str, PlacedRow], ledger: Ledger) -> None:
        self._request = request
        self._placed = placed
        self._ledger = ledger
        self._known = ledger.packs()
        self._issue = BagIssue(request.root, lambda: reserved_ids(request.root))
        self._inputs: dict[str, str] = {}
        self.entries: list[DocumentEntry] = []
        self.faults: list[str] = []

    def order(self, client: str, inputs: str, visits: Sequence[VisitRow]) -> Order | None:
        """Return what a worker is to make of a client; None where its packs stand, or there are none to make."""
        request, known = self._request, self._known.get(client)
        due = tuple(
            visit
            for visit in visits
            if visit_day(visit, self._placed) <= request.as_of + timedelta(days=request.days_before)
        )
        if not due:
            self._clear(client)
            return None
        bags = self._issue.bags_for(client, [bag for visit in due for bag in bags_of(visit)], request.as_of)
        if bags is None:
            self.faults += sorted({f"the field packs of {client} wait: {problem}" for problem in self._issue.problems})
            return None
        placed = tuple(self._placed[visit["visit"]] for visit in due if visit["visit"] in self._placed)
        rests_on = [inputs, request.engine, due, placed, [asdict(bag) for bag in bags]]
        digest = sha256(json.dumps(rests_on, ensure_ascii=False, sort_keys=True).encode()).hexdigest()
        same = known is not None and known.inputs == digest and known.made_on <= request.as_of
        if known is not None and same and same_files(client_folder(request.out, client), known.files):
            self.entries += _entries(known, made=False)
            return None
        self._inputs[client] = digest
        day = known.made_on if known is not None and same else request.as_of
        return Order(request.root, request.out, client, day, visits=due, placed=placed, bags=bags)

    def _clear(self, client: str) -> None:
        """Remove the packs of a client that has no visit ahead."""
        known = self._known.get(client)
        if known is not None and known.files:
            self._remove(client, known.files)
            self._ledger.keep_packs(PackRecord(client, "", self._request.as_of, {}))

    def _remove(self, client: str, names: Mapping[str, str] | Sequence[str]) -> None:
        """Remove files of a client's packs."""
        for name in names:
            document_file(self._request.out, client, name).unlink(missing_ok=True)

    def have_made(self, orders: list[Order], must_stop: Callable[[], bool]) -> None:
        """Have the packs made, and put in place what comes."""
        if not orders:
            return
        from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - loaded where there is work

        request = self._request
        limits = Limits(request.jobs, _DEADLINES * request.deadline_s, request.memory_mb, warm=True)
        days = {order.client: order.as_of for order in orders}
        for answer in work_through(orders, request.job, limits, must_stop):
            if isinstance(answer, Failure):
                self.faults.append(f"the field packs of {answer.client} could not be made: {answer.words}")
            else:
                self._settle(answer, days[answer.client])
        self.entries.sort(key=lambda entry: entry.file)

    def _settle(self, answer: Answer, day: date) -> None:
        """Write down the points that are given out, put the files in place, remember them."""
        client = answer.client
        issued = self._issue.of(client)
        if issued is not None:
            self._issue.keep(client, add_points(self._request.root, client, issued, answer.points))
        for document in answer.documents:
            if document.content is not None:
                replace_file(document_file(self._request.out, client, document.name), document.content)
        files = {document.name: document.known.output for document in answer.documents}
        known = self._known.get(client)
        self._remove(client, sorted(set(known.files) - set(files)) if known else ())
        record = PackRecord(client, self._inputs[client], day, files)
        self._ledger.keep_packs(record)
        self.entries += _entries(record, made=True)


def _entries(record: PackRecord, *, made: bool) -> Iterator[DocumentEntry]:
    """Yield what is said of the files."""
    for name, digest in sorted(record.files.items()):
        yield DocumentEntry(document_name(record.client, name), record.made_on, digest, made=made)
