"""The field calendar in words and pictures."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from soilrota.documents.calendar_weeks import week_key, week_picture
from soilrota.documents.calendar_words import (
    WHY_LATE,
    WHY_UNPLACED,
    duration,
    figure_sentences,
    proof_sentences,
    weekday_letters,
)
from soilrota.documents.dates import counted, long_day, short_day, span_words, spans_words
from soilrota.documents.views import CalendarView, LeftRow, StopRow, WeekView
from soilrota.language import marked, say, say_as, say_count, speaking, spoken
from soilrota.model.field_calendar import CalendarWeek, PersonDay, PlannedCalendar
from soilrota.model.practice import Practice
from soilrota.model.windows import Span

_MOST_SPANS = 2
_CAUTIONS = (
    marked(
        "A day in this calendar is a plan: look at the weather, the soil and the client's stock before you go, "
        "and ring."
    ),
    marked(
        "Leave your route and the hour of your return with somebody, and ring in from each farm when you work alone."
    ),
    marked("Drive no longer than you are fit to; rests on the road are not in these times."),
    marked("No core deeper than the topsoil before buried services have been located by those who are licensed to."),
    marked("Clean boots, tools and wheels between farms."),
)


def calendar_view(plan: PlannedCalendar, practice: Practice) -> CalendarView:
    """Return everything that the field calendar shows.

    Args:
        plan: the calendar and what it was made of.
        practice: whose it is.
    """
    with speaking(practice.language):
        return _view(plan, practice)


def _view(plan: PlannedCalendar, practice: Practice) -> CalendarView:
    """Return the view in the language that is spoken."""
    return CalendarView(
        title=say("Field calendar"),
        practice=practice.name,
        contact=practice.contact,
        logo=practice.logo,
        colours=practice.colours,
        language=practice.language,
        summary=tuple(_summary(plan)),
        key=week_key(),
        weeks=tuple(_week(week, plan) for week in plan.weeks if any(any(cells) for _, cells in week.people)),
        left=_left(plan),
        cautions=tuple(map(say, _CAUTIONS)),
        grounds=(*proof_sentences(plan.calendar.proof), *_driving(plan), *figure_sentences(plan.inputs.figures)),
    )


def _summary(plan: PlannedCalendar) -> Iterator[str]:
    """Yield what matters."""
    calendar = plan.calendar
    visits, left = len(plan.inputs.visits), len(calendar.unplaced)
    if not plan.inputs.crew:
        yield say("Nobody who samples has a base in practice.yaml, so no visit can have a day; give one person a base.")
    if not visits:
        yield say("No visit is due in a season that can be planned now.")
        return
    placed = visits - left
    if placed:
        yield say_count(
            "{count} visit of {visits} has a day, from {first} to {last}.",
            "{count} visits of {visits} have a day, from {first} to {last}.",
            placed,
            visits=visits,
            first=long_day(calendar.days[0].day, spoken()),
            last=long_day(max(one.day for one in calendar.days), spoken()),
        )
    if left:
        yield say_count(
            "{count} visit has none; why is said below.", "{count} visits have none; why is said below.", left
        )
    if calendar.late:
        yield say_count(
            "{count} visit is too late for the client's decision.",
            "{count} visits are too late for the client's decision.",
            len(calendar.late),
        )


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
        heading=say("Week of {day}", day=long_day(week.monday, spoken())),
        picture=week_picture(week, names, longest, plan.labels, spoken()),
        stops=tuple(stops),
    )


def _stops(cell: PersonDay, name: str, plan: PlannedCalendar) -> Iterator[StopRow]:
    """Yield the stops of one person on one day."""
    late = {one.visit: one for one in plan.calendar.late}
    for number, stop in enumerate(cell.stops):
        label = plan.labels[stop.visit]
        notes = []
        if stop.parts > 1:
            notes.append(say("Part {part} of {parts}.", part=stop.part, parts=stop.parts))
        if stop.visit in late:
            one = late[stop.visit]
            days = counted(one.days, "day", "days")
            notes.append(say("{days} late for the decision: {why}.", days=days, why=say(WHY_LATE[one.reason])))
        yield StopRow(
            day=_weekday_day(cell.day) if not number else "",
            person=name if not number else "",
            farm=label.farm if label.client == label.farm else f"{label.farm}, {label.client}",
            zones=", ".join(label.zones),
            work=duration(stop.minutes),
            driving=duration(cell.travel_minutes) if not number else "",
            note=" ".join(notes),
        )


def _weekday_day(day: date) -> str:
    """Return a day with its weekday, short enough for a table."""
    weekday = weekday_letters(day, spoken())
    return say_as("day", "{weekday} {day}", weekday=weekday, day=short_day(day, spoken()))


def _left(plan: PlannedCalendar) -> tuple[LeftRow, ...]:
    """Return the visits without a day."""
    visits = {visit.id: visit for visit in plan.inputs.visits}
    return tuple(
        LeftRow(
            farm=f"{plan.labels[one.visit].farm}, {plan.labels[one.visit].client}",
            zones=", ".join(plan.labels[one.visit].zones),
            days=_days(visits[one.visit].spans),
            reason=say(WHY_UNPLACED[one.reason]),
        )
        for one in plan.calendar.unplaced
    )


def _days(spans: tuple[Span, ...]) -> str:
    """Return the days on which a visit may be made; many spans by their number of days and their ends."""
    if len(spans) <= _MOST_SPANS:
        return spans_words(spans, spoken()) or say("no day")
    whole = Span(spans[0].first, spans[-1].last)
    return say(
        "{days} from {span}",
        days=counted(sum(span.days for span in spans), "working day", "working days"),
        span=span_words(whole, spoken()),
    )


def _driving(plan: PlannedCalendar) -> Iterator[str]:
    """Yield how much is driven."""
    days = plan.calendar.days
    if days:
        kilometres = round(sum(one.travel_km for one in days))
        minutes = sum(one.travel_minutes for one in days)
        yield say_count(
            "{count} field day with {kilometres} km and {time} of driving in all.",
            "{count} field days with {kilometres} km and {time} of driving in all.",
            len(days),
            kilometres=kilometres,
            time=duration(minutes),
        )
