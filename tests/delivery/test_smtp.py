"""The line to the mail server, held against a real one on loopback that refuses, stalls and hangs up."""

from __future__ import annotations

import smtplib
import ssl
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from soilrota.delivery.faults import LoginError, ServerError
from soilrota.delivery.login import Login
from soilrota.delivery.smtp import Line, Patience
from soilrota.delivery.values import Entry, Outcome, State
from soilrota.model.mail import Tls
from tests.delivery.certificates import Certificate, make_certificate
from tests.delivery.making import mail_to, new_entry, only, outbox_with
from tests.delivery.smtp_server import Answer, MailServer, Script

HURRY = Patience(step_s=0.4, last_s=0.4)
EML = b"Subject: x\r\n\r\n.\r\n..two\r\nFrom here\r\n"


@pytest.fixture
def entry(tmp_path: Path) -> Entry:
    """Return a message to send."""
    with outbox_with(tmp_path / "outbox.sqlite", new_entry()) as outbox:
        return only(outbox)


@pytest.fixture
def utf8(tmp_path: Path) -> Entry:
    """Return a message that needs a server that takes letters of all kinds."""
    with outbox_with(tmp_path / "outbox.sqlite", new_entry(address="jörg@farms.example")) as outbox:
        return only(outbox)


def _nothing() -> None:
    """Do nothing before the last byte."""


def _line(server: MailServer, certificate: Certificate, tls: Tls = Tls.STARTTLS, login: Login | None = None) -> Line:
    """Return a line to a server that trusts its certificate."""
    return Line(mail_to(server.port, tls=tls), login, certificate.trusted(), HURRY)


def _send(
    certificate: Certificate, entry: Entry, script: Script, before_last: Callable[[], None] = _nothing
) -> tuple[Outcome, MailServer]:
    """Send one message to a server with a script."""
    with MailServer(certificate.of_server(), script=script) as server, _line(server, certificate) as line:
        line.open()
        return line.send(entry, EML, entry.address, before_last), server


def _refused(words: str) -> pytest.RaisesExc[ServerError]:
    """Expect that nothing can be sent at all, for a reason."""
    return pytest.raises(ServerError, match=words)


def _at(step: str, answer: Answer) -> Script:
    """Return a script that does something at one step."""
    return lambda found, _argument: answer if found == step else None


@pytest.mark.parametrize("tls", Tls)
def test_many_messages_go_over_one_line(certificate: Certificate, entry: Entry, tls: Tls) -> None:
    """Byte for byte, dots at the beginning of lines included; one connection, taken leave of at the end."""
    server = MailServer(certificate.of_server(), implicit=tls is Tls.IMPLICIT, login=("small", "secret"))
    with server, _line(server, certificate, tls, Login("small", "secret")) as line:
        assert line.open()
        assert [line.send(entry, EML, entry.address, _nothing).state for _ in range(3)] == [State.SENT] * 3
        assert not line.open()
    assert [one.eml for one in server.accepted] == [EML] * 3
    assert {(one.sender, one.to) for one in server.accepted} == {("office@small.example", "jo@farms.example")}
    assert server.connections == 1


def test_the_certificate_is_checked(certificate: Certificate, tmp_path: Path) -> None:
    """One that nobody vouches for, and one for another name, are refused before anything is said."""
    other = make_certificate(tmp_path, "DNS:elsewhere.example")
    for shown, trusted in ((certificate, other), (other, other)):
        for tls in Tls:
            server = MailServer(shown.of_server(), implicit=tls is Tls.IMPLICIT)
            with (
                server,
                _line(server, trusted, tls, Login("small", "secret")) as line,
                _refused("certificate of the mail"),
            ):
                line.open()
            assert not {step for step, _ in server.asked} & {"auth", "mail"}


def test_nothing_goes_without_tls(certificate: Certificate) -> None:
    """Neither where the server offers none, nor where it refuses to begin."""
    with MailServer(None) as server, _line(server, certificate, login=Login("small", "secret")) as line:
        with pytest.raises(ServerError, match="offers no TLS"):
            line.open()
        assert [step for step, _ in server.asked] == ["connect", "ehlo"]
    script = _at("starttls", Answer("454 not now"))
    with (
        MailServer(certificate.of_server(), script=script) as server,
        _line(server, certificate) as line,
        _refused("is not ready"),
    ):
        line.open()


def test_the_wrong_kind_of_tls(certificate: Certificate) -> None:
    """Implicit where STARTTLS is meant, and the other way round: said in words, not waited for without end."""
    with (
        MailServer(certificate.of_server()) as server,
        _line(server, certificate, Tls.IMPLICIT) as line,
        _refused("is its kind right"),
    ):
        line.open()
    with (
        MailServer(certificate.of_server(), implicit=True) as server,
        _line(server, certificate) as line,
        _refused("cannot be reached"),
    ):
        line.open()


@pytest.mark.parametrize(
    ("login", "wants", "said"),
    [
        (Login("small", "wrong"), ("small", "secret"), "does not take the login: 535"),
        (Login("small", "secret"), None, "takes no login"),
        (Login("small", "sécret"), ("small", "secret"), "ASCII"),
    ],
)
def test_logins_that_fail(certificate: Certificate, login: Login, wants: tuple[str, str] | None, said: str) -> None:
    """Each in its words, none of which holds the password."""
    server = MailServer(certificate.of_server(), login=wants)
    with server, _line(server, certificate, login=login) as line, pytest.raises(LoginError, match=said) as told:
        line.open()
    assert login.password not in str(told.value)


def test_a_server_that_is_not_there(certificate: Certificate) -> None:
    """Nobody listens."""
    with MailServer(certificate.of_server()) as server:
        pass
    with _line(server, certificate) as line, pytest.raises(ServerError, match=r"cannot be reached.*refused"):
        line.open()


@pytest.mark.parametrize(
    ("step", "answer", "state", "broke", "is_servers"),
    [
        ("mail", Answer("452 disk full"), State.PUT_OFF, False, True),
        ("mail", Answer("550 not you"), State.PUT_OFF, False, True),
        ("mail", Answer("552 too large"), State.REFUSED, False, False),
        ("mail", Answer("421 going down", hang_up="after"), State.PUT_OFF, True, True),
        ("rcpt", Answer("450 mailbox busy"), State.PUT_OFF, False, False),
        ("rcpt", Answer("550 5.1.1 no such user"), State.REFUSED, False, False),
        ("rcpt", Answer("530 log in first"), State.PUT_OFF, False, True),
        ("data", Answer("451 not now"), State.PUT_OFF, False, False),
        ("data", Answer("554 no"), State.REFUSED, False, False),
        ("message", Answer("451 later"), State.PUT_OFF, False, False),
        ("message", Answer("554 looks like a trick"), State.REFUSED, False, False),
        ("message", Answer("421 going down", hang_up="after"), State.PUT_OFF, True, True),
        ("mail", Answer(hang_up="before"), State.PUT_OFF, True, True),
        ("rcpt", Answer(hang_up="before"), State.PUT_OFF, True, True),
        ("data", Answer(hang_up="before"), State.PUT_OFF, True, True),
        ("rcpt", Answer(wait_s=0.8), State.PUT_OFF, True, True),
        ("message", Answer(hang_up="before"), State.UNSURE, True, True),
        ("message", Answer(hang_up="unanswered"), State.UNSURE, True, True),
        ("message", Answer(wait_s=0.8), State.UNSURE, True, True),
    ],
)
def test_every_answer_has_its_outcome(
    certificate: Certificate, entry: Entry, step: str, answer: Answer, state: State, *, broke: bool, is_servers: bool
) -> None:
    """4xx is put off, 5xx refused, a silence after the last byte unsure, one before it put off."""
    outcome, server = _send(certificate, entry, _at(step, answer))
    assert (outcome.state, outcome.broke, outcome.is_servers) == (state, broke, is_servers)
    assert outcome.words
    assert "\n" not in outcome.words
    if state is not State.UNSURE:
        assert server.accepted == []


def test_a_server_that_hangs_up_in_the_middle_has_taken_nothing(certificate: Certificate, entry: Entry) -> None:
    """While the message is on its way: put off, and never said to be with the server."""
    said: list[str] = []
    long = EML + b"x" * 70 + b"\r\n" + (b"y" * 70 + b"\r\n") * 200_000
    script = _at("data", Answer(hang_up="after"))
    with MailServer(certificate.of_server(), offers=(), script=script) as server, _line(server, certificate) as line:
        line.open()
        outcome = line.send(entry, long, entry.address, lambda: said.append("sent"))
    assert (outcome.state, outcome.broke, said, server.accepted) == (State.PUT_OFF, True, [], [])


def test_a_line_that_is_cut_before_the_last_byte_is_noticed(
    certificate: Certificate, entry: Entry, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also where the machine took all bytes but the last without a word: then it is not unsure."""
    send = smtplib.SMTP.send

    def slowly(server: smtplib.SMTP, words: bytes | str) -> None:
        send(server, words)
        if isinstance(words, bytes) and words.startswith(b"Subject:"):
            time.sleep(0.3)

    monkeypatch.setattr(smtplib.SMTP, "send", slowly)
    outcome, _ = _send(
        certificate, entry, _at("data", Answer(hang_up="after")), lambda: pytest.fail("it was not noticed")
    )
    assert (outcome.state, "hung up" in outcome.words) == (State.PUT_OFF, True)


def test_a_refusal_leaves_the_line_usable(certificate: Certificate, entry: Entry) -> None:
    """The next message goes over the same connection."""
    refused = iter([Answer("550 no such user"), None])
    script: Script = lambda step, _to: next(refused) if step == "rcpt" else None  # noqa: E731 - a script in a line
    with MailServer(certificate.of_server(), script=script) as server, _line(server, certificate) as line:
        line.open()
        states = [line.send(entry, EML, entry.address, _nothing).state for _ in range(2)]
    assert (states, server.connections) == ([State.REFUSED, State.SENT], 1)


def test_before_the_last_byte_the_server_has_taken_nothing(certificate: Certificate, entry: Entry) -> None:
    """Where we cannot write down that it may have a message, it gets none."""

    def full_disk() -> None:
        raise OSError(28, "No space left on device")

    with MailServer(certificate.of_server()) as server, _line(server, certificate) as line:
        line.open()
        with pytest.raises(OSError, match="No space"):
            line.send(entry, EML, entry.address, full_disk)
    assert ("data", "jo@farms.example") in server.asked
    assert server.accepted == []


def test_it_is_said_just_before_the_last_byte(certificate: Certificate, entry: Entry) -> None:
    """Never for a message that is refused on the way."""
    said: list[str] = []
    _send(certificate, entry, _at("rcpt", Answer("550 no")), lambda: said.append("refused"))
    _send(certificate, entry, _at("", Answer()), lambda: said.append("sent"))
    assert said == ["sent"]


def test_international_letters_where_they_are_taken(certificate: Certificate, utf8: Entry) -> None:
    """Offered: sent as they are. Not offered: refused with the reason, nothing said to the server."""
    with MailServer(certificate.of_server()) as server, _line(server, certificate) as line:
        line.open()
        assert line.send(utf8, EML, utf8.address, _nothing).state is State.SENT
    assert server.accepted[0].to == "jörg@farms.example"
    with MailServer(certificate.of_server(), offers=()) as server, _line(server, certificate) as line:
        line.open()
        outcome = line.send(utf8, EML, utf8.address, _nothing)
    assert (outcome.state, "SMTPUTF8" in outcome.words) == (State.REFUSED, True)
    assert "mail" not in {step for step, _ in server.asked}


@pytest.mark.parametrize(("offer", "state"), [("SIZE 20", State.REFUSED), ("SIZE 0", State.SENT), ("SIZE", State.SENT)])
def test_a_message_that_is_too_large(certificate: Certificate, entry: Entry, offer: str, state: State) -> None:
    """By what the server says that it takes; nought and nothing mean no limit (RFC 1870)."""
    with MailServer(certificate.of_server(), offers=(offer,)) as server, _line(server, certificate) as line:
        line.open()
        outcome = line.send(entry, EML, entry.address, _nothing)
    assert outcome.state is state
    assert (state is State.SENT) or f"{len(EML)} bytes" in outcome.words


def test_a_line_that_is_not_open_sends_nothing(certificate: Certificate, entry: Entry) -> None:
    """It says so."""
    with Line(mail_to(1), None, ssl.create_default_context(), HURRY) as line, _refused("no connection"):
        line.send(entry, EML, entry.address, _nothing)


def test_what_a_server_says_is_kept_short_and_printable(certificate: Certificate, entry: Entry) -> None:
    """It stands in reports that people read in a terminal."""
    outcome, _ = _send(certificate, entry, _at("rcpt", Answer("550 \x1b[31m" + "no" * 400)))
    assert outcome.words.isprintable()
    assert len(outcome.words) < 400
