"""Clients, events and reminders for the tests of what is said when and to whom."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from soilrota.book import load_client, load_shared
from soilrota.delivery.sentence_words import Said
from soilrota.delivery.sentences import said
from soilrota.model.advice import Signature
from soilrota.model.client import Client
from soilrota.model.messages import Urgency
from soilrota.model.practice import Practice
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.reminders import Event, PlannedVisit, Recipient, Reminder, TaskName
from soilrota.model.signing import SignState
from soilrota.model.windows import TaskKey, Window
from soilrota.timing import tasks_of, window_of

BOOK = Path(__file__).resolve().parents[2] / "example_clients"
NIGHT = date(2027, 2, 1)
SEASON = date(2027, 1, 20)


@cache
def practice() -> Practice:
    """Return the practice of the example book."""
    shared, problems = load_shared(BOOK)
    assert shared is not None, problems
    return shared.practice


@cache
def clients() -> dict[str, Client]:
    """Return the clients of the example book by id."""
    shared, _ = load_shared(BOOK)
    assert shared is not None
    found = (load_client(BOOK, path.name, shared)[0] for path in sorted((BOOK / "clients").iterdir()))
    return {client.id: client for client in found if client is not None}


def anvil() -> Client:
    """Return the client of which most tests speak."""
    return clients()["anvil-creek"]


def windows(client: Client, as_of: date) -> tuple[Window, ...]:
    """Return the answers for a client's tasks."""
    return tuple(window_of(task, as_of) for task in tasks_of(client))


def window(as_of: date, client: Client | None = None, zone: str = "barn") -> Window:
    """Return the answer for one zone of the home block."""
    return next(one for one in windows(client or anvil(), as_of) if one.key.zone == zone)


def visit(day: date, person: str = "ned-marlow", *zones: str, farm: str = "home") -> PlannedVisit:
    """Return a visit of the first client."""
    tasks = tuple((TaskKey(farm, zone, "topsoil-pasture"), SEASON) for zone in zones or ("barn", "ridge"))
    return PlannedVisit(f"anvil-creek/{farm}/1", farm, tasks, day, day, person, 135)


def event(kind: ReminderKind = ReminderKind.CLOSING, **changes: Any) -> Event:
    """Return an event of the first client with the facts of its kind."""
    made = Event(
        name=f"{kind}/anvil-creek/home/barn/topsoil-pasture/2027-01-20",
        kind=kind,
        urgency=Urgency.SOON,
        day=date(2027, 2, 10),
        client="anvil-creek",
        client_name="Anvil Creek Pastoral",
        farm="home",
        farm_name="Home block",
        tasks=(TaskName("Barn", "Topsoil under pasture"),),
        facts=FACTS[kind],
    )
    return replace(made, **changes)


FACTS: dict[ReminderKind, dict[str, Any]] = {
    ReminderKind.OPENS_SOON: {"first": date(2027, 2, 10), "last": date(2027, 3, 31), "best": date(2027, 2, 20)},
    ReminderKind.BEST_DAY: {"best": date(2027, 2, 5), "last": date(2027, 3, 31)},
    ReminderKind.VISIT: {
        "first": date(2027, 2, 4),
        "last": date(2027, 2, 4),
        "who": "Ned Marlow",
        "minutes": 200,
        "locality": "Merrow, creek road",
        "contacts": ("Jo Tern (manager), +61 3 5550 0111",),
        "visit": "anvil-creek/home/1",
    },
    ReminderKind.CLOSING: {"last": date(2027, 2, 10)},
    ReminderKind.SPREADING: {
        "class": "lime",
        "material": "ground limestone",
        "spread": date(2027, 2, 20),
        "open_again": date(2027, 8, 20),
        "season_last": date(2027, 3, 31),
        "first": date(2027, 2, 1),
        "last": date(2027, 2, 19),
    },
    ReminderKind.OVERDUE: {
        "ended": date(2026, 3, 31),
        "months": 10,
        "first": date(2027, 2, 1),
        "last": date(2027, 3, 31),
        "open": "yes",
    },
    ReminderKind.DECISION: {
        "what": "order of the autumn superphosphate",
        "decision": date(2027, 2, 28),
        "unsampled": ("Barn",),
        "out": ("Lane",),
        "last": date(2027, 2, 9),
    },
    ReminderKind.BAGS_OUT: {
        "laboratory": "North Bench Laboratory",
        "since": date(2027, 1, 4),
        "due": date(2027, 1, 20),
        "count": 1,
        "bags": ("B0412-G",),
    },
    ReminderKind.REPORT: {"by": "Mara Ellis", "signed": date(2027, 1, 30)},
    ReminderKind.DRAFT: {"made": date(2027, 1, 30), "changed": ("results of Barn changed",), "signed_before": True},
    ReminderKind.SET_ASIDE: {"file": "results.csv", "laboratory": "", "rows": 3, "received": date(2027, 1, 30)},
    ReminderKind.LABORATORY_OFF: {
        "laboratory": "North Bench Laboratory",
        "analysis": "phosphorus.colwell",
        "since": date(2027, 1, 30),
    },
}
JO = Recipient("jo@anvil-creek.example", "jo@anvil-creek.example", "Jo Tern", "en-AU", Audience.CONTACT, role="manager")
NED = Recipient(
    "ned@merrow-tarn.example", "ned@merrow-tarn.example", "Ned Marlow", "en-AU", Audience.SAMPLER, "ned-marlow"
)
MARA = Recipient(
    "mara@merrow-tarn.example", "mara@merrow-tarn.example", "Mara Ellis", "en-AU", Audience.ADVISER, "mara-ellis"
)


def reminder(kind: ReminderKind = ReminderKind.CLOSING, to: Recipient = JO, **changes: Any) -> Reminder:
    """Return a reminder of an event of the first client."""
    return Reminder(to, event(kind, **changes))


def words(kind: ReminderKind, to: Recipient = JO, before: date | None = None, **facts: object) -> Said:
    """Return a reminder in words, with some facts changed; None takes a fact away."""
    changed = {name: value for name, value in {**FACTS[kind], **facts}.items() if value is not None}
    one = replace(reminder(kind, to, facts=changed, person="ned-marlow"), before=before)
    return said(one, one.event.tasks, to, NIGHT)


def signed(day: date, *, changed: tuple[str, ...] = ()) -> SignState:
    """Return a report that was signed on a day, and what changed since."""
    signature = Signature("anvil-creek", "mara-ellis", "Mara Ellis", "Agronomist", day, "ab12", {})
    return SignState(signature, changed)
