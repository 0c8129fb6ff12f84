"""Reminders: who is to be reminded can be written to, or it is said; a draft is for the adviser alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from soilrota.book.parts import ClientParts, PlaceOf, SharedParts
from soilrota.language import phrase
from soilrota.model.reminder_choices import Audience, ReminderKind
from soilrota.problems import Place, Problem, error, warning

_ADDRESS = phrase("an e-mail address")


def people_can_be_written_to(parts: SharedParts) -> Iterator[Problem]:
    """People of the practice who are to be reminded have an e-mail address, where the practice speaks of reminders."""
    choices = parts.practice.value.reminders
    if not choices.asked_for:
        return
    for person in parts.people:
        one = person.value
        kinds = choices.gets.get(Audience(one.role), frozenset()) if one.gets is None else one.gets
        if kinds and not one.email:
            yield _no_address(person.at(), one.name)


def contacts_can_be_written_to(parts: ClientParts) -> Iterator[Problem]:
    """A contact who asks for reminders has an e-mail address, and so has at least one contact of every client."""
    choices = parts.shared.practice.reminders
    if not choices.asked_for:
        return
    for number, contact in enumerate(parts.contacts):
        if contact.gets and not contact.email:
            yield _no_address(parts.file.at("contacts", number), contact.name)
    usual = choices.gets[Audience.CONTACT]
    reached = any(contact.email for contact in parts.contacts)
    if not reached and any(usual if one.gets is None else one.gets for one in parts.contacts):
        found = phrase("no contact has an e-mail address, so nobody of this client is reminded of anything")
        mend = phrase("add an e-mail address to a contact, or write gets: [] for each")
        expected = phrase("one contact with an e-mail address")
        yield warning("nobody-to-remind", parts.file.at("contacts"), found, expected, mend)


def drafts_go_to_advisers(parts: SharedParts) -> Iterator[Problem]:
    """Nobody of the practice but an adviser is told of drafts."""
    gets = parts.practice.value.reminders.gets
    for audience in (one for one in Audience if one is not Audience.ADVISER):
        if ReminderKind.DRAFT in gets[audience]:
            yield _draft(parts.practice.at, ("reminders", "gets", audience.value), f"the group '{audience}'")
    for person in parts.people:
        if person.value.role != "adviser" and person.value.gets and ReminderKind.DRAFT in person.value.gets:
            yield _draft(person.at, ("gets",), person.value.name)


def contacts_get_no_drafts(parts: ClientParts) -> Iterator[Problem]:
    """No contact of a client is told of drafts."""
    for number, contact in enumerate(parts.contacts):
        if contact.gets and ReminderKind.DRAFT in contact.gets:
            yield _draft(parts.file.at, ("contacts", number, "gets"), contact.name)


def _no_address(place: Place, name: str) -> Problem:
    """Return the warning that somebody cannot be reminded."""
    found = phrase("{name} is to be reminded but has no e-mail address, so nothing is sent", name=name)
    return warning("no-address", place, found, _ADDRESS, phrase("add an e-mail address, or write gets: []"))


def _draft(at: PlaceOf, path: Iterable[str | int], who: str) -> Problem:
    """Return the error that a draft would leave the adviser's hands."""
    found = f"drafts would go to {who}"
    return error("draft-not-for-them", at(*path), found, "drafts for advisers alone", "take draft out of the list")
