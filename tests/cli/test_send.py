"""`soilrota send` on the command line."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest

from soilrota.batch.lock import night_lock
from soilrota.batch.sending import OUTBOX
from soilrota.cli import main
from soilrota.delivery.outbox import open_outbox
from tests.batch.mail_book import mail_book, queue, states
from tests.delivery.certificates import Certificate, make_certificate
from tests.delivery.smtp_server import Answer, MailServer


@pytest.fixture(scope="module")
def certificate(tmp_path_factory: pytest.TempPathFactory) -> Certificate:
    """Return a certificate for this machine."""
    return make_certificate(tmp_path_factory.mktemp("certificate"))


def test_a_book_without_a_server(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 0: nothing was meant to leave; it says so, and where the messages lie can be seen."""
    book = mail_book(tmp_path / "book")
    queue(book, "al", "jo")
    assert main(["send", str(book)]) == 0
    out, err = capsys.readouterr()
    assert "nothing sent; 2 wait\n2 not tried: no mail server is set in practice.yaml" in out
    assert err == ""
    assert len(list((book / "records" / "outbox" / "waiting").iterdir())) == 2


def test_sent_refused_and_exit_codes(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, certificate: Certificate
) -> None:
    """0 where all went, 1 where one was refused, with its id and what the server said."""
    monkeypatch.setenv("SSL_CERT_FILE", str(certificate.certificate))
    script = lambda step, to: Answer("550 5.1.1 no such user") if (step, to[:3]) == ("rcpt", "bad") else None  # noqa: E731
    with MailServer(certificate.of_server(), script=script) as server:
        book = mail_book(tmp_path / "book", server.port)
        queue(book, "al")
        assert main(["send", str(book)]) == 0
        assert capsys.readouterr().out == "1 sent; 0 wait\n"
        (bad,) = queue(book, "bad")
        assert main(["send", str(book)]) == 1
        out = capsys.readouterr().out
        assert f"{bad.id} to bad@farms.example" in out
        assert "550 5.1.1 no such user" in out
        assert "1 refused; 0 wait" in out
        assert main(["send", str(book)]) == 0
    assert len(server.accepted) == 1


def test_a_server_that_is_down(tmp_path: Path, capsys: pytest.CaptureFixture[str], certificate: Certificate) -> None:
    """Exit code 1, the reason on standard error, everything still waits."""
    with MailServer(certificate.of_server()) as server:
        pass
    book = mail_book(tmp_path / "book", server.port)
    queue(book, "al", "jo")
    assert main(["send", str(book)]) == 1
    out, err = capsys.readouterr()
    assert "2 not tried: the mail server takes nothing" in out
    assert "cannot be reached" in err
    assert set(states(book).values()) == {"waiting"}


def test_unsure_then_again_or_arrived(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 1 until a person says what became of it."""
    book = mail_book(tmp_path / "book")
    one, two = queue(book, "al", "jo")
    with open_outbox(book / OUTBOX) as outbox:
        for entry in (one, two):
            outbox.begin(entry, datetime.now(UTC), entry.address)
    assert main(["send", str(book)]) == 1
    assert f"--arrived {one.id}" in capsys.readouterr().out
    assert main(["send", str(book), "--arrived", one.id, "--again", two.id]) == 0
    assert states(book) == {"al": "sent", "jo": "waiting"}
    assert main(["send", str(book), "--again", "no-such-id"]) == 2
    assert "there is no message no-such-id" in capsys.readouterr().err


def test_dry_run_prints_and_sends_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Readable, without the lock, so that it can be asked while a night is at work."""
    book = mail_book(tmp_path / "book")
    queue(book, "al")
    with night_lock(book / "records" / "night.lock", "then"):
        assert main(["send", str(book), "--dry-run"]) == 0
        assert main(["send", str(book)]) == 3
    out = capsys.readouterr().out
    assert "to al@farms.example, Home: sample before Friday, al" in out
    assert "would not be sent now (not-set-up)" in out
    assert states(book) == {"al": "waiting"}


def test_no_book(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Exit code 2."""
    assert main(["send", str(tmp_path)]) == 2
    assert "not a book" in capsys.readouterr().err
