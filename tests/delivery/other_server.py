"""A mail server that others wrote (aiosmtpd), with TLS and login, and with the ill manners that servers have."""

from __future__ import annotations

import asyncio
import socket
import ssl
from collections import Counter
from dataclasses import dataclass, field
from types import TracebackType
from typing import Any, Self

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import SMTP, AuthResult, Envelope, LoginPassword, Session

from tests.delivery.smtp_server import Accepted

USER, PASSWORD = "small", "corr-ect horse"
#: Longer than a test waits for an answer [s].
_STALL_S = 30.0


@dataclass
class Manners:
    """How the server treats some addresses; all others are served well.

    Attributes:
        not_now: how often each is answered 4xx before it is taken, by address.
        never: those answered 5xx.
        late_refused: those whose message is answered 5xx once it is there.
        stalls_at_name: those whose name is never answered.
        stalls_at_end: those whose message is kept, and never answered.
        drops: how often the line is cut while a message is on its way [-].
    """

    not_now: Counter[str] = field(default_factory=Counter)
    never: frozenset[str] = frozenset()
    late_refused: frozenset[str] = frozenset()
    stalls_at_name: set[str] = field(default_factory=set)
    stalls_at_end: frozenset[str] = frozenset()
    drops: int = 0


class OtherServer:
    """Listens while it is open as a context; keeps what it took, or was about to, and who logged in."""

    def __init__(self, context: ssl.SSLContext, manners: Manners | None = None, *, implicit: bool = False) -> None:
        self.manners = manners or Manners()
        self.taken: list[Accepted] = []
        self.logins: list[str] = []
        self.asked: Counter[str] = Counter()
        self.dropped = 0
        self.open: set[asyncio.Transport] = set()
        self.port = _free_port()
        how: dict[str, Any] = (
            {"ssl_context": context, "auth_require_tls": False}
            if implicit
            else {"tls_context": context, "require_starttls": True, "auth_required": True}
        )
        self._controller = _Controller(
            self, hostname="127.0.0.1", port=self.port, authenticator=self._authenticate, server_hostname="here", **how
        )
        self._controller.owner = self

    def __enter__(self) -> Self:
        """Listen."""
        self._controller.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Hang up on everybody and stop."""
        asyncio.run_coroutine_threadsafe(self._hang_up(), self._controller.loop).result(10)
        self._controller.stop()

    async def _hang_up(self) -> None:
        for transport in tuple(self.open):
            transport.abort()
        await asyncio.sleep(0.05)

    def _authenticate(self, _server: SMTP, _session: Session, _envelope: Envelope, _how: str, data: Any) -> AuthResult:
        """Check user and password."""
        assert isinstance(data, LoginPassword)
        is_right = (data.login.decode(), data.password.decode()) == (USER, PASSWORD)
        self.logins += [data.login.decode()] * is_right
        return AuthResult(success=is_right, handled=False)

    async def handle_RCPT(  # noqa: N802 - the server looks for this name
        self, _server: SMTP, _session: Session, envelope: Envelope, address: str, _options: list[str]
    ) -> str:
        """Answer to whom a message is for."""
        self.asked[address] += 1
        if address in self.manners.stalls_at_name:
            self.manners.stalls_at_name.remove(address)
            await asyncio.sleep(_STALL_S)
        if address in self.manners.never:
            return "550 5.1.1 no such person"
        if self.manners.not_now[address] > 0:
            self.manners.not_now[address] -= 1
            return "451 4.7.1 come back later"
        envelope.rcpt_tos.append(address)
        return "250 fine"

    async def handle_DATA(self, _server: SMTP, _session: Session, envelope: Envelope) -> str:  # noqa: N802 - as above
        """Take a message."""
        (to,) = envelope.rcpt_tos
        if to in self.manners.late_refused:
            return "554 5.7.1 not this one"
        assert isinstance(envelope.original_content, bytes)
        self.taken.append(Accepted(str(envelope.mail_from), to, envelope.original_content))
        if to in self.manners.stalls_at_end:
            await asyncio.sleep(_STALL_S)
        return "250 2.0.0 taken"


class _Controller(Controller):
    """Makes servers that may cut the line."""

    owner: OtherServer

    def factory(self) -> SMTP:
        """Return what serves one connection."""
        return _Server(self.owner, **self.SMTP_kwargs)


class _Server(SMTP):
    """Serves one connection; cuts it in the middle of a message where that is asked for."""

    def connection_made(self, transport: Any) -> None:
        """Remember the line, to cut it at the end."""
        super().connection_made(transport)
        self.event_handler.open.add(self.transport)

    async def smtp_DATA(self, arg: str) -> None:  # noqa: N802 - the server looks for this name
        """Read a message, or half of one."""
        owner = self.event_handler
        if owner.dropped >= owner.manners.drops:
            await super().smtp_DATA(arg)
            return
        owner.dropped += 1
        await self.push("354 go on")
        await self._reader.readexactly(1000)
        self.transport.abort()


def _free_port() -> int:
    """Return a port on which nobody listens: the server cannot choose one itself."""
    with socket.create_server(("127.0.0.1", 0)) as found:
        port: int = found.getsockname()[1]
    return port
