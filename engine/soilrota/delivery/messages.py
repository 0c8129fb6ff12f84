"""From what people are told to messages: one a person, plain text and HTML from one view, with the files it wants."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from soilrota.delivery.attachments import FileSource, FoundFile, WantedFile, attach, wanted_files
from soilrota.delivery.gathering import Packet, due, gather
from soilrota.delivery.message_view import message_view
from soilrota.delivery.templates import message_html, message_text
from soilrota.model.client import Client
from soilrota.model.messages import Message, MessageKey
from soilrota.model.practice import Practice
from soilrota.model.reminders import Reminder, Said

#: The event of a message that gathers a night's reminders for one person.
NIGHTLY = "nightly"


def no_files(_: WantedFile) -> FoundFile | None:
    """Return no file: a source for messages without any."""
    return None


def messages_of(
    reminders: Iterable[Reminder],
    said: Iterable[Said],
    as_of: date,
    practice: Practice,
    clients: Mapping[str, Client],
    *,
    files: FileSource = no_files,
) -> tuple[Message, ...]:
    """Return the messages of a night, the urgent first; who is told nothing new gets none.

    Args:
        reminders: everything that may be said, of all clients and of the practice.
        said: what was said before.
        as_of: the as-of date.
        practice: who writes.
        clients: the clients by id.
        files: where the files come from that go along.
    """
    packets = gather(due(reminders, said, as_of), as_of)
    return tuple(message_of(packet, practice, clients, files) for packet in packets)


def message_of(
    packet: Packet, practice: Practice, clients: Mapping[str, Client], files: FileSource = no_files
) -> Message:
    """Return the message of one packet; the arguments are those of `messages_of`."""
    attached, notes = attach(wanted_files(packet), files, practice.reminders.attachments_mb, packet.to)
    view = message_view(packet, practice, clients, notes)
    about = tuple(dict.fromkeys(reminder.about for reminder in packet.reminders))
    whose = dict.fromkeys(reminder.event.client for reminder in packet.reminders if reminder.event.client)
    return Message(
        key=MessageKey(packet.to.person, NIGHTLY, packet.as_of, ", ".join(whose)),
        to_name=packet.to.name,
        to_address=packet.to.address,
        subject=view.subject,
        text=message_text(view),
        html=message_html(view),
        attachments=attached,
        urgency=packet.reminders[0].event.urgency,
        about=about,
    )
