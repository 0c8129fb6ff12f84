"""How a practice sends, from its file."""

from __future__ import annotations

from datetime import time

import pytest

from soilrota.book.mail import build_mail
from soilrota.model.mail import LoginFrom, Mail, QuietHours, Tls
from tests.book.small_book import Book


def test_nothing_leaves_the_machine_by_default() -> None:
    """A book that says nothing of mail has no server."""
    assert build_mail({}) == Mail()
    assert Mail().host == ""


@pytest.mark.parametrize(("tls", "port"), [({}, 587), ({"tls": "starttls"}, 587), ({"tls": "implicit"}, 465)])
def test_the_port_follows_from_tls(tls: dict[str, str], port: int) -> None:
    """Where it is not written."""
    assert build_mail({"mail": tls}).port == port
    assert build_mail({"mail": {**tls, "port": 2525}}).port == 2525


def test_all_that_can_be_said(book: Book) -> None:
    """As it is written in practice.yaml."""
    book.add(
        "practice.yaml",
        """\
mail:
  host: mail.two-rivers.example
  port: 2525
  tls: implicit
  from_name: Two Rivers
  from_address: office@two-rivers.example
  login: file
  cap: 40
  quiet_hours: {begin: "21:00", end: "06:30"}
  test_address: trial@two-rivers.example
  stopped: true
  unsubscribe: "mailto:no-more@two-rivers.example"
""",
    )
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert shared.practice.mail == Mail(
        host="mail.two-rivers.example",
        port=2525,
        tls=Tls.IMPLICIT,
        from_name="Two Rivers",
        from_address="office@two-rivers.example",
        login=LoginFrom.FILE,
        cap=40,
        quiet_hours=QuietHours(time(21), time(6, 30)),
        test_address="trial@two-rivers.example",
        stopped=True,
        unsubscribe="mailto:no-more@two-rivers.example",
    )


@pytest.mark.parametrize(
    "line",
    [
        "password: secret",
        "host: mail.example/evil",
        "tls: none",
        "from_address: 'a@b.example, c@d.example'",
        'quiet_hours: {begin: "24:00", end: "06:00"}',
        "unsubscribe: 'mailto:a@b.example, mailto:c@d.example'",
        "cap: 0",
        "port: 70000",
    ],
)
def test_what_the_schema_refuses(book: Book, line: str) -> None:
    """At its line; a password has no place in a book at all."""
    book.add("practice.yaml", f"mail:\n  {line}\n")
    problem = book.only(shared=True)
    assert problem.place.line == book.line("practice.yaml", line)
