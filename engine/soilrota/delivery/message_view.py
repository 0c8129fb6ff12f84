"""A packet as a message shows it, already in words: plain text and HTML are made of this one value.

Names may hold anything that a file can: what steers a reader's screen is taken out of every line.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from soilrota.delivery.days import date_words, joined
from soilrota.delivery.gathering import Packet
from soilrota.delivery.headers import clean
from soilrota.delivery.sentence_words import Said
from soilrota.delivery.sentences import said
from soilrota.language import marked, say, say_count, speaking
from soilrota.model.client import Client
from soilrota.model.messages import Urgency
from soilrota.model.practice import Practice
from soilrota.model.reminder_choices import Audience
from soilrota.model.reminders import Event, Recipient, Reminder, TaskName

#: Longest subject [character]; a name that is longer is cut.
_SUBJECT = 120
_NAME = 60
#: Over what is about no client, where something else stands beside it.
_FOR_NO_FARM = marked("For the office")


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that is said: a headline and lines below it; `urgent` where it cannot wait."""

    head: str
    lines: tuple[str, ...]
    urgent: bool


@dataclass(frozen=True, slots=True)
class Section:
    """What is said of one farm, or of the practice; `title` is empty where the subject says it all."""

    title: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class MessageView:
    """A message.

    Attributes:
        language: language tag.
        subject: the subject line.
        greeting: to whom.
        sections: what is said, the urgent first.
        files: sentences about what goes along, and about what was too large.
        why: why the reader gets this and how to get no more.
        practice, contact: who writes; the contact may be empty.
        day: the as-of date in words.
    """

    language: str
    subject: str
    greeting: str
    sections: tuple[Section, ...]
    files: tuple[str, ...]
    why: str
    practice: str
    contact: str
    day: str


@dataclass(frozen=True, slots=True)
class _Told:
    """Events that are told in one, with the words."""

    event: Event
    words: Said


def message_view(
    packet: Packet, practice: Practice, clients: Mapping[str, Client], files: Iterable[str] = ()
) -> MessageView:
    """Return the view of a packet, in the language of who is told.

    Args:
        packet: what one person is told.
        practice: who writes.
        clients: the clients by id.
        files: sentences about the files that go along.
    """
    with speaking(packet.to.language):
        return _view(packet, practice, clients, files)


def _view(packet: Packet, practice: Practice, clients: Mapping[str, Client], files: Iterable[str]) -> MessageView:
    """Return the view of a packet in the language that is spoken."""
    told = _told(packet)
    of_one_client = len({one.event.client for one in told}) == 1
    is_contact = packet.to.audience is Audience.CONTACT
    sections: dict[str, list[Item]] = {}
    for one in told:
        title = _where(one.event, with_client=not (is_contact and of_one_client))
        lines = tuple(map(clean, one.words.lines))
        sections.setdefault(title, []).append(Item(clean(one.words.head), lines, one.event.urgency is Urgency.URGENT))
    return MessageView(
        language=packet.to.language,
        subject=_subject(told, with_client=not (is_contact and of_one_client)),
        greeting=clean(say("Hello {name},", name=packet.to.name)),
        sections=tuple(
            Section(title or (say(_FOR_NO_FARM) if len(sections) > 1 else ""), tuple(items))
            for title, items in sections.items()
        ),
        files=tuple(map(clean, files)),
        why=clean(_why(packet, practice, clients)),
        practice=clean(practice.name),
        contact=clean(practice.contact),
        day=date_words(packet.as_of, packet.to.language),
    )


def _told(packet: Packet) -> tuple[_Told, ...]:
    """Return the events of a packet in words; those that differ in nothing but their tasks are told in one."""
    groups: dict[tuple[object, ...], list[Reminder]] = {}
    for reminder in packet.reminders:
        event = reminder.event
        facts = tuple(sorted(event.facts.items(), key=_name))
        alike = (event.kind, event.client, event.farm, event.urgency, reminder.before, facts)
        groups.setdefault(alike, []).append(reminder)
    return tuple(_in_one(group, packet.to, packet.as_of) for group in groups.values())


def _name(fact: tuple[str, object]) -> str:
    """Return the name of a fact."""
    return fact[0]


def _in_one(group: list[Reminder], to: Recipient, as_of: date) -> _Told:
    """Return events that are told in one; the reader is what the person is to this farm."""
    tasks: list[TaskName] = sorted({task for reminder in group for task in reminder.event.tasks})
    reader = group[0].to
    return _Told(group[0].event, said(group[0], tasks, replace(reader, language=to.language), as_of))


def _where(event: Event, *, with_client: bool) -> str:
    """Return what an event is about: the farm, and whose it is where the reader has several clients."""
    parts = (event.client_name if with_client or not event.farm_name else "", event.farm_name)
    return ", ".join(dict.fromkeys(filter(None, map(clean, parts))))


def _subject(told: tuple[_Told, ...], *, with_client: bool) -> str:
    """Return the farm and what is said of it, and how much more there is."""
    first = told[0]
    where = _cut(_where(first.event, with_client=with_client))
    subject = f"{where}: {first.words.short}" if where else first.words.short[:1].upper() + first.words.short[1:]
    subject = _cut(clean(subject), _SUBJECT)
    if len(told) == 1:
        return subject
    more = say_count("(and {count} more)", "(and {count} more)", len(told) - 1)
    return f"{subject} {more}"


def _cut(text: str, most: int = _NAME) -> str:
    """Return a text of at most so many characters."""
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}…"


def _why(packet: Packet, practice: Practice, clients: Mapping[str, Client]) -> str:
    """Return why the reader gets this, and how to get no more."""
    if packet.to.id:
        return say(
            "You get this because you work for {practice}. What you are told is set in {file}.",
            practice=practice.name,
            file="practice.yaml",
        )
    names = dict.fromkeys(clients[one.event.client].name for one in packet.reminders if one.event.client in clients)
    if names:
        because = say(
            "You get this because you are a contact of {clients} with {practice}.",
            clients=joined(names),
            practice=practice.name,
        )
    else:
        because = say("You get this because you are a contact of a client with {practice}.", practice=practice.name)
    answer = say("Answer this message if the address is wrong or you want no more of these.")
    return f"{because} {answer}"
