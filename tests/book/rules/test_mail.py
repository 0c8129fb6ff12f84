"""Mail that could not be sent as it is written."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book


@pytest.mark.parametrize(
    ("lines", "code", "at"),
    [
        ("  host: mail.two-rivers.example\n", "mail-without-sender", "host:"),
        ("  login: environment\n", "mail-login-without-server", "login:"),
        ('  quiet_hours: {begin: "06:00", end: "06:00"}\n', "quiet-hours-empty", "quiet_hours:"),
        ("  test_address: jörg@two-rivers.example\n", "bad-test-address", "test_address:"),
        ('  from_name: "A =?UTF-8?Q?=0A?=Bcc: x"\n', "bad-sender-name", "from_name:"),
    ],
)
def test_mail_that_cannot_be_meant(book: Book, lines: str, code: str, at: str) -> None:
    """Each at its line, with the mend."""
    book.add("practice.yaml", f"mail:\n{lines}")
    problem = book.only(shared=True)
    assert (problem.code, problem.place.line) == (code, book.line("practice.yaml", at))


def test_mail_that_is_right(book: Book) -> None:
    """A server with a sender; a sender alone, for the outbox on disk."""
    book.add("practice.yaml", "mail:\n  from_address: office@two-rivers.example\n")
    assert book.shared_problems() == ()
    book.add("practice.yaml", "  host: mail.two-rivers.example\n  login: environment\n")
    assert book.shared_problems() == ()
