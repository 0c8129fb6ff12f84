"""Visits that people were told of and that will not take place, or that somebody else makes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from soilrota.delivery.farm_events import farm_name, visit_name, visit_task
from soilrota.delivery.recipients import address_key, recipients_of
from soilrota.model.client import Client
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Event, PlannedVisit, Recipient, Reminder, Said
from soilrota.model.windows import TaskKey, Window


def gone_visits(
    client: Client, windows: Iterable[Window], visits: Iterable[PlannedVisit], said: Iterable[Said], as_of: date
) -> Iterator[Reminder]:
    """Yield a reminder a person and visit that was told of, has not been made, and is planned no more.

    It has the name of the visit's event and the as-of date for its day, so that it is said once, and a visit that
    comes back is news again.

    Args:
        client: the client.
        windows: the answers for its tasks.
        visits: its visits.
        said: what was said before, of any client.
        as_of: the as-of date.
    """
    placed = [visit for visit in visits if visit.person]
    sampled = {one.key: one.last_sampling.day for one in windows if one.last_sampling is not None}
    for last in _last_said(client, said):
        key = visit_task(last.event)
        if last.day < as_of or last.on >= as_of or sampled.get(key, date.min) >= last.on:
            continue
        crew = _crew_id(client, last.person)
        if any(_stands(client, visit, last, key, crew) for visit in placed):
            continue
        event = Event(
            name=last.event,
            kind=ReminderKind.VISIT,
            urgency=Urgency.URGENT,
            day=as_of,
            client=client.id,
            client_name=client.name,
            farm=key.farm,
            farm_name=farm_name(client, key.farm),
            facts={"gone": last.day},
            person=crew,
        )
        yield from (Reminder(to, event) for to in _told(client, event, last.person))


def _last_said(client: Client, said: Iterable[Said]) -> tuple[Said, ...]:
    """Return what was said last of each visit of the client to each person."""
    found: dict[tuple[str, str], Said] = {}
    of_client = f"{ReminderKind.VISIT}/{client.id}/"
    visits = [one for one in said if one.event.startswith(of_client)]
    for one in sorted(visits, key=lambda one: (one.on, one.person, one.event)):
        found[one.person, one.event] = one
    return tuple(found.values())


def _crew_id(client: Client, person: str) -> str:
    """Return the id of the sampler with an address; empty where it is nobody's."""
    people = client.practice.people.values()
    return next((one.id for one in people if one.role == "sampler" and address_key(one.email) == person), "")


def _stands(client: Client, visit: PlannedVisit, last: Said, key: TaskKey, crew: str) -> bool:
    """Return whether a visit is the one that was told of, as far as this person goes."""
    if crew and visit.person != crew:
        return False
    same_day = visit.farm == key.farm and visit.first == last.day
    return visit_name(client, visit) == last.event or same_day or any(key == task for task, _ in visit.tasks)


def _told(client: Client, event: Event, person: str) -> Sequence[Recipient]:
    """Return the person as a recipient; none where the person is to be told of visits no more."""
    return [to for to in recipients_of(client, event) if to.person == person][:1]
