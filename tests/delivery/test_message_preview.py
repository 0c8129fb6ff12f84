"""Messages to look at before they are sent."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.delivery.message_preview import preview_files, terminal_text
from soilrota.model.messages import Attachment, Message, MessageKey

MESSAGE = Message(
    MessageKey("jo@a.example", "nightly", date(2027, 2, 1), "a"),
    "Jo Tern",
    "jo@a.example",
    "Home block: visit",
    "Hello Jo Tern,\n\nText.\n",
    "<p>Text.</p>",
    (Attachment("windows.ics", "text/calendar", b"x" * 1500),),
)


def test_a_terminal_shows_every_message_and_nothing_else() -> None:
    """Head, files, text; signs that steer a terminal are made visible."""
    shown = terminal_text([MESSAGE, replace(MESSAGE, subject="\x1b[2Jgone", text="a\u202eb")])
    assert shown.startswith("2 messages.\n")
    assert "To:      Jo Tern <jo@a.example>\nSubject: Home block: visit\nFile:    windows.ics (2 kB)\n\nHello" in shown
    assert "\x1b" not in shown
    assert "\u202e" not in shown
    assert terminal_text([]) == "Nobody is to be told anything.\n"


def test_files_lie_in_order_and_stay_in_their_folder() -> None:
    """Text, HTML and files of each message; whatever an address or a name holds, it names a plain file."""
    odd = replace(MESSAGE, to_address="../../é@b.example", html="", attachments=(Attachment("../x.pdf", "", b"1"),))
    files = preview_files([MESSAGE, odd])
    assert list(files) == [
        "001-jo-at-a.example.txt",
        "001-jo-at-a.example.html",
        "001-jo-at-a.example/1-windows.ics",
        "002-at-b.example.txt",
        "002-at-b.example/1-x.pdf",
    ]
    assert files["001-jo-at-a.example.html"] == b"<p>Text.</p>"
