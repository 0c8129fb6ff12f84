"""What goes into the calendar feeds: the visits of a client for its people, those of a crew member for that person."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from soilrota.delivery.days import date_words, time_words
from soilrota.delivery.farm_events import farm_name, task_name
from soilrota.delivery.sentence_words import what_where
from soilrota.language import say, speaking
from soilrota.model.client import Client
from soilrota.model.feeds import FeedVisit
from soilrota.model.field_calendar import PersonDay
from soilrota.model.reminders import Placement, PlannedVisit
from soilrota.model.visits import FarmVisits, VisitDay
from soilrota.model.windows import Span, Window


def crew_feed(person: str) -> str:
    """Return the name of the feed file of a crew member, by the person's id."""
    return f"visits-{person}.ics"


def placements(days: Iterable[PersonDay]) -> dict[str, Placement]:
    """Return where the field calendar put each visit, by its id; a split visit from its first to its last day."""
    found: dict[str, Placement] = {}
    for one in sorted(days, key=lambda one: one.day):
        for stop in one.stops:
            first = found[stop.visit].first if stop.visit in found else one.day
            found[stop.visit] = Placement(one.person, first, one.day)
    return found


def planned_visits(
    client: Client,
    visits: Iterable[FarmVisits],
    windows: Sequence[Window],
    placed: Mapping[str, Placement],
) -> tuple[PlannedVisit, ...]:
    """Return the visits of a client with their places in the field calendar.

    A visit without one has the open days of its season around the day that the farm's plan chose: those do not move
    from night to night, as that day may.

    Args:
        client: the client.
        visits: the visits of its farms; a visit's id is `client/farm/number`, as in the field calendar.
        windows: the answers for its tasks.
        placed: where visits are placed, by id.
    """
    answers = {window.key: window for window in windows}
    found = []
    for of_farm in visits:
        for number, visit in enumerate(of_farm.plan.visits, start=1):
            name = f"{client.id}/{of_farm.farm}/{number}"
            place = placed.get(name)
            span = (
                Span(place.first, place.last) if place else _open_around(visit, [answers[key] for key in visit.tasks])
            )
            tasks = tuple(sorted(((key, answers[key].season.span.first) for key in visit.tasks), key=str))
            who = place.person if place else ""
            found.append(PlannedVisit(name, of_farm.farm, tasks, span.first, span.last, who, visit.minutes))
    return tuple(found)


def _open_around(visit: VisitDay, windows: Sequence[Window]) -> Span:
    """Return the open days of all tasks around the day of a visit; that day alone where no span holds it."""
    holding = [span for window in windows for span in window.season_open if visit.day in span]
    if len(holding) < len(windows):
        return Span(visit.day, visit.day)
    return Span(max(span.first for span in holding), min(span.last for span in holding))


def client_feed_visits(client: Client, visits: Iterable[PlannedVisit]) -> tuple[FeedVisit, ...]:
    """Return the visits of a client as its people see them in their calendar, in the client's language."""
    with speaking(client.language):
        return tuple(_of_client(client, visit) for visit in visits)


def _of_client(client: Client, visit: PlannedVisit) -> FeedVisit:
    """Return one visit for the client's people."""
    farm = farm_name(client, visit.farm)
    if visit.person:
        known = client.practice.people.get(visit.person)
        person = known.name if known else visit.person
        summary = say("Soil sampling: {farm}", farm=farm)
        first = say("{person} comes, for about {time}.", person=person, time=time_words(visit.minutes))
    else:
        summary = say("Days to sample: {farm}", farm=farm)
        last = date_words(visit.last, client.language)
        first = say("Sample on one of these days; the last is {day}. No visit is planned yet.", day=last)
    return _feed_visit(client, visit, summary, first)


def crew_feed_visits(person: str, visits: Iterable[tuple[Client, PlannedVisit]]) -> tuple[FeedVisit, ...]:
    """Return the visits on which a crew member is placed, as that person sees them, in the practice's language.

    Args:
        person: id of the person.
        visits: visits of all clients.
    """
    return tuple(_of_crew(client, visit) for client, visit in visits if visit.person == person)


def _of_crew(client: Client, visit: PlannedVisit) -> FeedVisit:
    """Return one visit for who makes it."""
    calls = [f"{one.name} ({one.role}), {one.phone}" for one in client.contacts if one.phone]
    with speaking(client.practice.language):
        lines = [say("About {time} on the farm.", time=time_words(visit.minutes))]
        if calls:
            lines.append(say("Call before you come: {contacts}.", contacts="; ".join(calls)))
        farm = farm_name(client, visit.farm)
        summary = say("Sample {client}, {farm}", client=client.name, farm=farm)
        return _feed_visit(client, visit, summary, " ".join(lines))


def _feed_visit(client: Client, visit: PlannedVisit, summary: str, first: str) -> FeedVisit:
    """Return a visit with its words."""
    keys = [key for key, _ in visit.tasks]
    lines = (first, *what_where(tuple(sorted(task_name(client, key) for key in keys))))
    return FeedVisit(
        client=client.id,
        farm=visit.farm,
        tasks=tuple(sorted(_task_words(season, key.zone, key.protocol) for key, season in visit.tasks)),
        first=visit.first,
        last=visit.last,
        placed=bool(visit.person),
        summary=summary,
        description="\n".join(lines),
        location=next((farm.locality for farm in client.farms if farm.id == visit.farm), ""),
        alarm_hours=client.practice.reminders.alarm_hours,
    )


def _task_words(season: date, zone: str, protocol: str) -> str:
    """Return a task of a season in one word."""
    return f"{zone}/{protocol}/{season.isoformat()}"
