"""A book's outbox filled and sent, by a night or by itself."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from soilrota.batch.faults import AnotherRunError, CannotStartError
from soilrota.batch.lock import night_lock
from soilrota.batch.sending import (
    OUTBOX,
    SendRequest,
    preview_waiting,
    queue_messages,
    send_alone,
    send_waiting,
    sender_of,
)
from soilrota.delivery.limits import Hold
from soilrota.delivery.outbox import open_outbox
from soilrota.delivery.values import State
from soilrota.model.practice import Person
from soilrota.problems import Place
from tests.acceptance.small_book import edit, write_book
from tests.batch.mail_book import edge, mail_book, practice_of, queue, states
from tests.delivery.certificates import Certificate, make_certificate
from tests.delivery.making import header, message
from tests.delivery.smtp_server import Answer, MailServer

REQUEST_AT = "2027-02-15T03:00:00+00:00"


@pytest.fixture(scope="module")
def certificate(tmp_path_factory: pytest.TempPathFactory) -> Certificate:
    """Return a certificate for this machine."""
    return make_certificate(tmp_path_factory.mktemp("certificate"))


@pytest.fixture(autouse=True)
def trusted(monkeypatch: pytest.MonkeyPatch, certificate: Certificate) -> None:
    """Let this machine trust the certificate."""
    monkeypatch.setenv("SSL_CERT_FILE", str(certificate.certificate))


def _files(book: Path) -> list[str]:
    """Return the folders in which .eml files lie, one entry a file."""
    return sorted(path.parent.name for path in (book / "records" / "outbox").rglob("*.eml"))


def test_by_default_nothing_leaves_the_machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Messages lie as files; no connection is made, no login is asked for; that is all right."""
    monkeypatch.setattr("socket.create_connection", lambda *_a, **_k: pytest.fail("a connection was made"))
    book = mail_book(tmp_path / "book")
    assert len(queue(book, "al", "jo")) == 2
    report = send_waiting(book, practice_of(book), edge())
    assert (report.held, report.waiting, report.is_good) == (Hold.NOT_SET_UP, 2, True)
    assert _files(book) == ["waiting", "waiting"]


def test_a_night_s_messages_go_once(tmp_path: Path, certificate: Certificate) -> None:
    """Filled twice and sent twice: each went once, with the date and the sender that the book has."""
    with MailServer(certificate.of_server()) as server:
        book = mail_book(tmp_path / "book", server.port)
        made_at = datetime.now(UTC)
        assert len(queue(book, "al", "jo", at=made_at)) == 2
        assert queue(book, "al", "jo", at=made_at) == ()
        first = send_waiting(book, practice_of(book), edge())
        assert (len(first.sent), first.is_good) == (2, True)
        assert queue(book, "al", "jo") == ()
        second = send_waiting(book, practice_of(book), edge())
        assert (second.sent, second.is_good) == ((), True)
    assert sorted(one.to for one in server.accepted) == ["al@farms.example", "jo@farms.example"]
    assert _files(book) == ["sent", "sent"]
    eml = server.accepted[0].eml
    assert header(eml, "From") == '"Small Soil Practice" <office@small.example>'
    assert header(eml, "Date").endswith("+1100") or header(eml, "Date").endswith("+1000")


def test_what_cannot_be_sent_is_told_at_once(tmp_path: Path) -> None:
    """As refused, among what was made."""
    book = mail_book(tmp_path / "book")
    (entry,) = queue(book, message("jo", "nowhere"))
    assert (entry.state, "no e-mail address" in entry.answer) == (State.REFUSED, True)
    assert _files(book) == []


def test_mail_that_fails_fails_nothing_else(tmp_path: Path, certificate: Certificate) -> None:
    """No server, a login that is not there, a damaged outbox, a full disk: a report, never a fault of the night."""
    with MailServer(certificate.of_server()) as server:
        pass
    book = mail_book(tmp_path / "book", server.port)
    queue(book, "al", "jo")
    practice = practice_of(book)
    report = send_waiting(book, practice, edge())
    assert (report.held, report.waiting, report.is_good) == (Hold.SERVER, 2, False)
    assert "cannot be reached" in report.fault
    assert set(states(book).values()) == {"waiting"}
    edit(book / "practice.yaml", "  host:", "  login: environment\n  host:")
    assert "SOILROTA_MAIL_USER" in send_waiting(book, practice_of(book), edge()).fault
    with pytest.MonkeyPatch.context() as patch:

        def full(*_arguments: object) -> None:
            raise sqlite3.OperationalError("database or disk is full")

        patch.setattr("soilrota.delivery.outbox.Outbox.find_cut_off", full)
        assert "disk is full" in send_waiting(book, practice, edge()).fault
    (book / "records" / "outbox" / "waiting").rename(book / "records" / "outbox" / "elsewhere")
    (book / "records" / "outbox" / "waiting").touch()
    report = send_waiting(book, practice, edge())
    assert report.waiting == 2
    (book / OUTBOX).write_bytes(b"no database")
    report = send_waiting(book, practice, edge())
    assert ("damaged" in report.fault, report.is_good) == (True, False)


def test_login_from_the_environment(tmp_path: Path, certificate: Certificate) -> None:
    """It reaches the server, and no file of the records holds it."""
    with MailServer(certificate.of_server(), login=("small", "s3cret-word")) as server:
        book = mail_book(tmp_path / "book", server.port, "  login: environment\n")
        queue(book, "al")
        there = {"SOILROTA_MAIL_USER": "small", "SOILROTA_MAIL_PASSWORD": "s3cret-word"}
        assert send_waiting(book, practice_of(book), edge(there)).is_good
        wrong = {**there, "SOILROTA_MAIL_PASSWORD": "other"}
        queue(book, "jo")
        assert "does not take the login" in send_waiting(book, practice_of(book), edge(wrong)).fault
    files = [path for path in book.rglob("*") if path.is_file()]
    assert not [path for path in files if b"s3cret-word" in path.read_bytes()]


@pytest.mark.parametrize("switch", ["file", "book"])
def test_the_stop_switch(tmp_path: Path, certificate: Certificate, switch: str) -> None:
    """Nothing is even connected to; taken away, mail goes."""
    with MailServer(certificate.of_server()) as server:
        book = mail_book(tmp_path / "book", server.port)
        queue(book, "al")
        stop = book / "records" / "stop-sending"
        if switch == "file":
            stop.touch()
        else:
            edit(book / "practice.yaml", "  host:", "  stopped: true\n  host:")
        report = send_waiting(book, practice_of(book), edge())
        assert (report.held, report.is_good, server.connections) == (Hold.STOPPED, False, 0)
        stop.unlink(missing_ok=True)
        if switch == "book":
            edit(book / "practice.yaml", "  stopped: true\n", "")
        assert len(send_waiting(book, practice_of(book), edge()).sent) == 1


def test_an_unsure_message_waits_for_a_person(tmp_path: Path, certificate: Certificate) -> None:
    """Listed every night, never sent by itself; forced, the copy is the same, Message-ID included."""
    hang_up = [True]
    script = lambda step, _to: Answer(hang_up="unanswered") if step == "message" and hang_up.pop() else None  # noqa: E731
    with MailServer(certificate.of_server(), script=script) as server:
        book = mail_book(tmp_path / "book", server.port)
        (entry,) = queue(book, "al")
        request = SendRequest(book, REQUEST_AT)
        for _ in range(3):
            report = send_alone(request, edge())
            assert ([one.id for one in report.unsure], report.is_good) == ([entry.id], False)
        assert len(server.accepted) == 1
        hang_up += [False]
        report = send_alone(replace(request, again=(entry.id,)), edge())
        assert (len(report.sent), report.is_good) == (1, True)
    first, second = server.accepted
    assert first == second
    assert header(first.eml, "Message-ID") == header(second.eml, "Message-ID") != ""


def test_a_person_knows_that_it_arrived(tmp_path: Path) -> None:
    """Then it is done."""
    book = mail_book(tmp_path / "book")
    (entry,) = queue(book, "al")
    with open_outbox(book / OUTBOX) as outbox:
        outbox.begin(entry, entry.made_at, entry.address)
    assert send_alone(SendRequest(book, REQUEST_AT), edge()).unsure[0].id == entry.id
    assert send_alone(SendRequest(book, REQUEST_AT, arrived=(entry.id,)), edge()).is_good
    assert states(book) == {"al": "sent"}


def test_words_of_a_person_that_fit_nothing(tmp_path: Path) -> None:
    """An id that is not there, a message that still waits, one that could never be sent: nothing is done."""
    book = mail_book(tmp_path / "book")
    waits, never = queue(book, "al", message("jo", "nowhere"))
    for words, said in (
        ({"again": ("0" * 16,)}, "there is no message"),
        ({"again": (waits.id,)}, "is waiting, not"),
        ({"arrived": (never.id,)}, "is refused, not unsure"),
        ({"again": (never.id,)}, "could never be sent"),
    ):
        with pytest.raises(CannotStartError, match=said):
            send_alone(SendRequest(book, REQUEST_AT, **words), edge())
    assert states(book) == {"al": "waiting", "jo": "refused"}


def test_one_at_a_time(tmp_path: Path) -> None:
    """Under the lock of the night."""
    book = mail_book(tmp_path / "book")
    with night_lock(book / "records" / "night.lock", "then"), pytest.raises(AnotherRunError):
        send_alone(SendRequest(book, REQUEST_AT), edge())


def test_no_book_and_a_book_with_errors(tmp_path: Path) -> None:
    """Nothing begins."""
    with pytest.raises(CannotStartError, match="not a book"):
        send_alone(SendRequest(tmp_path, REQUEST_AT), edge())
    book = mail_book(tmp_path / "book", more="  tls: none\n")
    with pytest.raises(CannotStartError, match="have errors"):
        send_alone(SendRequest(book, REQUEST_AT), edge())
    with pytest.raises(CannotStartError, match="have errors"):
        list(preview_waiting(book, edge()))


def test_a_preview_changes_nothing(tmp_path: Path, certificate: Certificate) -> None:
    """What would go, and what is unsure, in lines; the same before and after."""
    with MailServer(certificate.of_server()) as server:
        book = mail_book(tmp_path / "book", server.port, "  test_address: trial@small.example\n")
        assert list(preview_waiting(book, edge())) == ["Nothing waits: no message was ever made"]
        first, _ = queue(book, "al", "jo")
        with open_outbox(book / OUTBOX) as outbox:
            outbox.begin(first, first.made_at, first.address)
        before = states(book)
        lines = list(preview_waiting(book, edge()))
        assert states(book) == before
        assert server.connections == 0
    assert lines[-1] == "1 due of 1 that wait: would be sent now, all to trial@small.example"
    assert sum(line.endswith(": sending") for line in lines) == 1
    assert "  | Sample now." in lines


def test_who_messages_come_from(tmp_path: Path) -> None:
    """The book's address; else the office's, else an adviser's; else one that no server takes."""
    practice = practice_of(mail_book(tmp_path / "book"))
    assert sender_of(practice).address == "office@small.example"
    plain = practice_of(write_book(tmp_path / "plain"))
    assert sender_of(plain).address == "nobody@practice.invalid"
    people = [
        Person("ann", "Ann", "adviser", "ann@small.example", "", Place("practice.yaml")),
        Person("ivo", "Ivo", "office", "desk@small.example", "", Place("practice.yaml")),
    ]
    assert sender_of(replace(plain, people={"ann": people[0]})).address == "ann@small.example"
    assert sender_of(replace(plain, people={one.id: one for one in people})).address == "desk@small.example"


def test_old_messages_are_given_up_when_a_server_is_set(tmp_path: Path, certificate: Certificate) -> None:
    """A book that kept its mail on disk for months does not pour it out."""
    with MailServer(certificate.of_server()) as server:
        book = mail_book(tmp_path / "book", server.port)
        queue(book, "al", at=datetime.now(UTC) - timedelta(days=60))
        report = send_waiting(book, practice_of(book), edge())
    assert (len(report.given_up), server.accepted) == (1, [])
    assert _files(book) == ["not-sent"]


def test_an_outbox_that_cannot_be_written_is_a_fault_of_filling(tmp_path: Path) -> None:
    """Whoever fills it must know that nothing was kept."""
    from soilrota.delivery.faults import OutboxUnfitError

    book = mail_book(tmp_path / "book")
    (book / OUTBOX).write_bytes(b"no database")
    with pytest.raises(OutboxUnfitError, match="damaged"):
        queue_messages(book, practice_of(book), [message()], datetime.now(UTC))
