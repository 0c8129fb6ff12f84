"""How a practice sends its mail: server, sender, and what holds mail back."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time
from enum import StrEnum

#: Port of a server for the submission of mail, by how TLS begins (RFC 6409, RFC 8314).
PORTS = {"starttls": 587, "implicit": 465}


class Tls(StrEnum):
    """How TLS begins: asked for on an open line, or from the first byte. There is no way to send without it."""

    STARTTLS = "starttls"
    IMPLICIT = "implicit"


class LoginFrom(StrEnum):
    """Where user and password of the server come from; never the book."""

    NONE = "none"
    ENVIRONMENT = "environment"
    FILE = "file"


@dataclass(frozen=True, slots=True)
class QuietHours:
    """Hours of the practice's day in which nothing is sent, the end left out; may lie over midnight."""

    begin: time
    end: time


@dataclass(frozen=True, slots=True)
class Mail:
    """How the practice sends; as it stands here, nothing leaves the machine.

    Attributes:
        host: name of the server that takes the practice's mail; empty where mail stays in the outbox on disk.
        port: its port [-].
        tls: how TLS begins.
        from_name, from_address: who messages come from; the practice's name where the first is empty.
        login: where user and password come from.
        cap: most messages sent in a night [-].
        quiet_hours: hours without sending; None for none.
        test_address: everything is sent to this address alone; empty for the real ones.
        stopped: whether nothing is to be sent for now.
        unsubscribe: where recipients write to get no more, a `mailto:` address; may be empty.
    """

    host: str = ""
    port: int = PORTS["starttls"]
    tls: Tls = Tls.STARTTLS
    from_name: str = ""
    from_address: str = ""
    login: LoginFrom = LoginFrom.NONE
    cap: int = 500
    quiet_hours: QuietHours | None = None
    test_address: str = ""
    stopped: bool = False
    unsubscribe: str = ""
