"""What a worker does for the field calendar: visits of all clients to a plan and its two files. It writes nothing."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from time import perf_counter

from soilrota.batch.faults import BatchError
from soilrota.batch.reading import read_shared
from soilrota.batch.shared_pdf import shared_pdf
from soilrota.batch.values import Answer, Order, PlacedRow, made_document
from soilrota.batch.visit_rows import visits_from
from soilrota.documents import calendar_table, calendar_view, render_calendar
from soilrota.guidelines.field_work import field_work
from soilrota.model.field_calendar import CalendarInputs, Crew, PlannedCalendar, VisitLabel
from soilrota.model.practice import Practice
from soilrota.model.windows import Span
from soilrota.timing.field_calendar import broken_promises, plan_calendar, weeks

CALENDAR_PDF, CALENDAR_CSV = "field_calendar.pdf", "field_calendar.csv"
_SAMPLES = "sampler"


class CalendarFaultError(BatchError):
    """The field calendar cannot be made, or what was made breaks a promise."""


def make_calendar(order: Order) -> Answer:
    """Make the field calendar from the visits of all clients, planning from the order's as-of date on.

    The answer holds until the first planned day (after it, what was not sampled wants another day), and no longer than
    a visit without a day may still be made.

    Raises:
        CalendarFaultError: the files that all clients share got errors, or the plan breaks one of its promises.
    """
    began = perf_counter()
    shared, problems = read_shared(order.root)
    if shared is None:
        raise CalendarFaultError(f"the files that all clients share got errors during the night: {problems[0]}")
    inputs = _inputs(order, shared.practice)
    calendar = plan_calendar(inputs)
    if broken := broken_promises(calendar, inputs):
        raise CalendarFaultError(f"the plan breaks its promises: {broken[0]}")
    labels = {
        row["visit"]: VisitLabel(row["client_name"], row["farm_name"], tuple(row["zones"].split("; ")))
        for row in order.visits
    }
    plan = PlannedCalendar(calendar, inputs, weeks(calendar, inputs.crew), labels, order.as_of)
    pdf, wrong = shared_pdf(
        order, CALENDAR_PDF, lambda: render_calendar(calendar_view(plan, shared.practice), order.as_of, order.root)
    )
    return Answer(
        client=order.client,
        inputs="",
        holds_until=_holds_until(plan),
        rows=(),
        documents=(
            *pdf,
            made_document(CALENDAR_CSV, order.as_of, calendar_table(plan)),
        ),
        problems=wrong,
        took_s=perf_counter() - began,
        placed=tuple(_placed(plan)),
    )


def _placed(plan: PlannedCalendar) -> Iterator[PlacedRow]:
    """Yield the days and the person of each visit that has one."""
    names = {person.id: person.name for person in plan.inputs.crew}
    last: dict[str, date] = {}
    for one in plan.calendar.days:
        for stop in one.stops:
            last[stop.visit] = max(one.day, last.get(stop.visit, one.day))
    for one in plan.calendar.days:
        for stop in one.stops:
            if stop.part == 1:
                yield {
                    "visit": stop.visit,
                    "day": one.day.isoformat(),
                    "last": last[stop.visit].isoformat(),
                    "person": names[one.person],
                    "person_id": one.person,
                }


def _holds_until(plan: PlannedCalendar) -> date:
    """Return the last day on which the plan can be acted on as it is."""
    left = {one.visit for one in plan.calendar.unplaced}
    last = [visit.spans[-1].last for visit in plan.inputs.visits if visit.id in left and visit.spans]
    return min((*(one.day for one in plan.calendar.days), *last), default=date.max)


def _inputs(order: Order, practice: Practice) -> CalendarInputs:
    """Return what the calendar is made of."""
    return CalendarInputs(
        visits=visits_from(order.visits, order.as_of),
        crew=crew_of(practice),
        closures=tuple(Span(away.first, away.last) for away in practice.leave),
        figures=field_work(),
    )


def crew_of(practice: Practice) -> tuple[Crew, ...]:
    """Return those who sample and have a base, by id."""
    return tuple(
        Crew(
            id=person.id,
            name=person.name,
            base=person.base,
            minutes_a_day=person.minutes_a_day,
            weekdays=person.weekdays,
            leave=tuple(Span(away.first, away.last) for away in person.leave),
            longest_way_km=person.longest_way_km,
        )
        for person in sorted(practice.people.values(), key=lambda person: person.id)
        if person.role == _SAMPLES and person.base is not None
    )
