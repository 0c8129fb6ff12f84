"""Mail: a server needs a sender, a login needs a server, quiet hours leave time to send."""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.book.parts import SharedParts
from soilrota.model.mail import LoginFrom
from soilrota.problems import Problem, error


def mail_has_a_sender(parts: SharedParts) -> Iterator[Problem]:
    """Where a server is named, so is the address that messages come from."""
    mail = parts.practice.value.mail
    if mail.host and not mail.from_address:
        mend = "add from_address, or take host out to keep mail in the outbox on disk"
        found = "a mail server, and no address that messages come from"
        yield error("mail-without-sender", parts.practice.at("mail", "host"), found, "from_address beside host", mend)


def mail_login_has_a_server(parts: SharedParts) -> Iterator[Problem]:
    """A login is for a server."""
    mail = parts.practice.value.mail
    if mail.login is not LoginFrom.NONE and not mail.host:
        place, found = parts.practice.at("mail", "login"), "a login, and no mail server to log in to"
        yield error("mail-login-without-server", place, found, "host beside login", "add host, or take login out")


def quiet_hours_leave_time(parts: SharedParts) -> Iterator[Problem]:
    """Quiet hours end at another time than they begin: the same would be none or all day, and nobody could tell."""
    quiet = parts.practice.value.mail.quiet_hours
    if quiet is not None and quiet.begin == quiet.end:
        mend = "correct one of them; to stop sending, write 'stopped: true' instead"
        found = f"quiet hours that begin and end at {quiet.begin:%H:%M}"
        yield error("quiet-hours-empty", parts.practice.at("mail", "quiet_hours"), found, "two times", mend)


def test_address_is_ascii(parts: SharedParts) -> Iterator[Problem]:
    """The address of test mode is one that every server takes, whoever the messages are for."""
    address = parts.practice.value.mail.test_address
    if not address.isascii():
        place, found = parts.practice.at("mail", "test_address"), f"{address}, which not every server takes"
        yield error("bad-test-address", place, found, "ASCII characters", "take another address for tests")


def sender_can_be_written(parts: SharedParts) -> Iterator[Problem]:
    """The sender's name holds nothing that a mail program would read as an encoded word (RFC 2047)."""
    if "=?" in parts.practice.value.mail.from_name:
        place = parts.practice.at("mail", "from_name")
        yield error("bad-sender-name", place, "'=?' in the sender's name", "a plain name", "take '=?' out")
