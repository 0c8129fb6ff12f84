"""Messages to look at before anything is sent: text for a terminal, and files for a mail reader or a browser."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from soilrota.delivery.days import counted
from soilrota.model.messages import Message

_LINE = "-" * 72


def terminal_text(messages: Sequence[Message]) -> str:
    """Return all messages as one text for a terminal; nothing in it can move a terminal's cursor."""
    if not messages:
        return "Nobody is to be told anything.\n"
    parts = [f"{counted(len(messages), 'message', 'messages')}.", *(_one(message) for message in messages)]
    return _seen("\n".join([*parts, _LINE])) + "\n"


def _one(message: Message) -> str:
    """Return one message with its head."""
    name = f"{message.to_name} <{message.to_address}>" if message.to_name else message.to_address
    head = [f"To:      {name}", f"Subject: {message.subject}"]
    head += [f"File:    {one.name} ({len(one.content) / 1000:.0f} kB)" for one in message.attachments]
    return "\n".join([_LINE, *head, "", message.text.rstrip("\n")])


def _seen(text: str) -> str:
    """Return a text without signs that cannot be seen, line breaks apart."""
    return "".join(sign if sign.isprintable() or sign == "\n" else "\ufffd" for sign in text)


def preview_files(messages: Iterable[Message]) -> dict[str, bytes]:
    """Return files to look at by name: each message as text and HTML, its files in a folder beside them.

    A name begins with the message's number, so that they lie in order and no two are the same.
    """
    files: dict[str, bytes] = {}
    for number, message in enumerate(messages, start=1):
        stem = f"{number:03d}-{_plain_name(message.to_address)}"
        files[f"{stem}.txt"] = terminal_text((message,)).encode("utf-8", "replace")
        if message.html:
            files[f"{stem}.html"] = message.html.encode("utf-8", "replace")
        for position, one in enumerate(message.attachments, start=1):
            files[f"{stem}/{position}-{_plain_name(one.name)}"] = one.content
    return files


def _plain_name(text: str) -> str:
    """Return a text fit for the name of a file on every system.

    >>> _plain_name("jo@anvil-creek.example"), _plain_name("../a b.pdf")
    ('jo-at-anvil-creek.example', 'a-b.pdf')
    """
    kept = "".join(
        sign if sign.isascii() and (sign.isalnum() or sign in ".-_") else "-" for sign in text.replace("@", "-at-")
    )
    return kept.strip(".-")[:80] or "message"
