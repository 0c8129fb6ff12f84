"""Messages, entries and outboxes for tests, each as small as it can be."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from email import message_from_bytes
from email.header import decode_header, make_header
from email.message import EmailMessage
from email.policy import SMTP, compat32
from pathlib import Path

from soilrota.delivery.mime import Sender, compose
from soilrota.delivery.outbox import Outbox, open_outbox
from soilrota.delivery.sending import World
from soilrota.delivery.values import Entry, NewEntry
from soilrota.model.mail import Mail
from soilrota.model.messages import Message, MessageKey

DAY = date(2027, 2, 15)
MORNING = datetime(2027, 2, 15, 3, 0, tzinfo=UTC)
SENDER = Sender("Small Soil Practice", "office@small.example")


def message(person: str = "jo", address: str = "", day: date = DAY, **more: object) -> Message:
    """Return a message to a person."""
    key = MessageKey(f"client/anvil-creek/{person}", "nightly", day, "anvil-creek")
    values: dict[str, object] = {"subject": f"Home: sample before Friday, {person}", "text": "Sample now.\n.\nDone.\n"}
    return Message(key, person.title(), address or f"{person}@farms.example", **{**values, **more})  # type: ignore[arg-type]


def new_entry(person: str = "jo", address: str = "", **more: object) -> NewEntry:
    """Return a message as it is put into the outbox."""
    return compose(message(person, address, **more), SENDER, MORNING)  # type: ignore[arg-type]


@contextmanager
def outbox_with(path: Path, *entries: NewEntry, made_at: datetime = MORNING) -> Iterator[Outbox]:
    """Open an outbox that holds messages."""
    with open_outbox(path) as outbox:
        for entry in entries:
            outbox.add(entry, made_at)
        yield outbox


def only(outbox: Outbox) -> Entry:
    """Return the one message of an outbox."""
    (entry,) = outbox.entries()
    return entry


def mail_to(port: int, **more: object) -> Mail:
    """Return how a practice sends to a server on this machine."""
    return Mail(host="localhost", port=port, from_address=SENDER.address, **more)  # type: ignore[arg-type]


@dataclass
class Clock:
    """A clock that a test sets, and a world around it."""

    moment: datetime = MORNING
    stopped: bool = False
    ended: bool = False
    ticks: timedelta = field(default=timedelta(0))

    def now(self) -> datetime:
        """Return the moment."""
        self.moment += self.ticks
        return self.moment

    def world(self) -> World:
        """Return the world."""
        return World(self.now, UTC, lambda: self.stopped, lambda: self.ended)


def parsed(eml: bytes) -> EmailMessage:
    """Return a message as a mail program reads it."""
    found = message_from_bytes(eml, _class=EmailMessage, policy=SMTP)
    assert isinstance(found, EmailMessage)
    return found


def head(eml: bytes) -> list[tuple[str, str]]:
    """Return the lines of the head as they travel, unfolded and not decoded."""
    top = eml.partition(b"\r\n\r\n")[0].decode()
    assert "\n" not in top.replace("\r\n", "")
    assert "\r" not in top.replace("\r\n", "")
    lines = re.sub(r"\r\n[ \t]", " ", top).split("\r\n")
    return [(name, value) for name, _, value in (line.partition(": ") for line in lines)]


def header(eml: bytes, name: str) -> str:
    """Return a header of the head, decoded as RFC 2047 says."""
    (value,) = (value for found, value in head(eml) if found == name)
    return str(make_header(decode_header(value)))


def plainly_parsed(eml: bytes) -> list[str]:
    """Return the names of the headers as the plainest parser sees them."""
    return message_from_bytes(eml, policy=compat32).keys()
