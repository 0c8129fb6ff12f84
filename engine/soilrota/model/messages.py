"""What is sent to whom: messages as they were made, before anything of the post is added to them.

Whoever makes messages hands on values of this module; whoever sends them asks for nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import IntEnum


class Urgency(IntEnum):
    """Which message goes first where not all may go; a lower number goes first."""

    URGENT = 1
    SOON = 2
    ORDINARY = 3


@dataclass(frozen=True, slots=True, order=True)
class MessageKey:
    """Names a message: the same person, event and day are the same message, which is made and sent once.

    Attributes:
        person: who it is for: a stable name, for instance `client/anvil-creek/jo-tern` or `practice/mara-ellis`.
        event: why it is sent, for instance `nightly` for what is gathered for one person in a night.
        day: the as-of date of the night that made it.
        subject_of: what it is about, for instance the client's id; told to people and no part of what is unique.
    """

    person: str
    event: str
    day: date
    subject_of: str


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that goes with a message.

    Attributes:
        name: name of the file, without a folder.
        media_type: for instance `application/pdf`, or `text/calendar; charset=utf-8; method=PUBLISH`.
        content: its bytes.
    """

    name: str
    media_type: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Message:
    """A message to one person.

    Attributes:
        key: names it, see `MessageKey`.
        to_name: the recipient's name; may be empty.
        to_address: one bare address, without a display name.
        subject: the subject line.
        text: the whole message as plain text.
        html: the whole message as HTML; empty for plain text alone.
        attachments: files that go with it, in order.
        list_unsubscribe: where to write to get no more of these: a `mailto:` address; empty for the
            practice's own, where it has one.
        urgency: which goes first where a cap holds some back.
        about: the facts that it tells, one stable text each, for records and listings; people read `text`.
    """

    key: MessageKey
    to_name: str
    to_address: str
    subject: str
    text: str
    html: str = ""
    attachments: tuple[Attachment, ...] = ()
    list_unsubscribe: str = ""
    urgency: Urgency = Urgency.ORDINARY
    about: tuple[str, ...] = ()
