"""A year of nights on the clients of the example book, without documents and without a post office."""

from __future__ import annotations

import os
from collections import defaultdict
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cache

from soilrota.batch.bags import missing_of
from soilrota.delivery.choosing import ClientNight, reminders_of
from soilrota.delivery.feed_visits import client_feed_visits, crew_feed_visits, planned_visits
from soilrota.delivery.feeds import next_feed
from soilrota.delivery.gathering import said_by
from soilrota.delivery.messages import messages_of
from soilrota.model.client import Client
from soilrota.model.feeds import FeedEvent
from soilrota.model.messages import Message
from soilrota.model.reminders import Placement, PlannedVisit, Reminder, ReportState, Said
from soilrota.model.samples import FieldNote
from soilrota.model.signing import SignState
from soilrota.model.visits import FarmVisits, VisitDay
from soilrota.model.windows import Window
from soilrota.timing import tasks_of, visits_of, window_of
from tests.delivery.reminding import clients, practice, signed

#: Days from night to night: every night with SOILROTA_LONG=1.
STEP = 1 if os.environ.get("SOILROTA_LONG") == "1" else 4
FIRST = date(2026, 12, 1)
CREW = ("ned-marlow", "ruth-aske", "cal-brandt")
#: Visits are placed this long before their day [d].
_PLACED = 21


@dataclass
class Year:
    """What a year of nights gave: messages, reminders and feeds by night."""

    messages: dict[date, tuple[Message, ...]] = field(default_factory=dict)
    reminders: dict[date, tuple[Reminder, ...]] = field(default_factory=dict)
    feeds: dict[date, dict[str, tuple[FeedEvent, ...]]] = field(default_factory=dict)


@dataclass
class _World:
    """What changes from night to night: samplings, placements, what was said, the feeds as they stand."""

    clients: dict[str, Client]
    placed: dict[tuple[object, ...], Placement] = field(default_factory=dict)
    said: list[Said] = field(default_factory=list)
    feeds: dict[str, tuple[FeedEvent, ...]] = field(default_factory=lambda: defaultdict(tuple))


@cache
def year() -> Year:
    """Return the year: half of the clients are sampled on their visit's day, the others let it pass."""
    world, found = _World(dict(clients())), Year()
    for number in range(0, 365, STEP):
        day = FIRST + timedelta(days=number)
        reminders: list[Reminder] = []
        visits: list[tuple[Client, PlannedVisit]] = []
        for client in tuple(world.clients.values()):
            night = _night(world, client, day)
            reminders += reminders_of(night, day, world.said)
            visits += [(client, visit) for visit in night.visits]
            _sample(world, client, night.visits, day)
        messages = messages_of(reminders, world.said, day, practice(), world.clients)
        world.said += said_by(messages)
        _feeds(world, visits, day)
        found.messages[day], found.reminders[day] = messages, tuple(reminders)
        found.feeds[day] = dict(world.feeds)
    return found


def _night(world: _World, client: Client, day: date) -> ClientNight:
    """Return what a night knows of a client; reports are drafts until May, then signed."""
    windows = tuple(window_of(task, day) for task in tasks_of(client))
    farms = visits_of(client, windows)
    visits = planned_visits(client, farms, windows, _placements(world, client, farms, windows, day))
    state = signed(date(2027, 5, 3)) if day >= date(2027, 5, 3) else SignState(None)
    report = ReportState(state, date(2027, 3, 1 + day.month % 3)) if day >= date(2027, 3, 5) else None
    return ClientNight(client, windows, visits, missing_of(client, day), report)


def _placements(
    world: _World, client: Client, farms: tuple[FarmVisits, ...], windows: tuple[Window, ...], day: date
) -> dict[str, Placement]:
    """Place visits that are near on their day, for good until it has passed; then ten days on."""
    answers = {window.key: window for window in windows}
    found = {}
    for farm in farms:
        for number, visit in enumerate(farm.plan.visits, start=1):
            name = (client.id, visit.tasks[0], answers[visit.tasks[0]].season.span.first)
            known = world.placed.get(name)
            if known is None or known.first < day:
                known = _place(client, visit, day, again=known is not None)
                if known is None:
                    continue
                world.placed[name] = known
            found[f"{client.id}/{farm.farm}/{number}"] = known
    return found


def _place(client: Client, visit: VisitDay, day: date, *, again: bool) -> Placement | None:
    """Return a place for a visit; None where it is far off."""
    chosen = max(visit.day, day + timedelta(days=10)) if again else visit.day
    person = client.samplers[0] if client.samplers else CREW[len(client.id) % 3]
    return Placement(person, chosen, chosen) if chosen <= day + timedelta(days=_PLACED) else None


def _sample(world: _World, client: Client, visits: tuple[PlannedVisit, ...], day: date) -> None:
    """Write field notes for visits whose day has come, at every second client."""
    if len(client.id) % 2:
        return
    notes = [
        FieldNote(
            visit.first,
            key.farm,
            key.zone,
            key.protocol,
            layer.top_cm,
            layer.bottom_cm,
            25,
            "moist",
            "",
            "",
            client.place,
        )
        for visit in visits
        if visit.person and visit.first < day + timedelta(days=STEP)
        for key, _ in visit.tasks
        for layer in client.protocols[key.protocol].layers
    ]
    world.clients[client.id] = replace(client, field_notes=(*client.field_notes, *notes))


def _feeds(world: _World, visits: list[tuple[Client, PlannedVisit]], day: date) -> None:
    """Carry every feed on."""
    for client in world.clients.values():
        wanted = client_feed_visits(client, [visit for owner, visit in visits if owner.id == client.id])
        name = f"client/{client.id}"
        world.feeds[name] = next_feed(name, world.feeds[name], wanted, day)
    for person in CREW:
        name = f"crew/{person}"
        world.feeds[name] = next_feed(name, world.feeds[name], crew_feed_visits(person, visits), day)
