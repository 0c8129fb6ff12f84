"""Every kind of document of the example book, as HTML, in any language."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from soilrota.book import load_shared
from soilrota.documents import ProgrammeView, calendar_view, checks_view, pack_view, programme_view, report_view
from soilrota.documents.templates import (
    calendar_html,
    checks_html,
    farm_report_html,
    field_pack_html,
    programme_html,
)
from soilrota.guidelines.check_samples import check_sources
from soilrota.model.client import Client
from soilrota.model.field_calendar import PlannedCalendar, VisitLabel
from soilrota.model.practice import Practice
from soilrota.timing import visits_of
from soilrota.timing.field_calendar import plan_calendar, weeks
from tests.documents.checks import LIMITS, a_chart
from tests.documents.made import AS_OF, BOOK, CLIENTS, answers, example
from tests.documents.packs import a_pack
from tests.documents.reports import advised, grounds
from tests.timing.field_calendar.making import a_season

#: Clients of which reports and packs are made: land uses, hemispheres and guidelines of all kinds.
REPORTS = ("brolga-plains", "ellery-orchard", "farrow-vines", "hazel-rigg", "iron-prairie")
PACKS = ("brolga-plains", "glen-tarn")


def pages(language: str) -> Iterator[tuple[str, str]]:
    """Yield name and HTML of documents in a language."""
    for name in CLIENTS:
        yield f"programme {name}", programme_html(programme(replace(example(name), language=language)), AS_OF)
    for name in PACKS:
        pack = a_pack(name)
        pack = replace(pack, client=replace(pack.client, language=language))
        yield f"field pack {name}", field_pack_html(pack_view(pack), AS_OF)
    for name in REPORTS:
        found = grounds(name)
        found = replace(found, client=replace(found.client, language=language))
        yield f"report {name}", farm_report_html(report_view(found, found.client.farms[0]), AS_OF)
    found = advised()
    found = replace(found, client=replace(found.client, language=language))
    yield "report with advice", farm_report_html(report_view(found, found.client.farms[0]), AS_OF)
    yield from practice_pages(language)


def programme(client: Client) -> ProgrammeView:
    """Return the view of a client's programme, with its visits."""
    tasks, windows = answers(client)
    return programme_view(client, tasks, windows, visits_of(client, windows))


def practice_pages(language: str) -> Iterator[tuple[str, str]]:
    """Yield name and HTML of the practice's own documents."""
    of_book = replace(practice(), language=language)
    charts = (a_chart(0.1), a_chart(2.5, laboratory="far-bench"), a_chart(4.0, laboratory="tarn-bench"))
    yield "checks", checks_html(checks_view(charts, of_book, LIMITS, check_sources()), AS_OF)
    inputs = a_season(40, 2, seed=3, longest=300)
    calendar = plan_calendar(inputs)
    labels = {visit.id: VisitLabel(f"Client {visit.id}", f"Farm {visit.id}", ("Ridge",)) for visit in inputs.visits}
    planned = PlannedCalendar(calendar, inputs, weeks(calendar, inputs.crew), labels, AS_OF)
    yield "calendar", calendar_html(calendar_view(planned, of_book), AS_OF)


@cache
def practice() -> Practice:
    """Return the practice of the example book."""
    shared, _ = load_shared(BOOK)
    assert shared is not None
    return shared.practice
