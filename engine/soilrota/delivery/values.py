"""What is known of a message on its way: its state, and what became of an attempt to send it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from soilrota.model.messages import MessageKey


class State(StrEnum):
    """Where a message is.

    ```
    waiting ⟶ sending ⟶ sent | refused | unsure
    waiting ⟶ put-off ⟶ waiting …      refused by the server for now: tried again later
    waiting, put-off ⟶ refused         never taken, for instance no such address
    waiting, put-off ⟶ given-up        not taken for so long that it is of no more use
    sending ⟶ put-off                  nothing was taken: the line broke before the last byte
    unsure, refused, given-up, sent ⟶ waiting       only because a person says so
    ```
    """

    WAITING = "waiting"
    #: The server may have taken it from here on; committed before the last byte leaves.
    SENDING = "sending"
    SENT = "sent"
    PUT_OFF = "put-off"
    REFUSED = "refused"
    #: It ended between the last byte and our record of the answer: sent or not, nobody knows.
    UNSURE = "unsure"
    GIVEN_UP = "given-up"


#: States in which a message will be tried by itself.
OPEN = (State.WAITING, State.PUT_OFF)


@dataclass(frozen=True, slots=True)
class Entry:
    """A message in the outbox, without its bytes.

    Attributes:
        id: short name for people and files, derived from the key.
        key: names the message.
        state: where it is.
        urgency: which goes first; a lower number goes first.
        sender, address: who it is from and for.
        subject: as people read it.
        needs_utf8: whether an address has letters before the `@` that only some servers take (RFC 6531).
        made_at: when it was made, UTC.
        waits_since: from when on its age counts, UTC.
        attempts: how often sending was tried [-].
        next_at: not before this, UTC; None for at once.
        answer: the last that was said about it, by the server or by us.
        sent_to: where it really went; empty until then.
        forced: how often a person had it sent again [-].
    """

    id: str
    key: MessageKey
    state: State
    urgency: int
    sender: str
    address: str
    subject: str
    needs_utf8: bool
    made_at: datetime
    waits_since: datetime
    attempts: int
    next_at: datetime | None
    answer: str
    sent_to: str
    forced: int

    @property
    def domain(self) -> str:
        """Return where the address lies, in small letters."""
        return self.address.rpartition("@")[2].casefold()


@dataclass(frozen=True, slots=True)
class NewEntry:
    """A message as it is put into the outbox.

    Attributes:
        key, urgency, sender, address, subject, needs_utf8: as in `Entry`.
        about: the facts that it tells.
        message_id: its Message-ID, derived from the key.
        eml: the bytes that travel; empty where it cannot be sent.
        unfit: why it cannot be sent; empty where it can.
    """

    key: MessageKey
    urgency: int
    sender: str
    address: str
    subject: str
    needs_utf8: bool
    about: tuple[str, ...]
    message_id: str
    eml: bytes
    unfit: str = ""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of an attempt to send a message.

    Attributes:
        state: `sent`, `put-off`, `refused` or `unsure`.
        words: what the server said, or what happened.
        broke: whether the line to the server is gone.
        is_servers: whether the server had trouble that the next message would meet as well.
    """

    state: State
    words: str
    broke: bool = False
    is_servers: bool = False


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a message's way: when, from which state, to which, and why."""

    at: datetime
    before: str
    after: State
    words: str
