"""The outbox: every message that was ever made, what became of it, and each step of its way.

A message and its bytes are committed before anything is sent; each step is one transaction. A message whose key is
there is never made again. One process writes at a time: whoever opens it holds the book's lock.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from soilrota.delivery.mime import key_id
from soilrota.delivery.outbox_file import open_connection, open_to_read
from soilrota.delivery.values import OPEN, Entry, NewEntry, Outcome, State, Step
from soilrota.model.messages import MessageKey

_COLUMNS = (
    "id, person, event, day, subject_of, state, urgency, sender, address, subject, needs_utf8, made_at, waits_since,"
    " attempts, next_at, answer, sent_to, forced"
)
#: What a person may have sent again.
AGAIN = (State.UNSURE, State.REFUSED, State.GIVEN_UP, State.SENT)
_CUT_OFF = "sending ended between the last byte and our record of the answer"


@dataclass(frozen=True, slots=True)
class _Move:
    """One step: to which state, when, why, and what else of the row changes with it (SQL of our own, and values)."""

    after: State
    at: datetime
    words: str
    more: str = ""
    values: tuple[str, ...] = ()


class Outbox:
    """An open outbox; `open_outbox` opens it. Times are aware and kept as UTC."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection

    def knows(self, key: MessageKey) -> bool:
        """Return whether a message was made before, whatever became of it."""
        return self._connection.execute("SELECT 1 FROM outbox WHERE id = ?", (key_id(key),)).fetchone() is not None

    def add(self, new: NewEntry, made_at: datetime) -> bool:
        """Put a message into the outbox, and return whether it was not there; one that cannot be sent is refused."""
        key = new.key
        state = State.REFUSED if new.unfit else State.WAITING
        row = (
            key_id(key), key.person, key.event, key.day.isoformat(), key.subject_of, state, new.urgency, new.sender,
            new.address, new.subject, int(new.needs_utf8), json.dumps(new.about, ensure_ascii=False), new.message_id,
            _text(made_at), _text(made_at), 0, "", new.unfit, "", 0,
        )  # fmt: skip
        with self._transaction():
            places = ", ".join("?" * len(row))
            made = self._connection.execute(f"INSERT OR IGNORE INTO outbox VALUES ({places})", row).rowcount  # noqa: S608 - question marks
            if made:
                self._connection.execute("INSERT INTO emls VALUES (?, ?)", (row[0], new.eml))
                self._note(row[0], made_at, "", state, new.unfit)
        return bool(made)

    def entries(self, *states: State) -> tuple[Entry, ...]:
        """Return the messages in any of the states, or all: the urgent first, then the older, then by id."""
        chosen = states or tuple(State)
        rows = self._connection.execute(
            f"SELECT {_COLUMNS} FROM outbox WHERE state IN ({', '.join('?' * len(chosen))})"  # noqa: S608 - as above
            " ORDER BY urgency, day, id",
            chosen,
        )
        return tuple(map(_entry, rows))

    def find(self, entry_id: str) -> Entry | None:
        """Return a message by its id; None where there is none."""
        row = self._connection.execute(f"SELECT {_COLUMNS} FROM outbox WHERE id = ?", (entry_id,)).fetchone()  # noqa: S608 - as above
        return _entry(row) if row else None

    def eml(self, entry_id: str) -> bytes:
        """Return the bytes of a message; none where it could never be sent."""
        row = self._connection.execute("SELECT eml FROM emls WHERE id = ?", (entry_id,)).fetchone()
        return bytes(row[0])

    def about(self, entry_id: str) -> tuple[str, ...]:
        """Return the facts that a message tells."""
        row = self._connection.execute("SELECT about FROM outbox WHERE id = ?", (entry_id,)).fetchone()
        return tuple(json.loads(row[0]))

    def steps(self, entry_id: str) -> tuple[Step, ...]:
        """Return the steps of a message's way, the first first."""
        rows = self._connection.execute(
            "SELECT at, before, after, words FROM steps WHERE id = ? ORDER BY number", (entry_id,)
        )
        return tuple(Step(_time(at), before, State(after), words) for at, before, after, words in rows)

    def sent_since(self, moment: datetime) -> int:
        """Return how many messages may have gone since a moment [-]: sent, or unsure."""
        query = "SELECT count(*) FROM steps WHERE after = ? AND at > ?"
        return int(self._connection.execute(query, (State.SENDING, _text(moment))).fetchone()[0])

    def find_cut_off(self, at: datetime) -> tuple[Entry, ...]:
        """Mark as unsure what an ended process was sending, and return it as it was. Nobody else may be sending."""
        found = self.entries(State.SENDING)
        for entry in found:
            self._move(entry.id, (State.SENDING,), _Move(State.UNSURE, at, _CUT_OFF))
        return found

    def begin(self, entry: Entry, at: datetime, sent_to: str) -> None:
        """Say that from now on the server may have a message."""
        more = "attempts = attempts + 1, sent_to = ?"
        self._move(entry.id, OPEN, _Move(State.SENDING, at, f"to {sent_to}", more, (sent_to,)))

    def settle(self, entry: Entry, outcome: Outcome, at: datetime, next_at: datetime | None = None) -> None:
        """Write down what became of an attempt; one that ended before `begin` counts as well.

        Args:
            entry: the message.
            outcome: what became of it.
            at: when.
            next_at: of a message put off: when it is to be tried again.
        """
        more = "next_at = ?, attempts = attempts + (state <> 'sending')"
        text = _text(next_at) if next_at else ""
        self._move(entry.id, (*OPEN, State.SENDING), _Move(outcome.state, at, outcome.words, more, (text,)))

    def give_up(self, entry: Entry, at: datetime, words: str) -> None:
        """Try a message no more."""
        self._move(entry.id, OPEN, _Move(State.GIVEN_UP, at, words))

    def again(self, entry: Entry, at: datetime) -> None:
        """Have a message sent again because a person says so: the same bytes, with the same Message-ID."""
        more = "attempts = 0, next_at = '', forced = forced + 1, waits_since = ?"
        words = "sent again because a person says so"
        self._move(entry.id, AGAIN, _Move(State.WAITING, at, words, more, (_text(at),)))

    def arrived(self, entry: Entry, at: datetime) -> None:
        """Take an unsure message for sent because a person says so."""
        self._move(entry.id, (State.UNSURE,), _Move(State.SENT, at, "arrived, as a person says"))

    def _move(self, entry_id: str, before: Iterable[State], step: _Move) -> None:
        """Move a message from one of some states to another, in one transaction with the note of the step."""
        with self._transaction():
            (state,) = self._connection.execute("SELECT state FROM outbox WHERE id = ?", (entry_id,)).fetchone()
            if state not in tuple(before):
                raise ValueError(f"message {entry_id} is {state} and cannot become {step.after}")
            changes = "state = ?, answer = ?" + (f", {step.more}" if step.more else "")
            values = (step.after, step.words, *step.values, entry_id)
            self._connection.execute(f"UPDATE outbox SET {changes} WHERE id = ?", values)  # noqa: S608 - own words
            self._note(entry_id, step.at, state, step.after, step.words)

    def _note(self, entry_id: str, at: datetime, before: str, after: State, words: str) -> None:
        """Write down a step."""
        self._connection.execute(
            "INSERT INTO steps (id, at, before, after, words) VALUES (?, ?, ?, ?, ?)",
            (entry_id, _text(at), before, after, words),
        )

    @contextmanager
    def _transaction(self) -> Iterator[None]:
        """Do all that the body does, or nothing."""
        self._connection.execute("BEGIN IMMEDIATE")
        try:
            yield
            self._connection.execute("COMMIT")
        except BaseException:
            if self._connection.in_transaction:
                self._connection.execute("ROLLBACK")
            raise


@contextmanager
def open_outbox(path: Path, *, to_read: bool = False) -> Iterator[Outbox]:
    """Open an outbox, which is made where there never was one, and close it.

    Args:
        path: its file.
        to_read: whether nothing is to be changed; the file must then be there.

    Raises:
        OutboxUnfitError: it cannot be used.
    """
    with closing((open_to_read if to_read else open_connection)(path)) as connection:
        yield Outbox(connection)


def _text(moment: datetime) -> str:
    """Return a moment as it is kept: UTC, to the microsecond, so that texts sort as moments do."""
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def _time(text: str) -> datetime:
    """Return a moment from the text that is kept."""
    return datetime.fromisoformat(text)


def _entry(row: tuple[Any, ...]) -> Entry:
    """Return a message from its row."""
    entry_id, person, event, day, subject_of, state, urgency, sender, address, subject, utf8, made, since = row[:13]
    attempts, next_at, answer, sent_to, forced = row[13:]
    return Entry(
        id=entry_id,
        key=MessageKey(person, event, date.fromisoformat(day), subject_of),
        state=State(state),
        urgency=urgency,
        sender=sender,
        address=address,
        subject=subject,
        needs_utf8=bool(utf8),
        made_at=_time(made),
        waits_since=_time(since),
        attempts=attempts,
        next_at=_time(next_at) if next_at else None,
        answer=answer,
        sent_to=sent_to,
        forced=forced,
    )
