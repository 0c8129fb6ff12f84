"""Mail sent to a server that others wrote: what arrives is what was meant, and each accepted message arrives once."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import timedelta
from email.header import decode_header, make_header
from pathlib import Path

import pytest

from soilrota.delivery.faults import LoginError
from soilrota.delivery.headers import clean
from soilrota.delivery.login import Login
from soilrota.delivery.mime import compose
from soilrota.delivery.outbox import Outbox
from soilrota.delivery.sending import Round, send_round
from soilrota.delivery.smtp import Line, Patience
from soilrota.delivery.values import State
from soilrota.model.mail import Tls
from soilrota.model.messages import Attachment, Message
from tests.delivery.certificates import Certificate
from tests.delivery.making import (
    MORNING,
    SENDER,
    Clock,
    head,
    header,
    mail_to,
    message,
    new_entry,
    outbox_with,
    parsed,
    plainly_parsed,
)
from tests.delivery.other_server import PASSWORD, USER, Manners, OtherServer

LOGIN = Login(USER, PASSWORD)
#: Long enough for a busy machine, and short of how long the server stalls.
HURRY = Patience(step_s=1.5, last_s=1.5)
PDF = Attachment("farm_report.pdf", "application/pdf", b"%PDF-1.7\r\n.\r\n..\r\n\x00\xff\n\r" * 40)
CALENDAR = Attachment(
    "windows.ics", "text/calendar; charset=utf-8; method=PUBLISH", "BEGIN:VCALENDAR\r\nX:é\r\n".encode()
)
#: Names that people have, or that a machine put together; they arrive letter for letter.
HONEST = (
    "Jo Tern",
    "",
    "Zoë Ångström, née O'Hara",
    'Al "the hat" \\ Marlow',
    "مزرعة\u200c النخيل",
    "משק הדקל (צפון)",
    "Ångström und Söhne, " * 15,
    "Plain and very long " * 15,
)
#: Names that are to slip a line or an address of their own into a head, or to look like what they are not.
SLY = (
    "Jo\r\nBcc: thief@evil.example",
    "Jo\nX-Evil: 1\n\nbody",
    "=?utf-8?q?Jo=0D=0ABcc=3A_thief=40evil=2Eexample?=",
    "=?utf-8?b?Sm8NCkJjYzogdGhpZWZAZXZpbC5leGFtcGxl?=",
    "Jo <thief@evil.example>, Al",
    "safe\u202eelpoep.fdp",
    "\x00\x1b[31m\u2028Jo\u0085",
)
HEADERS = ["Date", "From", "To", "Subject", "Message-ID", "Auto-Submitted", "MIME-Version", "Content-Type"]


def _round(
    outbox: Outbox,
    server: OtherServer,
    certificate: Certificate,
    clock: Clock | None = None,
    patience: Patience | None = None,
) -> Round:
    """Send once over what is due."""
    mail = mail_to(server.port, cap=10_000)
    with Line(mail, LOGIN, certificate.trusted(), patience) as line:
        return send_round(outbox, line, mail, (clock or Clock()).world())


def _states(outbox: Outbox) -> dict[str, State]:
    """Return the state of each message by whom it is for."""
    return {entry.key.person.rpartition("/")[2]: entry.state for entry in outbox.entries()}


def _name(value: str) -> str:
    """Return the display name of a mailbox as it travels."""
    words = value.rpartition("<")[0].strip()
    if words.startswith('"'):
        assert words.endswith('"')
        return words[1:-1].replace('\\"', '"').replace("\\\\", "\\")
    return str(make_header(decode_header(words)))


def _check(eml: bytes, asked: Message) -> None:
    """Check that what arrived is what was meant: names, subject, both bodies, files, and not one header more."""
    mail, lines = parsed(eml), dict(head(eml))
    assert plainly_parsed(eml) == [name for name, _ in head(eml)] == HEADERS
    (to,) = mail["to"].addresses
    (sender,) = mail["from"].addresses
    assert (to.addr_spec, sender.addr_spec) == (asked.to_address, SENDER.address)
    assert (_name(lines["To"]), _name(lines["From"])) == (clean(asked.to_name), SENDER.name)
    assert header(eml, "Subject") == clean(asked.subject)
    plain, html = mail.get_body(("plain",)), mail.get_body(("html",))
    assert plain is not None
    assert html is not None
    assert plain.get_content().splitlines() == asked.text.splitlines()
    assert html.get_content().splitlines() == asked.html.splitlines()
    assert [
        (file.get_filename(), file.get_content_type(), file.get_payload(decode=True))
        for file in mail.iter_attachments()
    ] == [(file.name, file.media_type.partition(";")[0], file.content) for file in asked.attachments]


@pytest.mark.parametrize("tls", Tls)
def test_what_arrives_is_what_was_meant(tmp_path: Path, certificate: Certificate, tls: Tls) -> None:
    """Over both kinds of TLS, logged in, one connection for all; byte for byte what the outbox holds, each once."""
    asked = {}
    assert [clean(name) for name in HONEST] == [name.strip() for name in HONEST]
    for number, name in enumerate((*HONEST, *SLY)):
        words = f".\n..\nFrom here, {clean(name)}\n" + "ü" * 900 + "\n"
        more = {"text": words, "html": f"<p>.</p>\n<p>{'fünf ' * 300}</p>\n", "attachments": (PDF, CALENDAR)}
        made = message(f"p{number}", subject=f"Home, {name}: sample first", **more)
        asked[made.to_address] = replace(made, to_name=name)
    entries = [compose(one, SENDER, MORNING) for one in asked.values()]
    with (
        outbox_with(tmp_path / "outbox.sqlite", *entries) as outbox,
        OtherServer(certificate.of_server(), implicit=tls is Tls.IMPLICIT) as server,
    ):
        mail = mail_to(server.port, tls=tls)
        with Line(mail, LOGIN, certificate.trusted()) as line:
            send_round(outbox, line, mail, Clock().world())
        assert set(_states(outbox).values()) == {State.SENT}
        kept = {entry.address: outbox.eml(entry.id) for entry in outbox.entries()}
    assert server.logins == [USER]
    assert Counter(one.to for one in server.taken) == dict.fromkeys(asked, 1)
    assert {one.to: one.eml for one in server.taken} == kept
    for one in server.taken:
        assert one.sender == SENDER.address
        _check(one.eml, asked[one.to])


def test_addresses_of_all_the_world(tmp_path: Path, certificate: Certificate) -> None:
    """Letters before the `@` travel as they are, a domain as the network has it."""
    made = (new_entry("jo", "jörg@farms.example"), new_entry("al", "al@müller.example"))
    with outbox_with(tmp_path / "o.sqlite", *made) as outbox, OtherServer(certificate.of_server()) as server:
        _round(outbox, server, certificate)
    assert sorted(one.to for one in server.taken) == ["al@xn--mller-kva.example", "jörg@farms.example"]


def test_five_hundred_addresses(tmp_path: Path, certificate: Certificate) -> None:
    """As one address, they are refused and nothing is said to the server; as 500 people, each gets one message."""
    people = [f"p{number}@farms.example" for number in range(500)]
    list_of_all = new_entry("all", ", ".join(people))
    made = [new_entry(one.partition("@")[0], one) for one in people]
    with outbox_with(tmp_path / "o.sqlite", list_of_all, *made) as outbox:
        with OtherServer(certificate.of_server()) as server:
            _round(outbox, server, certificate)
        states = _states(outbox)
    assert states.pop("all") is State.REFUSED
    assert set(states.values()) == {State.SENT}
    assert Counter(one.to for one in server.taken) == dict.fromkeys(people, 1)
    assert all(parsed(one.eml)["to"].addresses[0].addr_spec == one.to for one in server.taken)
    assert server.logins == [USER]


def test_the_wrong_password_sends_nothing(tmp_path: Path, certificate: Certificate) -> None:
    """The round ends and says so; everything waits."""
    with outbox_with(tmp_path / "o.sqlite", new_entry()) as outbox, OtherServer(certificate.of_server()) as server:
        mail = mail_to(server.port)
        with Line(mail, Login(USER, "wrong"), certificate.trusted()) as line:
            with pytest.raises(LoginError, match="does not take the login: 535"):
                line.open()
            assert "535" in send_round(outbox, line, mail, Clock().world()).fault
        assert _states(outbox) == {"jo": State.WAITING}
    assert server.taken == []


def test_not_now_and_later_yes(tmp_path: Path, certificate: Certificate) -> None:
    """4xx twice, then taken: put off, tried again as waits grow, sent once; others are not held up."""
    manners = Manners(not_now=Counter({"jo@farms.example": 2}))
    clock, seen = Clock(), []
    with (
        outbox_with(tmp_path / "o.sqlite", new_entry("jo"), new_entry("al")) as outbox,
        OtherServer(certificate.of_server(), manners) as server,
    ):
        for minutes in (0, 10, 30, 60):
            clock.moment += timedelta(minutes=minutes)
            _round(outbox, server, certificate, clock)
            seen.append((_states(outbox)["jo"], server.asked["jo@farms.example"]))
        assert seen == [(State.PUT_OFF, 1), (State.PUT_OFF, 1), (State.PUT_OFF, 2), (State.SENT, 3)]
        assert _states(outbox)["al"] is State.SENT
    assert Counter(one.to for one in server.taken) == {"al@farms.example": 1, "jo@farms.example": 1}


def test_never(tmp_path: Path, certificate: Certificate) -> None:
    """5xx to the address or to the message: refused with the server's words, never tried again; others are sent."""
    manners = Manners(never=frozenset({"jo@farms.example"}), late_refused=frozenset({"al@farms.example"}))
    clock = Clock()
    with (
        outbox_with(tmp_path / "o.sqlite", *map(new_entry, ("jo", "al", "bo", "cy"))) as outbox,
        OtherServer(certificate.of_server(), manners) as server,
    ):
        for _ in range(3):
            _round(outbox, server, certificate, clock)
            clock.moment += timedelta(days=1)
        refused = {entry.address: entry.answer for entry in outbox.entries(State.REFUSED)}
    assert "550 5.1.1 no such person" in refused["jo@farms.example"]
    assert "554 5.7.1 not this one" in refused["al@farms.example"]
    assert server.asked == dict.fromkeys((f"{one}@farms.example" for one in ("jo", "al", "bo", "cy")), 1)
    assert Counter(one.to for one in server.taken) == {"bo@farms.example": 1, "cy@farms.example": 1}


def test_a_line_that_is_cut_in_the_middle(tmp_path: Path, certificate: Certificate) -> None:
    """While a long message is on its way: the server has nothing, and the next round sends it, once."""
    long = Attachment("farm_report.pdf", "application/pdf", bytes(range(256)) * 16_000)
    entry = compose(message(attachments=(long,)), SENDER, MORNING)
    clock = Clock()
    with (
        outbox_with(tmp_path / "o.sqlite", entry) as outbox,
        OtherServer(certificate.of_server(), Manners(drops=2)) as server,
    ):
        for _ in range(2):
            _round(outbox, server, certificate, clock)
            assert (_states(outbox), server.taken) == ({"jo": State.PUT_OFF}, [])
            clock.moment += timedelta(hours=2)
        _round(outbox, server, certificate, clock)
        assert _states(outbox) == {"jo": State.SENT}
    assert server.dropped == 2
    (one,) = server.taken
    assert [file.get_payload(decode=True) for file in parsed(one.eml).iter_attachments()] == [long.content]


def test_a_server_that_stalls(tmp_path: Path, certificate: Certificate) -> None:
    """Before the message: put off and sent once later. After its last byte: unsure, and never sent again by itself."""
    manners = Manners(stalls_at_name={"jo@farms.example"}, stalls_at_end=frozenset({"al@farms.example"}))
    clock = Clock()
    with (
        outbox_with(tmp_path / "o.sqlite", *map(new_entry, ("jo", "al", "bo"))) as outbox,
        OtherServer(certificate.of_server(), manners) as server,
    ):
        _round(outbox, server, certificate, clock, HURRY)
        assert _states(outbox) == {"jo": State.PUT_OFF, "al": State.UNSURE, "bo": State.SENT}
        for _ in range(3):
            clock.moment += timedelta(hours=17)
            _round(outbox, server, certificate, clock, HURRY)
        assert _states(outbox) == {"jo": State.SENT, "al": State.UNSURE, "bo": State.SENT}
    assert Counter(one.to for one in server.taken) == dict.fromkeys(
        (f"{one}@farms.example" for one in ("jo", "al", "bo")), 1
    )
