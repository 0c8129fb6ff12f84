"""The field calendar in words and pictures."""

from __future__ import annotations

from collections.abc import Iterator

from babel.dates import format_date

from soilrota.documents.calendar_weeks import week_key, week_picture
from soilrota.documents.calendar_words import WHY_LATE, WHY_UNPLACED, duration, figure_sentences, proof_sentences
from soilrota.documents.dates import counted, locale_of, long_day, span_words, spans_words
from soilrota.documents.views import CalendarView, LeftRow, StopRow, WeekView
from soilrota.model.field_calendar import CalendarWeek, PersonDay, PlannedCalendar
from soilrota.model.practice import Practice
from soilrota.model.windows import Span

#: The practice names no language of its own; its calendar is written as dates are in most of the world.
_LANGUAGE = "en-GB"
_MOST_SPANS = 2
_CAUTIONS = (
    "A day in this calendar is a plan: look at the weather, the soil and the client's stock before you go, and ring.",
    "Leave your route and the hour of your return with somebody, and ring in from each farm when you work alone.",
    "Drive no longer than you are fit to; rests on the road are not in these times.",
    "No core deeper than the topsoil before buried services have been located by those who are licensed to.",
    "Clean boots, tools and wheels between farms.",
)


def calendar_view(plan: PlannedCalendar, practice: Practice) -> CalendarView:
    """Return everything that the field calendar shows.

    Args:
        plan: the calendar and what it was made of.
        practice: whose it is.
    """
    return CalendarView(
        title="Field calendar",
        practice=practice.name,
        contact=practice.contact,
        logo=practice.logo,
        language=_LANGUAGE,
        summary=tuple(_summary(plan)),
        key=week_key(),
        weeks=tuple(_week(week, plan) for week in plan.weeks if any(any(cells) for _, cells in week.people)),
        left=_left(plan),
        cautions=_CAUTIONS,
        grounds=(*proof_sentences(plan.calendar.proof), *_driving(plan), *figure_sentences(plan.inputs.figures)),
    )


def _summary(plan: PlannedCalendar) -> Iterator[str]:
    """Yield what matters."""
    calendar = plan.calendar
    visits, left = len(plan.inputs.visits), len(calendar.unplaced)
    if not plan.inputs.crew:
        yield "Nobody who samples has a base in practice.yaml, so no visit can have a day; give one person a base."
    if not visits:
        yield "No visit is due in a season that can be planned now."
        return
    placed = visits - left
    if placed:
        last = max(one.day for one in calendar.days)
        yield (
            f"{counted(placed, 'visit', 'visits')} of {visits} {'has' if placed == 1 else 'have'} a day, from "
            f"{long_day(calendar.days[0].day, _LANGUAGE)} to {long_day(last, _LANGUAGE)}."
        )
    if left:
        yield f"{counted(left, 'visit', 'visits')} {'has' if left == 1 else 'have'} none; why is said below."
    if calendar.late:
        late = len(calendar.late)
        yield f"{counted(late, 'visit', 'visits')} {'is' if late == 1 else 'are'} too late for the client's decision."


def _week(week: CalendarWeek, plan: PlannedCalendar) -> WeekView:
    """Return one week."""
    names = {person.id: person.name for person in plan.inputs.crew}
    longest = max(person.minutes_a_day for person in plan.inputs.crew)
    days = sorted(
        (cell for _, cells in week.people for cell in cells if cell is not None), key=lambda one: (one.day, one.person)
    )
    stops: list[StopRow] = []
    for cell in days:
        stops += _stops(cell, names[cell.person], plan)
    return WeekView(
        heading=f"Week of {long_day(week.monday, _LANGUAGE)}",
        picture=week_picture(week, names, longest, plan.labels, _LANGUAGE),
        stops=tuple(stops),
    )


def _stops(cell: PersonDay, name: str, plan: PlannedCalendar) -> Iterator[StopRow]:
    """Yield the stops of one person on one day."""
    late = {one.visit: one for one in plan.calendar.late}
    for number, stop in enumerate(cell.stops):
        label = plan.labels[stop.visit]
        notes = []
        if stop.parts > 1:
            notes.append(f"Part {stop.part} of {stop.parts}.")
        if stop.visit in late:
            one = late[stop.visit]
            notes.append(f"{counted(one.days, 'day', 'days')} late for the decision: {WHY_LATE[one.reason]}.")
        yield StopRow(
            day=str(format_date(cell.day, "EEE d MMMM", locale=locale_of(_LANGUAGE))) if not number else "",
            person=name if not number else "",
            farm=label.farm if label.client == label.farm else f"{label.farm}, {label.client}",
            zones=", ".join(label.zones),
            work=duration(stop.minutes),
            driving=duration(cell.travel_minutes) if not number else "",
            note=" ".join(notes),
        )


def _left(plan: PlannedCalendar) -> tuple[LeftRow, ...]:
    """Return the visits without a day."""
    visits = {visit.id: visit for visit in plan.inputs.visits}
    return tuple(
        LeftRow(
            farm=f"{plan.labels[one.visit].farm}, {plan.labels[one.visit].client}",
            zones=", ".join(plan.labels[one.visit].zones),
            days=_days(visits[one.visit].spans),
            reason=WHY_UNPLACED[one.reason],
        )
        for one in plan.calendar.unplaced
    )


def _days(spans: tuple[Span, ...]) -> str:
    """Return the days on which a visit may be made; many spans by their number of days and their ends."""
    if len(spans) <= _MOST_SPANS:
        return spans_words(spans, _LANGUAGE) or "no day"
    whole = Span(spans[0].first, spans[-1].last)
    return f"{counted(sum(span.days for span in spans), 'working day', 'working days')} from {span_words(whole, _LANGUAGE)}"


def _driving(plan: PlannedCalendar) -> Iterator[str]:
    """Yield how much is driven."""
    days = plan.calendar.days
    if days:
        kilometres = round(sum(one.travel_km for one in days))
        minutes = sum(one.travel_minutes for one in days)
        yield f"{counted(len(days), 'field day', 'field days')} with {kilometres} km and {duration(minutes)} of driving in all."
