"""One round over what waits: in fair order, each message once, until all are done or something holds the rest back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import datetime, tzinfo
from typing import Protocol

from soilrota.delivery.faults import LoginError, ServerError
from soilrota.delivery.limits import NIGHT, Hold, hold
from soilrota.delivery.outbox import Outbox
from soilrota.delivery.retry import LONGEST_LIFE, is_too_old, next_attempt
from soilrota.delivery.values import OPEN, Entry, Outcome, State
from soilrota.model.mail import Mail

#: A domain that put off so many messages in a round comes after all others [-].
_PATIENCE_WITH_A_DOMAIN = 2
#: So many messages in a row with trouble of the server's end the round [-].
_PATIENCE_WITH_THE_SERVER = 3
#: So many refusals in a row, with nothing sent in the round, end it: then it is rather us whom the server refuses [-].
_PATIENCE_WITH_REFUSALS = 20
_NO_SENDER = ".invalid"


class Carrier(Protocol):
    """What carries messages; see `smtp.Line`."""

    def open(self) -> bool:
        """Connect where there is no connection, and return whether it is a new one."""

    def send(self, entry: Entry, eml: bytes, to: str, before_last: Callable[[], None]) -> Outcome:
        """Send one message, and return what became of it."""


@dataclass(frozen=True, slots=True)
class World:
    """What a round asks of the world.

    Attributes:
        now: returns the moment, with a time zone.
        zone: the practice's time zone, for quiet hours.
        has_stop_file: returns whether the file that stops sending is there.
        should_end: returns whether the command was asked to end.
    """

    now: Callable[[], datetime]
    zone: tzinfo
    has_stop_file: Callable[[], bool]
    should_end: Callable[[], bool]


@dataclass(slots=True)
class Round:
    """How a round went.

    Attributes:
        tried: ids of the messages that were tried, in order.
        given_up: ids of those that waited too long.
        held: why the rest was not tried; None where all were.
        fault: in words what is wrong with the server or the login; empty where nothing is.
    """

    tried: list[str] = field(default_factory=list)
    given_up: list[str] = field(default_factory=list)
    held: Hold | None = None
    fault: str = ""


@dataclass(slots=True)
class _Trouble:
    """Counts what speaks against going on: trouble of the server's in a row, and refusals with nothing sent [-]."""

    of_server: int = 0
    refused: int = 0
    has_sent: bool = False

    def count(self, outcome: Outcome) -> None:
        """Count an outcome."""
        self.of_server = self.of_server + 1 if outcome.is_servers else 0
        self.refused += outcome.state is State.REFUSED
        self.has_sent = self.has_sent or outcome.state is State.SENT

    def is_too_much(self) -> bool:
        """Return whether the round ends."""
        refuses_us = self.refused >= _PATIENCE_WITH_REFUSALS and not self.has_sent
        return refuses_us or self.of_server >= _PATIENCE_WITH_THE_SERVER


def send_round(outbox: Outbox, carrier: Carrier, mail: Mail, world: World) -> Round:
    """Send what waits and is due.

    Args:
        outbox: the outbox; nobody else is sending from it.
        carrier: carries messages.
        mail: how the practice sends.
        world: the clock, and who may end the round.

    Raises:
        OSError: the machine failed; what was being sent will be found unsure.
        sqlite3.Error: the outbox cannot be written, for instance on a full disk; as above.
    """
    done = Round()
    done.given_up += _give_up_old(outbox, world.now())
    slow: Counter[str] = Counter()
    trouble = _Trouble()
    for entry in _in_fair_order(outbox, world.now(), slow):
        done.held = _held(outbox, mail, world)
        if done.held:
            break
        try:
            outcome = _attempt(outbox, carrier, entry, mail.test_address or entry.address, world.now)
        except (ServerError, LoginError) as fault:
            done.held, done.fault = Hold.SERVER, str(fault)
            break
        done.tried.append(entry.id)
        slow[entry.domain] += outcome.state is State.PUT_OFF
        trouble.count(outcome)
        if trouble.is_too_much():
            done.held, done.fault = Hold.SERVER, outcome.words
            break
    return done


def due(outbox: Outbox, now: datetime) -> tuple[Entry, ...]:
    """Return what may be tried: those never tried first, each kind with the urgent and the older first."""
    found = [one for one in outbox.entries(*OPEN) if one.next_at is None or one.next_at <= now]
    return tuple(sorted(found, key=lambda one: one.attempts > 0))


def _in_fair_order(outbox: Outbox, now: datetime, slow: Counter[str]) -> Iterator[Entry]:
    """Yield what is due; a domain that puts messages off comes after all others, so that it holds up none.

    Args:
        outbox: the outbox.
        now: the moment.
        slow: how many messages each domain put off so far; the caller counts on.
    """
    later = []
    for entry in due(outbox, now):
        if slow[entry.domain] >= _PATIENCE_WITH_A_DOMAIN:
            later.append(entry)
        else:
            yield entry
    yield from later


def _held(outbox: Outbox, mail: Mail, world: World) -> Hold | None:
    """Return why the next message may not go now."""
    if world.should_end():
        return Hold.ENDED
    now = world.now()
    sent = outbox.sent_since(now - NIGHT)
    return hold(mail, has_stop_file=world.has_stop_file(), local=now.astimezone(world.zone), sent=sent)


def _give_up_old(outbox: Outbox, now: datetime) -> Iterator[str]:
    """Give up what waited too long, and yield its ids."""
    for entry in outbox.entries(*OPEN):
        if is_too_old(entry.waits_since, now):
            why = f"; last: {entry.answer}" if entry.answer else ""
            outbox.give_up(entry, now, f"not sent within {LONGEST_LIFE.days} days{why}")
            yield entry.id


def _attempt(outbox: Outbox, carrier: Carrier, entry: Entry, to: str, now: Callable[[], datetime]) -> Outcome:
    """Try one message and write down what became of it; a line that was used before gets a second chance."""
    has_begun = False

    def before_last() -> None:
        nonlocal has_begun
        outbox.begin(entry, now(), to)
        has_begun = True

    if entry.sender.endswith(_NO_SENDER):
        outcome = Outcome(State.REFUSED, "it was made before the book had an address that messages come from")
    else:
        is_new = carrier.open()
        outcome = carrier.send(entry, outbox.eml(entry.id), to, before_last)
        if outcome.broke and not is_new and not has_begun:
            carrier.open()
            outcome = carrier.send(entry, outbox.eml(entry.id), to, before_last)
    moment = now()
    again = next_attempt(entry.attempts + 1, moment) if outcome.state is State.PUT_OFF else None
    outbox.settle(entry, outcome, moment, again)
    return outcome
