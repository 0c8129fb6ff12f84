"""A real mail server on loopback: TLS, login, and a script that refuses, stalls or hangs up at any step.

What it accepted is kept as it came, dots taken out. Each connection is served by a thread of its own.
"""

from __future__ import annotations

import base64
import re
import socket
import ssl
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from types import TracebackType
from typing import Self

#: Steps at which a script is asked; `accepted` is the moment after the answer to the whole message was sent.
STEPS = ("connect", "ehlo", "starttls", "auth", "mail", "rcpt", "data", "message", "accepted")
_ADDRESS = re.compile(r"<([^<>]*)>")


@dataclass(frozen=True)
class Accepted:
    """A message that the server said yes to."""

    sender: str
    to: str
    eml: bytes


@dataclass(frozen=True)
class Answer:
    """What a script wants.

    Attributes:
        text: another answer; empty for the ordinary one.
        wait_s: a wait before the answer [s].
        hang_up: `before` the step is done, after it is done but `unanswered`, or `after` the answer; empty for not.
    """

    text: str = ""
    wait_s: float = 0.0
    hang_up: str = ""


#: Asked at each step with its name and its argument (an address, or nothing); None for the ordinary answer.
Script = Callable[[str, str], Answer | None]


@dataclass
class MailServer:
    """A mail server; as a context it listens."""

    context: ssl.SSLContext | None
    implicit: bool = False
    script: Script = lambda _step, _argument: None
    login: tuple[str, str] | None = None
    offers: tuple[str, ...] = ("SIZE 1000000", "8BITMIME", "SMTPUTF8")
    accepted: list[Accepted] = field(default_factory=list)
    asked: list[tuple[str, str]] = field(default_factory=list)
    connections: int = 0
    #: A message that came whole is kept before the answer is sent: what a crash must not double.
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def __enter__(self) -> Self:
        """Listen on a free port."""
        self._listening = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listening.getsockname()[1]
        self._threads: list[threading.Thread] = []
        self._open: list[socket.socket] = []
        self._main = threading.Thread(target=self._listen)
        self._main.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Hang up on everybody."""
        with suppress(OSError):
            self._listening.shutdown(socket.SHUT_RDWR)
        self._listening.close()
        self._main.join()
        with self._lock:
            for one in self._open:
                with suppress(OSError):
                    one.shutdown(socket.SHUT_RDWR)
        for thread in self._threads:
            thread.join()

    def received_by(self, address: str) -> list[Accepted]:
        """Return what was accepted for an address."""
        return [one for one in self.accepted if one.to == address]

    def _listen(self) -> None:
        """Serve each connection in a thread."""
        while True:
            try:
                connection, _ = self._listening.accept()
            except OSError:
                return
            self.connections += 1
            thread = threading.Thread(target=self._serve, args=(connection,))
            with self._lock:
                self._open.append(connection)
                self._threads.append(thread)
            thread.start()

    def _serve(self, connection: socket.socket) -> None:
        """Serve one connection until it ends."""
        session = _Session(self, connection)
        try:
            if self.implicit:
                session.secure()
            session.serve()
        except (OSError, ValueError, _HungUpError):
            pass
        finally:
            session.close()


class _HungUpError(Exception):
    """The script wants the line cut."""


class _Session:
    """One connection."""

    def __init__(self, server: MailServer, connection: socket.socket) -> None:
        self._server = server
        self._socket = connection
        self._file = connection.makefile("rb")
        self._secure = self._is_known = False
        self._sender = self._to = ""

    def secure(self) -> None:
        """Begin TLS."""
        assert self._server.context is not None
        self._file.close()
        with self._server._lock:
            self._server._open.remove(self._socket)
            self._socket = self._server.context.wrap_socket(
                self._socket, server_side=True, do_handshake_on_connect=False
            )
            self._server._open.append(self._socket)
        self._socket.do_handshake()
        self._file = self._socket.makefile("rb")
        self._secure = True

    def close(self) -> None:
        """Cut the line."""
        self._file.close()
        with suppress(OSError):
            self._socket.shutdown(socket.SHUT_RDWR)
        with self._server._lock:
            self._server._open.remove(self._socket)
        self._socket.close()

    def serve(self) -> None:
        """Answer commands."""
        self._answer("connect", "", "220 ready")
        while line := self._file.readline(2000):
            words = line.decode().rstrip("\r\n")
            verb = words.split(" ")[0].upper()
            if verb == "QUIT":
                self._write("221 bye")
                return
            getattr(self, f"_do_{verb.lower()}", self._unknown)(words)

    def _do_ehlo(self, _words: str) -> None:
        offers = list(self._server.offers)
        if self._server.context is not None and not self._secure and not self._server.implicit:
            offers.append("STARTTLS")
        if self._server.login is not None and self._secure:
            offers.append("AUTH PLAIN")
        lines = ["localhost", *offers]
        marks = ["-"] * (len(lines) - 1) + [" "]
        self._answer("ehlo", "", "\r\n".join(f"250{mark}{line}" for mark, line in zip(marks, lines, strict=True)))

    def _do_starttls(self, _words: str) -> None:
        if self._answer("starttls", "", "220 go on"):
            self.secure()

    def _do_auth(self, words: str) -> None:
        _, user, password = base64.b64decode(words.split(" ")[2]).decode().split("\0")
        right = (user, password) == self._server.login
        self._is_known = self._answer("auth", user, "235 welcome" if right else "535 5.7.8 no such user or password")

    def _do_mail(self, words: str) -> None:
        if self._server.login is not None and not self._is_known:
            self._write("530 5.7.0 log in first")
            return
        self._sender = _ADDRESS.findall(words)[0]
        self._answer("mail", self._sender, "250 fine")

    def _do_rcpt(self, words: str) -> None:
        to = _ADDRESS.findall(words)[0]
        if self._answer("rcpt", to, "250 fine"):
            self._to = to

    def _do_rset(self, _words: str) -> None:
        self._sender = self._to = ""
        self._write("250 forgotten")

    def _do_data(self, _words: str) -> None:
        if not self._answer("data", self._to, "354 go on"):
            return
        lines = []
        while (line := self._file.readline()) != b".\r\n":
            if not line.endswith(b"\r\n"):
                return
            lines.append(line[1:] if line.startswith(b".") else line)
        message = Accepted(self._sender, self._to, b"".join(lines))
        if self._answer("message", self._to, "250 2.0.0 taken", before=lambda: self._server.accepted.append(message)):
            self._server.script("accepted", message.to)

    def _unknown(self, words: str) -> None:
        self._write(f"500 what is {words[:10]}")

    def _answer(self, step: str, argument: str, usual: str, before: Callable[[], None] = lambda: None) -> bool:
        """Answer a step as the script wants, and return whether the answer was a yes; do `before` where it is one."""
        self._server.asked.append((step, argument))
        wanted = self._server.script(step, argument) or Answer()
        text = wanted.text or usual
        if text[0] in "23" and wanted.hang_up != "before":
            before()
        time.sleep(wanted.wait_s)
        if wanted.hang_up in ("before", "unanswered"):
            raise _HungUpError
        self._write(text)
        if wanted.hang_up:
            raise _HungUpError
        return text[0] in "23"

    def _write(self, text: str) -> None:
        """Send an answer."""
        self._socket.sendall(f"{text}\r\n".encode())
