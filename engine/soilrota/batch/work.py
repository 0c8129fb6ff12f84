"""What a worker does for one client: files to windows to documents. It writes nothing."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import lru_cache
from pathlib import Path
from time import perf_counter

from soilrota.batch.bags import missing_of
from soilrota.batch.faults import BatchError
from soilrota.batch.fingerprints import client_digest, same_file, shared_digest
from soilrota.batch.issued import read_issued
from soilrota.batch.layouts import layouts_for
from soilrota.batch.outputs import PROGRAMME, document_file
from soilrota.batch.reading import read_client, read_shared
from soilrota.batch.result_doubts import findings_on_results
from soilrota.batch.results_work import results_documents
from soilrota.batch.season_rows import season_rows
from soilrota.batch.values import Answer, DocumentAnswer, Order, SeasonRow, VisitRow, made_document
from soilrota.batch.visit_rows import visit_rows
from soilrota.batch.weather import goes_beyond, known_on, weather_for
from soilrota.book import Shared
from soilrota.documents import Found, ProgrammeView, programme_view, render_programme, view_digest, warm_up
from soilrota.documents.faults import TemplateFaultError
from soilrota.model.client import Client
from soilrota.model.windows import Task
from soilrota.problems import Problem, Severity, in_order
from soilrota.results import check_notes
from soilrota.timing import check_days, tasks_of, visits_of, visits_to_place, window_of

#: How long a programme tells of a corrected report [d]: until the next year's sampling is at hand.
_CORRECTIONS_TOLD = timedelta(days=400)


class PracticeChangedError(BatchError):
    """The files that all clients share got errors while the night was at work."""


def make_client(order: Order) -> Answer:
    """Make one client's documents, as far as what stands on disk is not right already.

    A document of which the view is the one in the ledger keeps its date; any other is dated by the as-of date.

    Raises:
        PracticeChangedError: the files that all clients share got errors since the night began.
    """
    began = perf_counter()
    shared = _shared(order.root, shared_digest(order.root, ""))
    inputs = client_digest(order.root, order.client, shared_digest(order.root, shared.practice.logo))
    client, problems = read_client(order.root, order.client, shared)
    if client is None:
        return Answer(order.client, inputs, None, (), (), problems, perf_counter() - began)
    weather = weather_for(order.root, client)[0] or {}
    tasks = tasks_of(client, known_on(weather, order.as_of))
    ground, wrong = _ground(order, client, tasks)
    problems = in_order((*problems, *wrong))
    said = _said(client, tasks, ground, order.as_of)
    holds_until = (
        order.as_of if goes_beyond(weather, order.as_of) else _holds_until(client, tasks, ground, said, order.as_of)
    )
    programme, wrong = _document(order, said.view)
    problems = in_order((*problems, *wrong))
    documents = (*programme, *results_documents(order, client, ground.found.results))
    return Answer(
        client=order.client,
        inputs=inputs,
        holds_until=holds_until,
        rows=said.rows,
        documents=documents,
        problems=problems,
        took_s=perf_counter() - began,
        visits=said.visits,
        missing=missing_of(client, order.as_of),
    )


@dataclass(frozen=True, slots=True)
class _Said:
    """What is said of a client on one day, and the last day on which that stands but for days that have passed."""

    view: ProgrammeView
    rows: tuple[SeasonRow, ...]
    visits: tuple[VisitRow, ...]
    until: date


@dataclass(frozen=True, slots=True)
class _Ground:
    """What is known of a client beside its windows, and the last day on which the same is known."""

    found: Found
    until: date


def _ground(order: Order, client: Client, tasks: tuple[Task, ...]) -> tuple[_Ground, tuple[Problem, ...]]:
    """Return what is known of a client beside its windows.

    What was given out before is needed for bags and points; where it cannot be read, the night says so, and the
    programme says nothing of them.
    """
    told = order.as_of - _CORRECTIONS_TOLD
    corrections = tuple(one for one in client.corrections if one.reported >= told)
    about_results, until = findings_on_results(order.root, client, order.as_of)
    until = min((until, *(one.reported + _CORRECTIONS_TOLD for one in corrections)))
    found = Found(check_days(client), about_results, corrections)
    issued, problems = read_issued(order.root, client.id)
    if issued is None:
        return _Ground(found, until), tuple(replace(problem, severity=Severity.WARNING) for problem in problems)
    samples = (*found.samples, *check_notes(client, [one.bag for one in issued.bags]))
    layouts = layouts_for(client, issued, [task.key for task in tasks])
    return _Ground(replace(found, samples=samples, layouts=layouts), until), problems


def _said(client: Client, tasks: tuple[Task, ...], ground: _Ground, day: date) -> _Said:
    """Return what is said of a client on a day."""
    windows = tuple(window_of(task, day) for task in tasks)
    until = min((ground.until, *(window.holds_until for window in windows))) if windows else day
    visits = visits_of(client, windows)
    placing = visit_rows(client, visits, visits_to_place(client, visits, windows), windows, day)
    view = programme_view(client, tasks, windows, visits, ground.found)
    return _Said(view, season_rows(client, windows), placing, until)


def _holds_until(client: Client, tasks: tuple[Task, ...], ground: _Ground, said: _Said, as_of: date) -> date:
    """Return the last day on which the same is said.

    A window stands except for days that have passed; where a document speaks of those, it is looked at every night.
    """
    if said.until == as_of:
        return as_of
    last = _said(client, tasks, ground, said.until)
    same = (last.view, last.rows, last.visits) == (said.view, said.rows, said.visits)
    return said.until if same else as_of


def _document(order: Order, view: ProgrammeView) -> tuple[tuple[DocumentAnswer, ...], tuple[Problem, ...]]:
    """Return the programme, rendered only where the file on disk is not the one of this view.

    Where the practice's own template cannot be used, the programme stays as it was; nothing else of the client waits.
    """
    digest = view_digest(view, order.root)
    known = order.known.get(PROGRAMME)
    same = known is not None and known.view == digest
    stands = known is not None and same_file(document_file(order.out, order.client, PROGRAMME), known.output)
    if known is not None and same and stands:
        return (DocumentAnswer(PROGRAMME, known, None),), ()
    day = known.day if known is not None and same else order.as_of
    warm_worker()
    try:
        content = render_programme(view, day, order.root)
    except TemplateFaultError as fault:
        kept = (DocumentAnswer(PROGRAMME, known, None, is_stale=True),) if known is not None and stands else ()
        return kept, (replace(fault.problem, severity=Severity.WARNING),)
    return (made_document(PROGRAMME, day, content, digest),), ()


@lru_cache(maxsize=1)
def warm_worker() -> None:
    """Get ready to render, once a process: a worker's own, or the one that workers are forked from."""
    warm_up()


@lru_cache(maxsize=1)
def _shared(root: Path, digest: str) -> Shared:  # noqa: ARG001 - the digest is what the cache goes by
    """Return what all clients share, read anew where the digest says that it changed."""
    shared, problems = read_shared(root)
    if shared is None:
        raise PracticeChangedError(f"the files that all clients share got errors during the night: {problems[0]}")
    return shared
