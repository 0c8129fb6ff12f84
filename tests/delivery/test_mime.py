"""A message as it travels: parsed back it is what was meant, the same bytes each time, one line a header."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.delivery.headers import clean
from soilrota.delivery.mime import Sender, compose, key_id
from soilrota.model.messages import Attachment
from tests.delivery.making import MORNING, SENDER, head, header, message, parsed, plainly_parsed
from tests.delivery.test_headers import NASTY

PDF = Attachment("farm_report.pdf", "application/pdf", b"%PDF-1.7\r\n.\r\n\x00\xff" * 50)
CALENDAR = Attachment(
    "visits.ics", "text/calendar; charset=utf-8; method=PUBLISH", "BEGIN:VCALENDAR\r\nX:é\r\n".encode()
)
HEAD = ["Date", "From", "To", "Subject", "Message-ID", "Auto-Submitted", "MIME-Version", "Content-Type"]


def test_text_html_and_files_come_back() -> None:
    """The text first, the HTML second, the files with name, type and bytes."""
    asked = message(
        html="<p>Sample <b>now</b>: fünf.</p>", text="Now: fünf.\r\n.\nFrom here\n", attachments=(PDF, CALENDAR)
    )
    made = compose(asked, SENDER, MORNING)
    mail = parsed(made.eml)
    assert made.unfit == ""
    assert mail.get_content_type() == "multipart/mixed"
    plain, html = mail.get_body(("plain",)), mail.get_body(("html",))
    assert plain is not None
    assert html is not None
    assert plain.get_content().splitlines() == ["Now: fünf.", ".", "From here"]
    assert html.get_content().strip() == asked.html
    files = list(mail.iter_attachments())
    assert [file.get_filename() for file in files] == ["farm_report.pdf", "visits.ics"]
    assert [file.get_payload(decode=True) for file in files] == [PDF.content, CALENDAR.content]
    assert (files[1].get_content_type(), files[1].get_param("method")) == ("text/calendar", "PUBLISH")


def test_the_head() -> None:
    """Each header once; the date is the one given; the Message-ID comes from the key alone."""
    made = compose(
        message(),
        replace(SENDER, unsubscribe="mailto:no@small.example"),
        MORNING.astimezone(ZoneInfo("Australia/Melbourne")),
    )
    names = [name for name, _ in head(made.eml)]
    assert names == [*HEAD[:6], "List-Unsubscribe", "Content-Type", "Content-Transfer-Encoding", "MIME-Version"]
    assert header(made.eml, "Date") == "Mon, 15 Feb 2027 14:00:00 +1100"
    assert header(made.eml, "Message-ID") == made.message_id
    other = compose(message(subject="Other", text="Other"), Sender("Else", "else@small.example"), MORNING)
    assert other.message_id == made.message_id
    assert compose(message(day=date(2027, 2, 16)), SENDER, MORNING).message_id != made.message_id
    assert header(made.eml, "List-Unsubscribe") == "<mailto:no@small.example>"
    own = compose(message(list_unsubscribe="mailto:own@small.example"), SENDER, MORNING)
    assert header(own.eml, "List-Unsubscribe") == "<mailto:own@small.example>"


def test_the_same_in_gives_the_same_out() -> None:
    """Boundaries and all; every line is ASCII and ends with CRLF, none is longer than the protocol allows."""
    asked = message(html="<p>x</p>" * 400, text="ü" * 5000, attachments=(PDF, CALENDAR))
    first, second = compose(asked, SENDER, MORNING).eml, compose(asked, SENDER, MORNING).eml
    assert first == second
    assert first.isascii()
    assert first.endswith(b"\r\n")
    assert b"\n" not in first.replace(b"\r\n", b"")
    assert max(map(len, first.split(b"\r\n"))) < 998


@settings(max_examples=150)
@given(NASTY, NASTY, NASTY, NASTY)
def test_no_value_becomes_a_header(name: str, subject: str, sender: str, text: str) -> None:
    """Whatever names, subject and text hold, the head has the same headers, and the values are the clean ones."""
    made = compose(message(subject=subject, text=text), Sender(sender, "office@small.example"), MORNING)
    named = compose(replace(message(subject=subject, html=f"<p>{text}"), to_name=name), SENDER, MORNING)
    assert [found for found, _ in head(named.eml)] == HEAD
    assert plainly_parsed(named.eml) == HEAD
    assert header(made.eml, "Subject") == clean(subject)
    assert parsed(named.eml)["to"].addresses[0].addr_spec == "jo@farms.example"
    assert len(parsed(named.eml)["to"].addresses) == len(parsed(made.eml)["from"].addresses) == 1


def test_letters_before_the_at_are_sent_as_they_are() -> None:
    """Never as an encoded word, which nobody could deliver."""
    made = compose(message(address="jörg@farms.example"), SENDER, MORNING)
    assert made.needs_utf8
    assert "<jörg@farms.example>".encode() in made.eml
    assert not compose(message(), SENDER, MORNING).needs_utf8


@pytest.mark.parametrize(
    ("asked", "sender", "said"),
    [
        (message(address="jo@a.example, al@b.example"), SENDER, "more than one address"),
        (message(), Sender("Practice", "office"), "is no e-mail address"),
        (message(attachments=(Attachment("../x.pdf", "application/pdf", b""),)), SENDER, "no name of an attached file"),
        (message(attachments=(Attachment("x.pdf", "pdf\r\nBcc: x", b""),)), SENDER, "no media type"),
        (message(attachments=(Attachment("x.eml", "multipart/mixed", b""),)), SENDER, "no media type"),
        (message(list_unsubscribe="mailto:a@b.example\r\nBcc: x"), SENDER, "no mailto address"),
    ],
)
def test_what_cannot_be_sent_says_why(asked: object, sender: Sender, said: str) -> None:
    """No bytes are made of it, and the reason is one line."""
    made = compose(asked, sender, MORNING)  # type: ignore[arg-type]
    assert made.eml == b""
    assert said in made.unfit


def test_an_id_is_short_and_stable() -> None:
    """It stands in file names and in what people type."""
    assert key_id(message().key) == key_id(message(subject="other").key)
    assert len(key_id(message().key)) == 16
    assert key_id(message("al").key) != key_id(message("jo").key)


@given(st.lists(st.binary(max_size=300), max_size=4))
def test_files_of_any_bytes_come_back(contents: list[bytes]) -> None:
    """Also where they hold what parts a message."""
    files = tuple(Attachment(f"f{number}.bin", "application/octet-stream", one) for number, one in enumerate(contents))
    mail = parsed(compose(message(attachments=files), SENDER, MORNING).eml)
    assert [part.get_payload(decode=True) for part in mail.iter_attachments()] == contents
