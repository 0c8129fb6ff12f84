"""Taking the inbox in: bytes made safe first, results next, then the record of the file, and the inbox emptied last.

A night that is cut off anywhere leaves the file in the inbox or its results in the records, never neither, and the next
night, which looks at the file again, finds results that are there already and adds nothing. Files are looked at by
workers, side by side; an answer that rests on a client whose results another file has just changed is asked for again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from hashlib import sha256
from pathlib import Path

from soilrota.batch.check_records import add_check_values
from soilrota.batch.fingerprints import client_digest
from soilrota.batch.inbox import Dropped, LeftAlone, look_through
from soilrota.batch.intake_values import FileEntry, IntakeAnswer, IntakeOrder, IntakeReport
from soilrota.batch.issued import issued_digest
from soilrota.batch.received import Received, keep_bytes, keep_received, read_received
from soilrota.batch.set_aside import keep_reasons, keep_rows, take_rows
from soilrota.batch.values import Cause, Failure
from soilrota.files import replace_file, sweep_leftovers

#: The job that looks at one file.
JOB = "soilrota.batch.intake_work:take_in"
_RESULTS = "records/results"
_SWEPT = ("received", "set_aside", "results", "check_samples")


@dataclass(frozen=True, slots=True)
class IntakeRequest:
    """What the step needs.

    Attributes:
        root: the book's folder.
        as_of: the as-of date.
        rests_on: digests of the shared files and of the engine.
        clients: ids of the clients, sorted.
        quiet_s: how long a file must have been quiet [s].
        jobs: workers at once [-].
        deadline_s: time that one file may take [s].
        memory_mb: memory that one file may take [MB].
        now: tells the time [s since 1970].
        wait: lets time pass [s].
        mark: is told, before results are put in place, of a client whose earlier results they correct, and the reports.
        job: `module:function` that looks at a file.
    """

    root: Path
    as_of: date
    rests_on: tuple[str, str]
    clients: tuple[str, ...]
    quiet_s: float
    jobs: int
    deadline_s: float
    memory_mb: int
    now: Callable[[], float]
    wait: Callable[[float], None]
    mark: Callable[[str, tuple[str, ...]], None]
    job: str = JOB


def take_inbox(request: IntakeRequest, must_stop: Callable[[], bool]) -> IntakeReport:
    """Take in what lies in the inbox, and look again at rows that wait where the book changed.

    Args:
        request: what the step needs.
        must_stop: asked a few times a second.

    Raises:
        OSError: a file cannot be read or written; what was done is whole.
        ValueError: a record of a file was changed by other hands; the text names it.
    """
    for folder in _SWEPT:
        if (request.root / "records" / folder).is_dir():
            sweep_leftovers(request.root / "records" / folder)
    dropped, alone = look_through(request.root, request.quiet_s, request.now, request.wait)
    step = _Step(request, {record.digest: record for record in read_received(request.root)}, must_stop)
    for file in dropped:
        step.receive(file)
    step.work()
    step.look_again()
    step.work()
    return step.report(alone)


class _Step:
    """The state of one intake."""

    def __init__(self, request: IntakeRequest, known: dict[str, Received], must_stop: Callable[[], bool]) -> None:
        self._request = request
        self._known = known
        self._must_stop = must_stop
        self._rests_on = _Judged(request)
        self._orders: dict[str, IntakeOrder] = {}
        self._touches: dict[str, frozenset[str]] = {}
        self._files: dict[str, list[Dropped]] = {}
        self._entries: list[FileEntry] = []
        self._faults: list[str] = []

    def receive(self, file: Dropped) -> None:
        """Make the bytes of a file safe, and order a look at it unless the same were taken in before."""
        try:
            content = file.path.read_bytes()
        except OSError as fault:
            self._faults.append(
                f"{file.name} was not taken in: it cannot be read ({fault.strerror}); it is tried again"
            )
            return
        digest = sha256(content).hexdigest()
        others = self._files.setdefault(digest, [])
        others.append(file)
        earlier = self._known.get(digest)
        if earlier is not None and not _may_now_be_read(earlier, file):
            self._entries.append(FileEntry(earlier, again=True, fresh=False, dropped_as=file.name))
            self._empty(digest)
            return
        if len(others) > 1:
            return
        keep_bytes(self._request.root, digest, content)
        self._order(digest, file.name, file.laboratory, self._request.as_of, None)

    def _order(self, digest: str, name: str, laboratory: str, received_on: date, only: frozenset[int] | None) -> None:
        """Order a look at rows of a file."""
        names = {record.short: record.name for record in self._known.values()}
        self._orders[digest] = IntakeOrder(
            self._request.root, digest, name, laboratory, received_on, self._request.as_of, only, names
        )

    def look_again(self) -> None:
        """Order a look at the rows that wait where anything changed that they were judged by.

        That comes after the files of the inbox, because rows that came back mended wait no longer.
        """
        for record in self._known.values():
            if record.is_open and record.rests_on != self._rests_on.now():
                folder = record.name.rpartition("/")[0]
                only = None if record.refused else frozenset(record.reasons)
                self._order(record.digest, record.name, folder, record.received_on, only)

    def work(self) -> None:
        """Have every ordered file looked at, and put in place what comes, file by file in the order of their names.

        Of several answers that rest on one client only the first is put in place; the others are asked for again, one
        by one, because each rests on what the one before it brought.
        """
        if self._orders:
            self._rests_on.now()  # as the book stands before anything is put in place
        while self._orders and not self._must_stop():
            asked = self._apart()
            answers = self._answers(asked)
            touched: set[str] = set()
            for order in asked:
                answer = answers.get(order.client)
                if self._orders.get(order.client) is not order:  # rows of it came back mended in a file before it
                    continue
                if isinstance(answer, IntakeAnswer):
                    self._touches[order.client] = answer.touched
                    is_later = bool(answer.touched & touched)
                    touched |= answer.touched
                    if is_later:
                        continue
                    self._settle(order, answer)
                elif answer is not None:
                    self._fail(order, answer)
                del self._orders[order.client]
            if not answers:
                return

    def _apart(self) -> list[IntakeOrder]:
        """Return the orders to give out now, by name: of those that are known to rest on one client the first alone."""
        touched: set[str] = set()
        asked = []
        for digest, order in sorted(self._orders.items(), key=lambda item: (item[1].name, item[0])):
            rests_on = self._touches.get(digest, frozenset())
            if not rests_on & touched:
                asked.append(order)
            touched |= rests_on
        return asked

    def _answers(self, asked: Iterable[IntakeOrder]) -> dict[str, IntakeAnswer | Failure]:
        """Return what workers found in files, by digest."""
        from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - loaded where there is work

        request = self._request
        limits = Limits(request.jobs, request.deadline_s, request.memory_mb)
        answers = work_through(asked, request.job, limits, self._must_stop)
        return {answer.client: answer for answer in answers}

    def _fail(self, order: IntakeOrder, failure: Failure) -> None:
        """Say that a file could not be looked at; it stays where it is, and the next night tries again."""
        self._faults.append(f"{order.name} was not taken in: {failure.words}; it is tried again")
        if failure.cause is Cause.FAULT and failure.trace:
            self._faults.append(failure.trace)

    def _settle(self, order: IntakeOrder, answer: IntakeAnswer) -> None:
        """Put in place what was found: results, rows set aside, rows that were mended, the record; empty the inbox."""
        root = self._request.root
        for client in sorted(answer.corrected.keys() & {file.client for file in answer.files}):
            self._request.mark(client, answer.reports)
        for file in answer.files:
            path = root / _RESULTS / file.client / file.name
            if not path.is_file() or path.read_bytes() != file.content:
                replace_file(path, file.content)
        for laboratory in sorted({value.laboratory for value in answer.checks}):
            add_check_values(root, laboratory, [value for value in answer.checks if value.laboratory == laboratory])
        record = self._record(order, answer)
        before = self._known.get(record.digest)
        fresh = before is None or before.name != record.name
        if before is not None and fresh:
            keep_reasons(root, replace(before, refused=()))
        keep_rows(root, record, answer.table)
        keep_reasons(root, record)
        self._settle_origins(order, answer)
        keep_received(root, record)
        self._known[record.digest] = record
        self._entries.append(FileEntry(record, fresh=fresh, taken=len(answer.accepted)))
        twins = self._files[record.digest][1:] if fresh else ()
        self._entries += (FileEntry(record, again=True, fresh=False, dropped_as=file.name) for file in twins)
        self._empty(record.digest)

    def _record(self, order: IntakeOrder, answer: IntakeAnswer) -> Received:
        """Return what is known of a file after it was looked at."""
        before = self._known.get(order.client)
        waiting = {row.number: row.reasons for row in answer.waiting}
        first = Received(order.client, order.name, order.received_on)
        base = first if before is None or before.refused else before
        return replace(
            base,
            laboratory=answer.laboratory,
            reports=tuple(sorted({*base.reports, *answer.reports})),
            rows=base.rows or answer.rows,
            accepted=tuple(sorted({*base.accepted, *answer.accepted})),
            waiting=waiting,
            settled={**(base.settled or {}), **answer.settled},
            refused=answer.refused,
            notes=answer.notes,
            remarks=tuple(dict.fromkeys((*base.remarks, *answer.remarks))),
            corrected=_together(base.corrected or {}, answer.corrected),
            rests_on=self._rests_on.now(),
        )

    def _settle_origins(self, order: IntakeOrder, answer: IntakeAnswer) -> None:
        """Take rows that came back mended off the list of those that wait."""
        root = self._request.root
        accepted = set(answer.accepted)
        back: dict[str, dict[int, str]] = {}
        for number, origin in answer.origins.items():
            short, _, line = origin.partition(":")
            what = "accepted" if number in accepted else "set aside again"
            if line.isdecimal():
                back.setdefault(short, {})[int(line)] = f"mended and {what} as {order.client[: len(short)]}:{number}"
        for record in [one for one in self._known.values() if one.short in back and one.digest != order.client]:
            take_rows(root, record, set(back[record.short]))
            settled = record.without(back[record.short])
            keep_received(root, settled)
            self._known[record.digest] = settled
            self._order_less(settled)

    def _order_less(self, record: Received) -> None:
        """Look no more at rows that do not wait any longer."""
        order = self._orders.get(record.digest)
        if order is None or order.only is None:
            return
        only = order.only & frozenset(record.reasons)
        if only:
            self._orders[record.digest] = replace(order, only=only)
        else:
            del self._orders[record.digest]

    def _empty(self, digest: str) -> None:
        """Take a file out of the inbox, unless somebody has put other bytes in its place."""
        for file in self._files.get(digest, ()):
            if file.path.is_file() and sha256(file.path.read_bytes()).hexdigest() == digest:
                file.path.unlink(missing_ok=True)

    def report(self, alone: Iterable[LeftAlone]) -> IntakeReport:
        """Return how it went."""
        records = sorted(self._known.values(), key=lambda record: (record.name, record.digest))
        return IntakeReport(
            as_of=self._request.as_of,
            files=tuple(sorted(self._entries, key=lambda entry: (entry.record.name, entry.record.digest))),
            records=tuple(sorted(records, key=lambda record: record.received_on, reverse=True)),
            alone=tuple(alone),
            faults=tuple(self._faults),
        )


def _may_now_be_read(earlier: Received, file: Dropped) -> bool:
    """Return whether a file of which nothing could be read came again under another name: its folder may decide now."""
    return bool(earlier.refused) and earlier.name != file.name


def _together(words: Mapping[str, tuple[str, ...]], more: Mapping[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """Return words by client, old and new, none twice."""
    clients = sorted({*words, *more})
    return {client: tuple(dict.fromkeys((*words.get(client, ()), *more.get(client, ())))) for client in clients}


class _Judged:
    """The digest of everything that rows are judged by; reckoned once, and only where a row waits."""

    def __init__(self, request: IntakeRequest) -> None:
        self._request = request
        self._digest = ""

    def now(self) -> str:
        """Return the digest, as the book stood before this intake."""
        if not self._digest:
            request = self._request
            parts = [*request.rests_on, *self._clients(request.rests_on[0]), issued_digest(request.root)]
            self._digest = sha256("\n".join(parts).encode()).hexdigest()
        return self._digest

    def _clients(self, shared: str) -> Iterator[str]:
        """Yield the digest of each client's files."""
        yield from (client_digest(self._request.root, client, shared) for client in self._request.clients)
