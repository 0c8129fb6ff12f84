"""A line to the mail server: TLS with a checked certificate, login, and one message after the other over it.

The window in which a message may be sent twice is kept as small as the protocol allows: `before_last` is called when
all but the last byte is sent, and until the server has that byte, it has taken nothing (RFC 5321, 4.1.1.4).
"""

from __future__ import annotations

import re
import smtplib
import socket
import ssl
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from types import TracebackType
from typing import Self

from soilrota.delivery.faults import LoginError, ServerError
from soilrota.delivery.login import Login
from soilrota.delivery.values import Entry, Outcome, State
from soilrota.model.mail import Mail, Tls

#: How we name ourselves: an address literal tells nobody the name of the machine (RFC 5321, 4.1.4).
_OURSELVES = "[127.0.0.1]"
_DOT_FIRST = re.compile(rb"^\.", re.MULTILINE)
_LONGEST_ANSWER = 300
_CLOSING = 421
#: Answers that ask for a login, whatever command they are given to (RFC 4954, 6).
_WANTS_LOGIN = frozenset({530, 534, 535, 538})
_TOO_LARGE = 552
_GO_ON = 354


@dataclass(frozen=True, slots=True)
class Patience:
    """How long an answer may take (RFC 5321, 4.5.3.2).

    Attributes:
        step_s: to any step [s].
        last_s: to the last byte of a message, when the server has most to do [s].
    """

    step_s: float = 60.0
    last_s: float = 600.0


class Line:
    """A line to the mail server, opened when it is needed and used for many messages; closed as a context."""

    def __init__(
        self, mail: Mail, login: Login | None, context: ssl.SSLContext | None = None, patience: Patience | None = None
    ) -> None:
        """Remember where to connect to.

        Args:
            mail: server, port, TLS.
            login: user and password; None where the server wants none.
            context: how certificates are checked; None for the machine's own authorities.
            patience: how long to wait for answers; None for what the protocol recommends.
        """
        self._mail = mail
        self._login = login
        self._context = context or ssl.create_default_context()
        self._patience = patience or Patience()
        self._server: smtplib.SMTP | None = None

    def __enter__(self) -> Self:
        """Begin without a connection."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Take leave of the server."""
        if self._server is not None and fault is None:
            with suppress(smtplib.SMTPException, OSError):
                self._server.quit()
        self._drop()

    def open(self) -> bool:
        """Connect where there is no connection, and return whether it is a new one.

        Raises:
            ServerError: the server cannot be reached, is not who it says, or is not ready.
            LoginError: it does not take the login.
        """
        if self._server is not None:
            return False
        try:
            self._server = self._connected()
            if (
                self._server.sock is not None
            ):  # the last byte is sent alone, and must not wait for the answer to the others
                self._server.sock.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._secure(self._server)
            self._log_in(self._server)
        except BaseException:
            self._drop()
            raise
        return True

    def send(self, entry: Entry, eml: bytes, to: str, before_last: Callable[[], None]) -> Outcome:
        """Send one message over the open line, and return what became of it.

        Args:
            entry: the message.
            eml: its bytes, with CRLF line ends.
            to: where it really goes.
            before_last: called when all but the last byte is sent; where it raises, the server takes nothing.
        """
        server = self._server
        if server is None:
            raise ServerError("there is no connection to the mail server")
        options, unfit = _options(server, entry, len(eml))
        if unfit:
            return Outcome(State.REFUSED, unfit)
        try:
            stopped = self._envelope(server, entry.sender, to, options)
            if stopped is not None:
                return stopped
            server.send(_DOT_FIRST.sub(b"..", eml))
            if self._has_hung_up(server):
                raise smtplib.SMTPServerDisconnected("it hung up before the last byte")
        except (smtplib.SMTPException, OSError) as fault:
            self._drop()
            return Outcome(
                State.PUT_OFF, f"the line to the mail server broke: {_words(fault)}", broke=True, is_servers=True
            )
        try:
            before_last()
        except BaseException:
            self._drop()
            raise
        return self._last(server)

    def _envelope(self, server: smtplib.SMTP, sender: str, to: str, options: list[str]) -> Outcome | None:
        """Name sender and recipient and ask to send; return why it stops, or None where the server says to go on."""
        code, answer = server.mail(sender, options)
        if not _is_yes(code):
            is_servers = code != _TOO_LARGE
            return self._stopped(server, code, answer, "takes no mail from us", is_servers=is_servers)
        code, answer = server.rcpt(to)
        if not _is_yes(code):
            return self._stopped(server, code, answer, f"does not take {to}", is_servers=code in _WANTS_LOGIN)
        code, answer = server.docmd("DATA")
        if code != _GO_ON:
            return self._stopped(server, code, answer, "does not take the message", is_servers=False)
        return None

    def _stopped(self, server: smtplib.SMTP, code: int, answer: bytes, what: str, *, is_servers: bool) -> Outcome:
        """Return the outcome of a refused step; the line is made ready for the next message, or dropped."""
        words = f"the mail server {what}: {code} {_words(answer)}"
        is_servers = is_servers or code == _CLOSING
        is_broken = code == _CLOSING
        if not is_broken:
            try:
                is_broken = not _is_yes(server.rset()[0])
            except (smtplib.SMTPException, OSError):
                is_broken = True
        if is_broken:
            self._drop()
        for_good = code >= 500 and not is_servers  # noqa: PLR2004 - RFC 5321, 4.2.1
        return Outcome(State.REFUSED if for_good else State.PUT_OFF, words, is_broken, is_servers)

    def _has_hung_up(self, server: smtplib.SMTP) -> bool:
        """Return whether the server hung up, or spoke out of turn, while it was to listen; nothing is waited for."""
        sock = server.sock
        if sock is None:
            return True
        sock.settimeout(0)
        try:
            sock.recv(1)
        except (ssl.SSLWantReadError, BlockingIOError):
            return False
        except OSError:
            return True
        else:
            return True
        finally:
            sock.settimeout(self._patience.step_s)

    def _last(self, server: smtplib.SMTP) -> Outcome:
        """Send the last byte, and return what the server makes of the message; without an answer nobody knows."""
        try:
            if server.sock is not None:
                server.sock.settimeout(self._patience.last_s)
            server.send(b".\r\n")
            code, answer = server.getreply()
            if server.sock is not None:
                server.sock.settimeout(self._patience.step_s)
        except (smtplib.SMTPException, OSError) as fault:
            self._drop()
            words = f"the whole message was sent, and no answer came: {_words(fault)}"
            return Outcome(State.UNSURE, words, broke=True, is_servers=True)
        if _is_yes(code):
            return Outcome(State.SENT, f"{code} {_words(answer)}")
        return self._stopped(server, code, answer, "does not take the message", is_servers=False)

    def _connected(self) -> smtplib.SMTP:
        """Return a new connection; with implicit TLS it is checked already."""
        mail, wait = self._mail, self._patience.step_s
        try:
            if mail.tls is Tls.IMPLICIT:
                return smtplib.SMTP_SSL(mail.host, mail.port, _OURSELVES, timeout=wait, context=self._context)
            return smtplib.SMTP(mail.host, mail.port, _OURSELVES, timeout=wait)
        except ssl.SSLError as fault:
            raise ServerError(self._of_tls(fault)) from fault
        except (smtplib.SMTPException, OSError) as fault:
            raise ServerError(f"the mail server {self._name()} cannot be reached: {_words(fault)}") from fault

    def _secure(self, server: smtplib.SMTP) -> None:
        """Begin TLS where it has not begun; never go on without."""
        try:
            server.ehlo_or_helo_if_needed()
            if self._mail.tls is Tls.STARTTLS:
                if not server.has_extn("starttls"):
                    words = "offers no TLS (STARTTLS), and nothing is sent without it; is 'tls: implicit' right?"
                    raise ServerError(f"the mail server {self._name()} {words}")
                server.starttls(context=self._context)
                server.ehlo()
        except ssl.SSLError as fault:
            raise ServerError(self._of_tls(fault)) from fault
        except (smtplib.SMTPException, OSError) as fault:
            raise ServerError(f"the mail server {self._name()} is not ready: {_words(fault)}") from fault

    def _log_in(self, server: smtplib.SMTP) -> None:
        """Log in where there is a login."""
        if self._login is None:
            return
        try:
            server.login(self._login.user, self._login.password)
        except smtplib.SMTPNotSupportedError as fault:
            raise LoginError(f"the mail server {self._name()} takes no login; write 'login: none'") from fault
        except UnicodeEncodeError as fault:
            raise LoginError("user and password of the mail server may hold ASCII characters only") from fault
        except smtplib.SMTPAuthenticationError as fault:
            raise LoginError(f"the mail server {self._name()} does not take the login: {_words(fault)}") from fault
        except (smtplib.SMTPException, OSError) as fault:
            raise ServerError(f"the mail server {self._name()} broke off at the login: {_words(fault)}") from fault

    def _name(self) -> str:
        """Return how the server is named in words."""
        return f"{self._mail.host} (port {self._mail.port})"

    def _of_tls(self, fault: ssl.SSLError) -> str:
        """Return in words why TLS did not begin."""
        if isinstance(fault, ssl.SSLCertVerificationError):
            return f"the certificate of the mail server {self._name()} cannot be trusted: {fault.verify_message}"
        return f"TLS with the mail server {self._name()} does not begin: {fault.reason or fault}; is its kind right?"

    def _drop(self) -> None:
        """Forget the connection."""
        if self._server is not None:
            self._server.close()
            self._server = None


def _options(server: smtplib.SMTP, entry: Entry, size: int) -> tuple[list[str], str]:
    """Return what is asked of the server beside the sender, or why it cannot take a message.

    Args:
        server: the server, which has said what it offers.
        entry: the message.
        size: its size [B].
    """
    options = []
    if entry.needs_utf8:
        if not server.has_extn("smtputf8"):
            return [], f"the mail server takes no addresses such as {entry.address} (SMTPUTF8)"
        options += ["SMTPUTF8", "BODY=8BITMIME"]
    if server.has_extn("size"):
        most = server.esmtp_features["size"]
        if most.isascii() and most.isdecimal() and 0 < int(most) < size:
            return [], f"the message has {size} bytes, and the mail server takes {most} at the most"
        options.append(f"SIZE={size}")
    return options, ""


def _is_yes(code: int) -> bool:
    """Return whether an answer says that it is done (RFC 5321, 4.2.1)."""
    return 200 <= code < 300  # noqa: PLR2004 - as it says


def _words(said: bytes | Exception) -> str:
    """Return what a server or the machine said, on one short line."""
    if isinstance(said, smtplib.SMTPResponseException):
        text = f"{said.smtp_code} {_decoded(said.smtp_error)}"
    elif isinstance(said, bytes):
        text = _decoded(said)
    else:
        text = getattr(said, "strerror", None) or str(said) or type(said).__name__
    printable = "".join(letter if letter.isprintable() else " " for letter in str(text))
    return " ".join(printable.split())[:_LONGEST_ANSWER]


def _decoded(said: bytes | str) -> str:
    """Return text that a server sent."""
    return said.decode("utf-8", "replace") if isinstance(said, bytes) else said
