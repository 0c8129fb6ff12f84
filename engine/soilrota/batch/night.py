"""One night: lock, ledger, digests; workers for what changed; files, then ledger rows; the table and the report.

This process alone writes. A document is put in place first and remembered second, so that a night that is cut off
anywhere leaves whole files and a ledger that claims nothing too much; the next night finds what is missing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from time import perf_counter
from typing import Any, Protocol

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.check_records import check_values_digest
from soilrota.batch.edge import Edge
from soilrota.batch.faults import CannotStartError
from soilrota.batch.fingerprints import client_digest, made_by
from soilrota.batch.intake import NO_HURRY, Clock, IntakeAsk, take_in
from soilrota.batch.intake_values import IntakeReport, Overtaken
from soilrota.batch.issued import issued_digest
from soilrota.batch.ledger import ClientRecord, Ledger
from soilrota.batch.opening import known_facts, open_book
from soilrota.batch.outputs import prepare_output
from soilrota.batch.paper_steps import PaperRequest, Papers, keep_papers
from soilrota.batch.remind_step import Reminded, RemindRequest, close_night, keep_reminders
from soilrota.batch.run_report import put_report
from soilrota.batch.season_facts import SeasonRequest
from soilrota.batch.season_step import keep_season_page, write_season
from soilrota.batch.settling import Settler
from soilrota.batch.shared_step import FIELD_CALENDAR, OF_KIND, SharedRequest, keep_shared
from soilrota.batch.standing import entry_of, folder_entries, stands
from soilrota.batch.still_until import still_until
from soilrota.batch.template_faults import programme_faults
from soilrota.batch.values import DocumentEntry, Entry, NightReport, Order, Outcome
from soilrota.files import nearest_name
from soilrota.model.documents import DocumentKind
from soilrota.model.intake import MissingBag
from soilrota.problems import Problem

#: The job that makes a client's documents.
JOB = "soilrota.batch.work:make_client"


@dataclass(frozen=True, slots=True)
class NightRequest:
    """What is asked of a night.

    Attributes:
        root: the book's folder.
        out: the output folder.
        started: when the night starts, ISO 8601, for the lock and the report.
        as_of: the as-of date; None for today in the practice's time zone.
        only: ids of the clients to work on; empty for all.
        jobs: workers at once [-].
        job: `module:function` that a worker runs for each client.
        clock: tells how old the files of the inbox are; by default all are old enough.
        edge: what sending takes from the edge of the program; None to send nothing.
    """

    root: Path
    out: Path
    started: str
    as_of: date | None = None
    only: tuple[str, ...] = ()
    jobs: int = 1
    job: str = JOB
    clock: Clock = NO_HURRY
    edge: Edge | None = None


class Watcher(Protocol):
    """Who is told how the night goes on."""

    def begin(self, clients: int) -> None:
        """Hear how many clients there are [-]."""

    def done(self, entry: Entry) -> None:
        """Hear what became of a client."""

    def asked_to_end(self) -> int | None:
        """Return the number of the signal that asks the night to end; None while there is none."""


def run_night(request: NightRequest, today: Callable[[str], date], watcher: Watcher) -> NightReport:
    """Run a night.

    Args:
        request: what is asked.
        today: returns today's date in a time zone (IANA name); asked only where the request names no as-of date.
        watcher: is told of every client, and says when to end early.

    Raises:
        CannotStartError: nothing was begun; the text says why.
        AnotherRunError: another night is at work on this book.
    """
    began = perf_counter()
    with open_book(request.root, request.started) as ledger:
        facts = known_facts(request.root, ledger)
        night = _Night(request, request.as_of or today(facts.time_zone), facts, ledger, watcher)
        night.select()
        prepare_output(request.root, request.out)
        night.take_in()
        night.work()
        faults = [
            *(night.intake.faults if night.intake else ()),
            *night.settler.faults,
            *programme_faults(night.entries.values()),
            *night.write_season(),
            *night.keep_calendar(),
            *night.keep_papers(),
            *night.keep_checks(),
            *night.remind(),
            *night.keep_page(),
        ]
        report = NightReport(
            as_of=night.as_of,
            started=request.started,
            took_s=perf_counter() - began,
            entries=tuple(night.entries[name] for name in sorted(night.entries)),
            problems=(*facts.problems, *night.problems),
            stopped_by=watcher.asked_to_end(),
            faults=tuple(faults),
            shared=night.shared,
            packs=night.papers.packs,
            reports=night.papers.reports,
            feeds=night.reminded.files,
            intake=night.intake,
            missing=night.missing(),
            overtaken=night.still_overtaken(),
            time_zone=facts.time_zone,
        )
        report = put_report(request.out, report)
        report = replace(report, faults=(*report.faults, *night.send(report)))
        return replace(report, still_until=night.still_until(report))


class _Night:
    """The state of one night."""

    def __init__(self, request: NightRequest, as_of: date, facts: BookFacts, ledger: Ledger, watcher: Watcher) -> None:
        self.request = request
        self.as_of = as_of
        self.facts = facts
        self.known = ledger.clients()
        self.engine = made_by(facts.engine, request.root, DocumentKind.PROGRAMME)
        self.settler = Settler(request.out, as_of, self.engine, ledger, self.known)
        self.watcher = watcher
        self.entries: dict[str, Entry] = {}
        self.clients: tuple[str, ...] = ()
        self.current: set[str] = set()
        self.shared: tuple[DocumentEntry, ...] = ()
        self.problems: tuple[Problem, ...] = ()
        self.papers = Papers()
        self.reminded = Reminded()
        self.intake: IntakeReport | None = None
        self.overtaken: tuple[Overtaken, ...] = ()
        self.ledger = ledger

    def take_in(self) -> None:
        """Take the inbox in, before the clients, so that what came back stands in the documents of this night."""
        if self._must_stop():
            return
        ask = IntakeAsk(self.request.root, self.as_of, self.request.jobs)
        self.intake = take_in(ask, self.facts, self.request.clock, self.ledger, self._must_stop)
        self.overtaken = self.ledger.overtaken()

    def missing(self) -> tuple[MissingBag, ...]:
        """Return the bags of all clients of the book that have not come back, the longest awaited first."""
        bags = (bag for client in self.facts.clients if client in self.known for bag in self.known[client].missing)
        return tuple(sorted(bags, key=lambda bag: (bag.since, bag.client, bag.farm, bag.zone, bag.top_cm)))

    def still_overtaken(self) -> tuple[Overtaken, ...]:
        """Return the documents that showed results from before a correction, and whether they were made again."""
        left = set(self.ledger.overtaken())
        return tuple(replace(one, made_again=one not in left) for one in self.overtaken)

    def select(self) -> None:
        """Choose the clients to work on.

        Raises:
            CannotStartError: a client that was asked for is not in the book.
        """
        names = (*self.facts.clients, *self.facts.unreadable)
        for name in self.request.only:
            if name not in names:
                nearest = nearest_name(name, names)
                hint = f"; did you mean {nearest}?" if nearest else ""
                raise CannotStartError(f"there is no client {name} in the book{hint}")
        wanted = set(self.request.only or names)
        self.clients = tuple(name for name in self.facts.clients if name in wanted)
        self.entries = folder_entries(self.facts, wanted)

    def work(self) -> None:
        """See what stands, and have made what does not."""
        self.watcher.begin(len(self.clients) + len(self.entries))
        for entry in self.entries.values():
            self.watcher.done(entry)
        orders = []
        for client in self.facts.clients:
            record = self._standing_record(client)
            if record is not None:
                self.current.update({client} if record.outcome is Outcome.MADE else ())
                if client in self.clients:
                    self._tell(entry_of(record))
            elif client in self.clients:
                known = self.known.get(client)
                documents = dict(known.documents) if known else {}
                orders.append(Order(self.request.root, self.request.out, client, self.as_of, documents))
        if orders:
            self._have_made(orders)

    def _standing_record(self, client: str) -> ClientRecord | None:
        """Return the ledger's record of a client where it still holds and its documents are on disk; else None."""
        record = self.known.get(client)
        if record is None:
            return None
        inputs = client_digest(self.request.root, client, self.facts.shared)
        return record if stands(record, inputs, self.engine, self.as_of, self.request.out) else None

    def _have_made(self, orders: list[Order]) -> None:
        """Give the orders to workers and settle what they answer."""
        from soilrota.batch.workers import Limits, work_through  # noqa: PLC0415 - loaded where there is work

        limits = Limits(self.request.jobs, self.facts.deadline_s, self.facts.memory_mb, warm=True)
        for answer in work_through(orders, self.request.job, limits, self._must_stop):
            entry = self.settler.settle(answer)
            if entry.outcome in (Outcome.MADE, Outcome.UNCHANGED):
                self.current.add(entry.client)
            self._tell(entry)
        ended = self.watcher.asked_to_end()
        why = f"the night {'was ended before its turn' if ended else 'stopped where it could not write'}"
        for order in orders:
            if order.client not in self.entries:
                self._tell(Entry(order.client, Outcome.NOT_REACHED, why))

    def _must_stop(self) -> bool:
        """Return whether to begin nothing more."""
        return self.watcher.asked_to_end() is not None or bool(self.settler.faults)

    def _tell(self, entry: Entry) -> None:
        """Remember what became of a client, and say it."""
        self.entries[entry.client] = entry
        self.watcher.done(entry)

    def write_season(self) -> Iterator[str]:
        """Write the season table and remove what departed clients left; yield what could not be done, in words."""
        if not self._must_stop():
            yield from write_season(self._season(), self.ledger)

    def keep_page(self) -> Iterator[str]:
        """See that the season page stands; yield what could not be done, in words."""
        if not self._must_stop():
            yield from keep_season_page(self._season(), self.ledger)

    def _season(self) -> SeasonRequest:
        """Return what the season's table and page need of the night."""
        return SeasonRequest(
            out=self.request.out,
            as_of=self.as_of,
            facts=self.facts,
            known=self.known,
            current=frozenset(self.current),
            entries=self.entries,
            received=self.intake.records if self.intake else (),
        )

    def keep_calendar(self) -> Iterator[str]:
        """See that the field calendar stands; yield what could not be done, in words."""
        visits = [visit for name in self.facts.clients if name in self.known for visit in self.known[name].visits]
        yield from self._keep_shared(DocumentKind.FIELD_CALENDAR, visits=visits)

    def keep_checks(self) -> Iterator[str]:
        """See that the laboratory checks stand, which rest on the bags that field packs have given out."""
        records = [check_values_digest(self.request.root), issued_digest(self.request.root)]
        yield from self._keep_shared(DocumentKind.LABORATORY_CHECKS, further=" ".join(records))

    def _keep_shared(self, kind: DocumentKind, **rests_on: Any) -> Iterator[str]:
        """See that a document of the practice stands; yield what could not be done, in words."""
        if self._must_stop():
            return
        document = OF_KIND[kind]
        try:
            kept = keep_shared(self._shared_request(kind), document, self.ledger, self._must_stop, **rests_on)
        except OSError as wrong:
            yield f"{wrong.filename or f'the {document.name}'} could not be written: {wrong.strerror}"
            return
        self.shared += kept.files
        self.problems += kept.problems
        if kept.fault:
            yield kept.fault

    def _shared_request(self, kind: DocumentKind) -> SharedRequest:
        """Return what a document of the practice needs of the night."""
        facts = self.facts
        return SharedRequest(
            root=self.request.root,
            out=self.request.out,
            as_of=self.as_of,
            rests_on=(facts.shared, made_by(facts.engine, self.request.root, kind)),
            deadline_s=facts.deadline_s,
            memory_mb=facts.memory_mb,
        )

    def keep_papers(self) -> Iterator[str]:
        """See that field packs and farm reports stand; yield what could not be done, in words."""
        request = PaperRequest(self.request.root, self.request.out, self.as_of, self.facts, self.request.jobs)
        clients = [self.known[client] for client in sorted(self.current)]
        self.papers = keep_papers(request, clients, self.ledger, self._must_stop)
        yield from self.papers.faults

    def remind(self) -> Iterator[str]:
        """Put into the outbox what people must be told, and see that calendar feeds stand; yield what went wrong."""
        if self._must_stop():
            return
        facts, calendar = self.facts, self.ledger.shared(FIELD_CALENDAR.name)
        request = RemindRequest(
            root=self.request.root,
            out=self.request.out,
            as_of=self.as_of,
            rests_on=(facts.shared, facts.engine),
            clients={client: self.known[client].inputs for client in sorted(self.current)},
            placed=calendar.placed if calendar is not None else (),
            missing=self.missing(),
            reports={
                client: max(record.files.values(), key=lambda known: (known.day, known.output))
                for client, record in sorted(self.ledger.reports().items())
                if record.files
            },
            deadline_s=facts.deadline_s,
            memory_mb=facts.memory_mb,
        )
        try:
            self.reminded = keep_reminders(request, self.ledger, self._must_stop)
        except OSError as wrong:
            yield f"{wrong.filename or 'the calendar feeds'} could not be written: {wrong.strerror}"
        yield from self.reminded.faults

    def send(self, report: NightReport) -> Iterator[str]:
        """Put the morning summary into the outbox and send what waits, if there is an edge; yield what went wrong."""
        if self.request.edge is not None and not self._must_stop():
            yield from close_night(self.request.root, report, self.request.edge, sends=self.facts.sends)

    def still_until(self, report: NightReport) -> date | None:
        """Return up to which day a night has nothing to do while nothing changes; None where this one had."""
        clients = [self.known[client] for client in sorted(self.current)]
        return None if self.request.only else still_until(self.request.root, report, self.facts, clients, self.ledger)
