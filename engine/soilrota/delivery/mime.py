"""A message as the bytes that travel, the same for the same message, sender and moment."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime
from hashlib import sha256

from soilrota.delivery.headers import Mailbox, can_be_unsubscribed_at, clean, mailbox, text_line
from soilrota.delivery.values import NewEntry
from soilrota.model.messages import Attachment, Message, MessageKey

_FILE_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,99}")
_MEDIA_TYPE = re.compile(r"([a-z0-9][a-z0-9.+-]*)/([a-z0-9][a-z0-9.+-]*)((?:; *[a-z]+=[A-Za-z0-9._-]+)*)")
#: The boundary between parts is derived from the key; this number of letters [-] never occurs in a text by chance.
_BOUNDARY = 32
_ID = 16
_LONGEST_ADDRESS = 254


@dataclass(frozen=True, slots=True)
class Sender:
    """Who messages come from.

    Attributes:
        name, address: as recipients see them.
        unsubscribe: where they write to get no more, a `mailto:` address; may be empty.
    """

    name: str
    address: str
    unsubscribe: str = ""


def key_digest(key: MessageKey) -> str:
    """Return what names a message for machines: the SHA-256 of person, event and day, in hexadecimal."""
    return sha256(f"{key.person}\n{key.event}\n{key.day.isoformat()}".encode("utf-8", "replace")).hexdigest()


def key_id(key: MessageKey) -> str:
    """Return what names a message for people and files."""
    return key_digest(key)[:_ID]


def compose(message: Message, sender: Sender, made_at: datetime) -> NewEntry:
    """Return a message as it is put into the outbox; where it cannot be sent, `unfit` says why.

    Args:
        message: what is said to whom.
        sender: who it comes from.
        made_at: its date and time, with a time zone.
    """
    to, wrong = mailbox(message.to_name, message.to_address)
    from_, wrong_from = mailbox(sender.name, sender.address)
    unsubscribe = message.list_unsubscribe or sender.unsubscribe
    message_id = f"<{key_digest(message.key)[: 2 * _ID]}@{from_.address.rpartition('@')[2] if from_ else 'invalid'}>"
    unfit = (
        wrong or wrong_from or _unfit_unsubscribe(unsubscribe) or "".join(map(_unfit_attachment, message.attachments))
    )
    eml = b""
    if to and from_ and not unfit:
        eml = _head(message, (from_, to), made_at, message_id, unsubscribe) + _body(message)
    return NewEntry(
        key=message.key,
        urgency=int(message.urgency),
        sender=from_.address if from_ else clean(sender.address),
        address=to.address if to else clean(message.to_address)[:_LONGEST_ADDRESS],
        subject=clean(message.subject),
        needs_utf8=bool((to and to.needs_utf8) or (from_ and from_.needs_utf8)),
        about=message.about,
        message_id=message_id,
        eml=eml,
        unfit=unfit,
    )


def _head(
    message: Message, boxes: tuple[Mailbox, Mailbox], made_at: datetime, message_id: str, unsubscribe: str
) -> bytes:
    """Return the lines of the head that speak of the whole message; the others come with the body."""
    lines = [
        ("Date", format_datetime(made_at)),
        ("From", boxes[0].line()),
        ("To", boxes[1].line()),
        ("Subject", text_line(clean(message.subject))),
        ("Message-ID", message_id),
        ("Auto-Submitted", "auto-generated"),
    ]
    if unsubscribe:
        lines.append(("List-Unsubscribe", f"<{unsubscribe}>"))
    return "".join(f"{name}: {value}\r\n" for name, value in lines).encode()


def _body(message: Message) -> bytes:
    """Return text, HTML and attachments as MIME parts, in seven bits."""
    mail = EmailMessage(policy=SMTP)
    mail.set_content(_lines(message.text), cte="quoted-printable")
    if message.html:
        mail.add_alternative(_lines(message.html), subtype="html", cte="quoted-printable")
    for attachment in message.attachments:
        _attach(mail, attachment)
    digest = key_digest(message.key)
    for number, part in enumerate(part for part in mail.walk() if part.is_multipart()):
        part.set_boundary(f"=_{number}_{digest[-_BOUNDARY:]}")
    return mail.as_bytes()


def _lines(text: str) -> str:
    """Return a text with one kind of line end, and without what cannot be encoded."""
    return text.encode("utf-8", "replace").decode().replace("\r\n", "\n").replace("\r", "\n")


def _attach(mail: EmailMessage, attachment: Attachment) -> None:
    """Add a file; calendars keep the parameters of their media type, which programs of calendars read."""
    found = _MEDIA_TYPE.fullmatch(attachment.media_type)
    assert found is not None
    parameters = dict(part.strip().split("=", 1) for part in found[3].split(";")[1:])
    mail.add_attachment(
        attachment.content, maintype=found[1], subtype=found[2], filename=attachment.name, params=parameters
    )


def _unfit_attachment(attachment: Attachment) -> str:
    """Return in words why a file cannot go with a message; empty where it can."""
    if not _FILE_NAME.fullmatch(attachment.name):
        return f"'{clean(attachment.name)}' is no name of an attached file: use letters, digits, dots and hyphens"
    if not _MEDIA_TYPE.fullmatch(attachment.media_type) or attachment.media_type.startswith("multipart/"):
        return f"'{clean(attachment.media_type)}' is no media type of a file"
    return ""


def _unfit_unsubscribe(address: str) -> str:
    """Return in words why the address for no more messages cannot be written; empty where it can."""
    if address and not can_be_unsubscribed_at(address):
        return f"'{clean(address)}' is no mailto address of at most 400 plain characters"
    return ""
