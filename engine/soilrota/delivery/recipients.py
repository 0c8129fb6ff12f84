"""Who is told of what: contacts, the crew member who is placed, the adviser, the office."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from soilrota.model.client import Client, Contact
from soilrota.model.practice import Person, Practice
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.model.reminders import Event, Recipient


def recipients_of(client: Client, event: Event) -> tuple[Recipient, ...]:
    """Return who is told of an event of a client; one who is two things here is told once, as the first of them.

    A draft goes to the client's adviser and to nobody else, whatever any list says.
    """
    adviser = _people(client.practice, Audience.ADVISER, (client.adviser,), event.kind)
    if event.kind is ReminderKind.DRAFT:
        return _each_once(adviser)
    return _each_once(
        (
            *_people(client.practice, Audience.SAMPLER, (event.person,), event.kind),
            *_contacts(client, event.kind),
            *adviser,
            *_office(client.practice, event.kind),
        )
    )


def office_of(practice: Practice, event: Event) -> tuple[Recipient, ...]:
    """Return who is told of an event that concerns no client."""
    return _each_once(_office(practice, event.kind))


def address_key(address: str) -> str:
    """Return what stands for a person: the address, in which capitals make no difference.

    >>> address_key("Jo@Anvil-Creek.example")
    'jo@anvil-creek.example'
    """
    return address.strip().casefold()


def _contacts(client: Client, kind: ReminderKind) -> Iterator[Recipient]:
    """Yield the contacts of a client who are told of a kind."""
    for contact in client.contacts:
        if contact.email and kind in _kinds(client.practice, Audience.CONTACT, contact):
            yield Recipient(
                address_key(contact.email),
                contact.email,
                contact.name,
                client.language,
                Audience.CONTACT,
                role=contact.role,
            )


def _office(practice: Practice, kind: ReminderKind) -> Iterator[Recipient]:
    """Yield those who keep the office and are told of a kind."""
    ids = [person.id for person in practice.people.values() if person.role == Audience.OFFICE]
    return _people(practice, Audience.OFFICE, ids, kind)


def _people(practice: Practice, audience: Audience, ids: Iterable[str], kind: ReminderKind) -> Iterator[Recipient]:
    """Yield those of some people of the practice who are told of a kind, in the practice's language."""
    for name in ids:
        person = practice.people.get(name)
        if person is not None and person.email and kind in _kinds(practice, audience, person):
            yield Recipient(
                address_key(person.email),
                person.email,
                person.name,
                practice.language,
                audience,
                person.id,
                person.role,
            )


def _kinds(practice: Practice, audience: Audience, person: Person | Contact) -> frozenset[ReminderKind]:
    """Return the kinds that a person is told of."""
    return practice.reminders.gets[audience] if person.gets is None else person.gets


def _each_once(found: Iterable[Recipient]) -> tuple[Recipient, ...]:
    """Return each person once, as what is named first."""
    known: dict[str, Recipient] = {}
    for one in found:
        known.setdefault(one.person, one)
    return tuple(known.values())
