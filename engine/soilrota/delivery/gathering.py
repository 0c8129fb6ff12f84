"""What is new to each person, and one packet a person a night, gathered over farms and clients."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from soilrota.model.messages import Message
from soilrota.model.reminders import Recipient, Reminder, Said


@dataclass(frozen=True, slots=True)
class Packet:
    """Everything that one person is told in one night, the urgent first; never empty."""

    to: Recipient
    reminders: tuple[Reminder, ...]
    as_of: date


def due(reminders: Iterable[Reminder], said: Iterable[Said], as_of: date) -> tuple[Reminder, ...]:
    """Return the reminders that are new to their person.

    An event that was never said is due. One that repeats is due again `apart_days` after it was said last. Any other
    is due again where its day moved by more than `same_within_days` since then, and `apart_days` are over.

    Args:
        reminders: what may be said.
        said: what was said, in any order; what was said on the as-of date or later counts as well.
        as_of: the as-of date.
    """
    last: dict[tuple[str, str], Said] = {}
    for one in said:
        known = last.get((one.person, one.event))
        if known is None or one.on > known.on:
            last[one.person, one.event] = one
    found = ((reminder, last.get((reminder.to.person, reminder.event.name))) for reminder in reminders)
    return tuple(
        replace(reminder, before=_before(reminder, known))
        for reminder, known in found
        if _is_due(reminder, known, as_of)
    )


def _before(reminder: Reminder, last: Said | None) -> date | None:
    """Return the day that was said before; None where the same is said again, or that day was no day to come."""
    if last is None or reminder.event.repeats or last.day <= last.on:
        return None
    return last.day


def _is_due(reminder: Reminder, last: Said | None, as_of: date) -> bool:
    """Return whether a reminder is due, given when its event was said last."""
    event = reminder.event
    if last is None:
        return True
    if as_of <= last.on or as_of < last.on + timedelta(days=event.apart_days):
        return False
    return event.repeats or abs((event.day - last.day).days) > event.same_within_days


def gather(reminders: Iterable[Reminder], as_of: date) -> tuple[Packet, ...]:
    """Return one packet a person, the most urgent person first; who has nothing to be told has none.

    A person who is told as several things (a contact here, the adviser there) is addressed as the first of them.
    """
    of_person: defaultdict[str, dict[str, Reminder]] = defaultdict(dict)
    for reminder in sorted(reminders, key=_order):
        of_person[reminder.to.person].setdefault(reminder.about, reminder)
    packets = (Packet(_addressed(tuple(found.values())), tuple(found.values()), as_of) for found in of_person.values())
    return tuple(sorted(packets, key=lambda packet: (packet.reminders[0].event.urgency, packet.to.person)))


def _order(reminder: Reminder) -> tuple[int, date, str, str, str, Recipient]:
    """Return what reminders are sorted by: urgency, then day, then ground."""
    event = reminder.event
    return event.urgency, event.day, event.client, event.farm, event.name, reminder.to


def _addressed(reminders: tuple[Reminder, ...]) -> Recipient:
    """Return as whom the person of some reminders is addressed; one of the practice before one of a client."""
    return min((reminder.to for reminder in reminders), key=lambda to: (not to.id, to))


def said_by(messages: Iterable[Message]) -> Iterator[Said]:
    """Yield what messages said, from their keys and what they are about."""
    for message in messages:
        yield from said_in(message.key.person, message.key.day, message.about)


def said_in(person: str, on: date, about: Iterable[str]) -> Iterator[Said]:
    """Yield what one message said.

    >>> next(said_in("jo@a.example", date(2027, 1, 2), ["closing/a/b@2027-01-20"]))
    Said(person='jo@a.example', event='closing/a/b', day=datetime.date(2027, 1, 20), on=datetime.date(2027, 1, 2))
    """
    for text in about:
        event, _, day = text.rpartition("@")
        yield Said(person, event, date.fromisoformat(day), on)
