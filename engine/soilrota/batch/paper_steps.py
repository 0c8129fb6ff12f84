"""Field packs and farm reports of a night: two steps over the clients that are as their files say."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.fingerprints import made_by
from soilrota.batch.ledger import ClientRecord, Ledger
from soilrota.batch.pack_step import PackRequest, keep_packs
from soilrota.batch.report_step import ReportRequest, keep_reports
from soilrota.batch.shared_step import FIELD_CALENDAR
from soilrota.batch.values import DocumentEntry
from soilrota.model.documents import DocumentKind


@dataclass(frozen=True, slots=True)
class PaperRequest:
    """What both steps need of the night: folders, as-of date, facts of the book, workers at once [-]."""

    root: Path
    out: Path
    as_of: date
    facts: BookFacts
    jobs: int


@dataclass(frozen=True, slots=True)
class Papers:
    """The files of field packs and of farm reports that stand, and in words what went wrong."""

    packs: tuple[DocumentEntry, ...] = ()
    reports: tuple[DocumentEntry, ...] = ()
    faults: tuple[str, ...] = ()


def keep_papers(
    request: PaperRequest, clients: Sequence[ClientRecord], ledger: Ledger, must_stop: Callable[[], bool]
) -> Papers:
    """See that field packs and farm reports stand; a step that cannot write costs the other nothing.

    Args:
        request: what the steps need of the night.
        clients: what is known of each client that is as its files say.
        ledger: the open ledger.
        must_stop: asked a few times a second.
    """
    packs: tuple[DocumentEntry, ...] = ()
    reports: tuple[DocumentEntry, ...] = ()
    faults: list[str] = []
    for name, step in (("field packs", _packs), ("farm reports", _reports)):
        if must_stop():
            break
        try:
            files, wrong = step(request, clients, ledger, must_stop)
        except OSError as fault:
            files, wrong = (), (f"{fault.filename or f'the {name}'} could not be written: {fault.strerror}",)
        packs, reports = (files, reports) if step is _packs else (packs, files)
        faults += wrong
    return Papers(packs, reports, tuple(faults))


_Kept = tuple[tuple[DocumentEntry, ...], tuple[str, ...]]


def _packs(
    request: PaperRequest, clients: Sequence[ClientRecord], ledger: Ledger, must_stop: Callable[[], bool]
) -> _Kept:
    """Keep the field packs of the coming weeks."""
    facts, calendar = request.facts, ledger.shared(FIELD_CALENDAR.name)
    asked = PackRequest(
        root=request.root,
        out=request.out,
        as_of=request.as_of,
        engine=made_by(facts.engine, request.root, DocumentKind.FIELD_PACK, DocumentKind.LABELS),
        days_before=facts.pack_days,
        jobs=request.jobs,
        deadline_s=facts.deadline_s,
        memory_mb=facts.memory_mb,
    )
    of_clients = {record.client: (record.inputs, record.visits) for record in clients}
    return keep_packs(asked, of_clients, calendar.placed if calendar is not None else (), ledger, must_stop)


def _reports(
    request: PaperRequest, clients: Sequence[ClientRecord], ledger: Ledger, must_stop: Callable[[], bool]
) -> _Kept:
    """Keep the farm reports."""
    facts = request.facts
    asked = ReportRequest(
        root=request.root,
        out=request.out,
        as_of=request.as_of,
        engine=made_by(facts.engine, request.root, DocumentKind.FARM_REPORT),
        wait_days=facts.report_days,
        jobs=request.jobs,
        deadline_s=facts.deadline_s,
        memory_mb=facts.memory_mb,
    )
    of_clients: Mapping[str, str] = {record.client: record.inputs for record in clients}
    return keep_reports(asked, of_clients, ledger, must_stop)
