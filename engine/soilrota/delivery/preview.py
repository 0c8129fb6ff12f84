"""A message as it reads in a terminal."""

from __future__ import annotations

from email import message_from_bytes
from email.message import EmailMessage
from email.policy import SMTP

from soilrota.delivery.values import Entry


def preview(entry: Entry, eml: bytes) -> tuple[str, ...]:
    """Return a message in lines: where it is, to whom, what, with which files, and its text.

    Args:
        entry: the message.
        eml: its bytes; none where it cannot be sent.
    """
    head = [f"{entry.id}: {entry.state}", f"  to {entry.address}, {_printable(entry.subject)}"]
    if entry.answer:
        head.append(f"  last: {_printable(entry.answer)}")
    if not eml:
        return tuple(head)
    mail = message_from_bytes(eml, _class=EmailMessage, policy=SMTP)
    assert isinstance(mail, EmailMessage)
    for part in mail.iter_attachments():
        content = part.get_payload(decode=True)
        size = len(content) if isinstance(content, bytes) else 0
        head.append(f"  with {part.get_filename()}, {size} bytes")
    body = mail.get_body(("plain",))
    text = body.get_content() if body else ""
    return (*head, *(f"  | {_printable(line)}".rstrip() for line in text.splitlines()))


def _printable(text: str) -> str:
    """Return a text without what a terminal would act upon."""
    return "".join(letter if letter.isprintable() else " " for letter in text)
