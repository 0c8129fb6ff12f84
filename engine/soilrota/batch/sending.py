"""Puts messages into a book's outbox and sends what waits there, at the end of a night or by itself.

Nothing that goes wrong here undoes what the night made: it stands in the report, and the messages wait.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from soilrota.batch import record_files
from soilrota.batch.edge import Edge
from soilrota.batch.faults import CannotStartError
from soilrota.batch.opening import open_book
from soilrota.batch.reading import read_shared
from soilrota.batch.sending_report import SendReport
from soilrota.delivery.copies import put_copies_right
from soilrota.delivery.faults import DeliveryError, OutboxUnfitError
from soilrota.delivery.gathering import said_in
from soilrota.delivery.limits import STOP_FILE, Hold, hold
from soilrota.delivery.login import find_login
from soilrota.delivery.mime import Sender, compose
from soilrota.delivery.outbox import AGAIN, Outbox, open_outbox
from soilrota.delivery.preview import preview
from soilrota.delivery.sending import Round, World, due, send_round
from soilrota.delivery.values import OPEN, Entry, State
from soilrota.model.messages import Message
from soilrota.model.practice import Practice
from soilrota.model.reminders import Said

OUTBOX = record_files.OUTBOX
COPIES = "records/outbox"
#: An address that no server takes (RFC 2606): messages made before the book has one stay on disk.
_NOBODY = "nobody@practice.invalid"


@dataclass(frozen=True, slots=True)
class SendRequest:
    """What is asked of `send`.

    Attributes:
        root: the book's folder.
        started: when the command started, ISO 8601, for the lock.
        again: ids of messages that a person wants sent again.
        arrived: ids of unsure messages that a person knows to have arrived.
    """

    root: Path
    started: str
    again: tuple[str, ...] = ()
    arrived: tuple[str, ...] = ()


def queue_messages(root: Path, practice: Practice, messages: Iterable[Message], made_at: datetime) -> tuple[Entry, ...]:
    """Put messages into the book's outbox, under the book's lock, and return those that are new.

    A message whose person, event and day are there is not made again. One that cannot be sent is there as refused,
    with the reason. Nothing is sent.

    Args:
        root: the book's folder.
        practice: the practice.
        messages: what is said to whom.
        made_at: date and time that the messages bear, with a time zone.

    Raises:
        OutboxUnfitError: the outbox cannot be used.
        OSError: it cannot be written.
        sqlite3.Error: as above.
    """
    sender = sender_of(practice)
    made = []
    with open_outbox(root / OUTBOX) as outbox:
        for message in messages:
            if not outbox.knows(message.key):
                new = compose(message, sender, made_at.astimezone(ZoneInfo(practice.time_zone)))
                outbox.add(new, made_at)
                made.append(message.key)
        put_copies_right(outbox, root / COPIES)
        known = {entry.key: entry for entry in outbox.entries()} if made else {}
    return tuple(known[key] for key in made)


def messages_said(root: Path) -> tuple[Said, ...]:
    """Return what every message in the book's outbox has told its person; nothing where there never was one.

    Raises:
        OutboxUnfitError: the outbox cannot be used.
        sqlite3.Error: it cannot be read.
    """
    if not (root / OUTBOX).is_file():
        return ()
    with open_outbox(root / OUTBOX, to_read=True) as outbox:
        return tuple(
            said
            for entry in outbox.entries()
            for said in said_in(entry.key.person, entry.key.day, outbox.about(entry.id))
        )


def sender_of(practice: Practice) -> Sender:
    """Return who messages come from; without an address of its own, the office's, or an adviser's."""
    mail, people = practice.mail, practice.people.values()
    addresses = (person.email for role in ("office", "adviser") for person in people if person.role == role)
    address = mail.from_address or next(filter(None, addresses), _NOBODY)
    return Sender(mail.from_name or practice.name, address, mail.unsubscribe)


def send_waiting(root: Path, practice: Practice, edge: Edge) -> SendReport:
    """Send what waits in the book's outbox, under the book's lock; nothing is raised for what mail can meet.

    Args:
        root: the book's folder.
        practice: the practice.
        edge: clock, environment, and who may end it.
    """
    try:
        with open_outbox(root / OUTBOX) as outbox:
            outbox.find_cut_off(edge.now())
            done = _one_round(root, practice, outbox, edge)
            return _with_copies(outbox, root, _report(outbox, practice, done, edge.now()))
    except (DeliveryError, OSError, sqlite3.Error) as fault:
        return SendReport(held=Hold.FAULT, fault=str(fault))


def _with_copies(outbox: Outbox, root: Path, report: SendReport) -> SendReport:
    """Put the .eml files right; where they cannot be written, what was sent is told all the same."""
    try:
        put_copies_right(outbox, root / COPIES)
    except OSError as fault:
        return replace(report, fault=report.fault or f"the files under {COPIES} cannot be written: {fault.strerror}")
    return report


def send_alone(request: SendRequest, edge: Edge) -> SendReport:
    """Take a book's lock, do what a person says of single messages, and send what waits.

    Raises:
        CannotStartError: it is no book, its shared files have errors, or an id names no message that fits.
        AnotherRunError: another process is at work on it.
    """
    with open_book(request.root, request.started):
        practice = _practice(request.root)
        if request.again or request.arrived:
            with _fit_outbox(request.root) as outbox:
                outbox.find_cut_off(edge.now())
                _do_as_told(outbox, request, edge.now())
        return send_waiting(request.root, practice, edge)


def preview_waiting(root: Path, edge: Edge) -> Iterator[str]:
    """Yield in lines what would be sent now, and what is unsure; nothing is changed and no lock is needed.

    Raises:
        CannotStartError: it is no book, its shared files have errors, or its outbox cannot be read.
    """
    practice = _practice(root)
    if not (root / OUTBOX).is_file():
        yield "Nothing waits: no message was ever made"
        return
    with _fit_outbox(root, to_read=True) as outbox:
        now = edge.now()
        entries = due(outbox, now)
        for entry in (*entries, *outbox.entries(State.UNSURE, State.SENDING)):
            yield from preview(entry, outbox.eml(entry.id))
        local = now.astimezone(ZoneInfo(practice.time_zone))
        held = hold(practice.mail, has_stop_file=_stop_file(root).exists(), local=local, sent=0)
        to = f", all to {practice.mail.test_address}" if practice.mail.test_address else ""
        would = f"would not be sent now ({held})" if held else f"would be sent now{to}"
        yield f"{len(entries)} due of {len(outbox.entries(*OPEN))} that wait: {would}"


def _practice(root: Path) -> Practice:
    """Return a book's practice.

    Raises:
        CannotStartError: it is no book, or its shared files have errors.
    """
    if not (root / "practice.yaml").is_file():
        raise CannotStartError(f"{root} is not a book: it has no practice.yaml")
    shared, problems = read_shared(root)
    if shared is None:
        raise CannotStartError("the files that all clients share have errors", problems)
    return shared.practice


@contextmanager
def _fit_outbox(root: Path, *, to_read: bool = False) -> Iterator[Outbox]:
    """Open the outbox for a command of a person.

    Raises:
        CannotStartError: it cannot be used.
    """
    try:
        with open_outbox(root / OUTBOX, to_read=to_read) as outbox:
            yield outbox
    except OutboxUnfitError as fault:
        raise CannotStartError(str(fault)) from fault


def _do_as_told(outbox: Outbox, request: SendRequest, now: datetime) -> None:
    """Do what a person says of single messages; all ids are looked at before anything is done."""
    again = [_told_of(outbox, one, AGAIN) for one in request.again]
    arrived = [_told_of(outbox, one, (State.UNSURE,)) for one in request.arrived]
    unsendable = [entry.id for entry in again if not outbox.eml(entry.id)]
    if unsendable:
        raise CannotStartError(f"message {unsendable[0]} could never be sent; mend the book, and the next will be")
    for entry in again:
        outbox.again(entry, now)
    for entry in arrived:
        outbox.arrived(entry, now)


def _told_of(outbox: Outbox, entry_id: str, states: tuple[State, ...]) -> Entry:
    """Return a message that a person names."""
    entry = outbox.find(entry_id)
    if entry is None:
        raise CannotStartError(f"there is no message {entry_id}; `soilrota send --dry-run` lists them")
    if entry.state not in states:
        raise CannotStartError(f"message {entry_id} is {entry.state}, not {' or '.join(states)}")
    return entry


def _one_round(root: Path, practice: Practice, outbox: Outbox, edge: Edge) -> Round:
    """Send one round over a line to the server; no line and no login is asked for where nothing could go."""
    mail, zone = practice.mail, ZoneInfo(practice.time_zone)
    world = World(edge.now, zone, _stop_file(root).exists, edge.should_end)
    now = edge.now()
    held = hold(mail, has_stop_file=world.has_stop_file(), local=now.astimezone(zone), sent=0)
    if held or not outbox.entries(*OPEN):
        return Round(held=held)
    from soilrota.delivery.smtp import Line  # noqa: PLC0415 - TLS is loaded where something goes

    try:
        with Line(mail, find_login(mail.login, edge.environment, root)) as line:
            return send_round(outbox, line, mail, world)
    except DeliveryError as fault:
        return Round(held=Hold.SERVER, fault=str(fault))


def _stop_file(root: Path) -> Path:
    """Return the file that stops sending while it is there."""
    return root / "records" / STOP_FILE


def _report(outbox: Outbox, practice: Practice, done: Round, now: datetime) -> SendReport:
    """Return how a round went, from what the outbox holds after it."""
    now_are = [entry for entry in map(outbox.find, (*done.given_up, *done.tried)) if entry]

    def are(state: State) -> tuple[Entry, ...]:
        return tuple(entry for entry in now_are if entry.state is state)

    return SendReport(
        sent=are(State.SENT),
        put_off=are(State.PUT_OFF),
        refused=are(State.REFUSED),
        given_up=are(State.GIVEN_UP),
        unsure=outbox.entries(State.UNSURE),
        waiting=len(outbox.entries(*OPEN)),
        due=len(due(outbox, now)),
        held=done.held,
        fault=done.fault,
        test_address=practice.mail.test_address,
    )
