"""Reminders as data: what is said to whom, about which day, and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.signing import SignState
from soilrota.model.windows import Fact, TaskKey


@dataclass(frozen=True, slots=True, order=True)
class Recipient:
    """A person who can be written to.

    Attributes:
        person: a stable name of the person: the address in lower case, so that one who belongs to two clients is one.
        address: e-mail address.
        name: what people call the person.
        language: language tag.
        audience: what the person is here.
        id: id of the person in the practice; empty for a contact of a client.
        role: what the person does, in words.
    """

    person: str
    address: str
    name: str
    language: str
    audience: Audience
    id: str = ""
    role: str = ""


@dataclass(frozen=True, slots=True, order=True)
class TaskName:
    """What people call a task: its zone and its protocol."""

    zone: str
    protocol: str


@dataclass(frozen=True, slots=True)
class Event:
    """Something that is worth a reminder, whoever is told.

    Attributes:
        name: stable name, the same from night to night; a window's holds its season, so it is said once a season.
        kind: what it speaks of.
        urgency: which goes first.
        day: the day that it is about.
        client: id of the client; empty where it is about none.
        client_name, farm, farm_name: whose ground, by name and id; empty where it is about none.
        tasks: the tasks that it is about.
        facts: what words are made of, by name.
        repeats: whether the same is said again after `apart_days`; otherwise only where its day moved.
        apart_days: least time between two reminders of it [d].
        same_within_days: a day that moved by no more is the same day [d].
        person: id of the crew member it concerns; empty where it concerns none.
    """

    name: str
    kind: ReminderKind
    urgency: Urgency
    day: date
    client: str = ""
    client_name: str = ""
    farm: str = ""
    farm_name: str = ""
    tasks: tuple[TaskName, ...] = ()
    facts: Mapping[str, Fact] = field(default_factory=dict)
    repeats: bool = False
    apart_days: int = 0
    same_within_days: int = 0
    person: str = ""


@dataclass(frozen=True, slots=True)
class Reminder:
    """An event that one person is told of; `before` is the day that was said before it moved, None otherwise."""

    to: Recipient
    event: Event
    before: date | None = None

    @property
    def about(self) -> str:
        """Return the stable text under which it is kept that this was said: the event's name and its day."""
        return f"{self.event.name}@{self.event.day.isoformat()}"


@dataclass(frozen=True, slots=True)
class Said:
    """That a person was told of an event: its name, its day, and the night on which it was said."""

    person: str
    event: str
    day: date
    on: date


@dataclass(frozen=True, slots=True)
class Placement:
    """Where the field calendar put a visit: who goes, first and last day."""

    person: str
    first: date
    last: date


@dataclass(frozen=True, slots=True)
class PlannedVisit:
    """A visit of a farm, with its place in the field calendar where it has one.

    Attributes:
        id: id of the visit in the field calendar.
        farm: id of the farm.
        tasks: what is sampled, each with the first day of its season.
        first, last: its days; without a placement the open days around the day that the farm's plan chose.
        person: id of who goes; empty where nobody is placed.
        minutes: work on the farm [min].
    """

    id: str
    farm: str
    tasks: tuple[tuple[TaskKey, date], ...]
    first: date
    last: date
    person: str
    minutes: int


@dataclass(frozen=True, slots=True)
class ReportState:
    """How a client's farm report stands: signed or a draft, and the document's date."""

    sign: SignState
    made_on: date


@dataclass(frozen=True, slots=True)
class SetAsideFile:
    """A laboratory's file of which rows wait for somebody.

    Attributes:
        digest: first characters of the file's digest.
        name: its name.
        laboratory: id of the laboratory; empty where none is known.
        received: day on which it came.
        rows: rows that wait [-]; 0 where the whole file does.
    """

    digest: str
    name: str
    laboratory: str
    received: date
    rows: int
