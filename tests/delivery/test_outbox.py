"""The outbox: each key once, each step in one transaction, nothing moved that should stay."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

import pytest

from soilrota.delivery.outbox import AGAIN, Outbox, open_outbox
from soilrota.delivery.values import Entry, Outcome, State
from soilrota.model.messages import Urgency
from tests.delivery.making import MORNING, new_entry, only, outbox_with

LATER = MORNING + timedelta(hours=1)
SENT = Outcome(State.SENT, "250 taken")
PUT_OFF = Outcome(State.PUT_OFF, "451 later")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return where an outbox lies."""
    return tmp_path / "outbox.sqlite"


def test_a_key_is_there_once(path: Path) -> None:
    """The same person, event and day again changes nothing, whatever it says; another day is another message."""
    first = new_entry(about=("window-opens home/flat",))
    with outbox_with(path, first) as outbox:
        assert not outbox.add(new_entry(subject="Other"), LATER)
        entry = only(outbox)
        assert (entry.subject, outbox.eml(entry.id), outbox.about(entry.id)) == (first.subject, first.eml, first.about)
        assert outbox.knows(first.key)
        assert outbox.add(new_entry(day=date(2027, 2, 16)), LATER)
        assert len(outbox.entries()) == 2
        assert not outbox.knows(new_entry("al").key)


def test_it_is_there_after_opening_again(path: Path) -> None:
    """With all that is known of it."""
    with outbox_with(path, new_entry(address="jörg@farms.example", urgency=Urgency.URGENT)) as outbox:
        entry = only(outbox)
    with open_outbox(path, to_read=True) as outbox:
        assert only(outbox) == entry
    assert (entry.needs_utf8, entry.urgency, entry.made_at, entry.next_at) == (True, 1, MORNING, None)


def test_what_cannot_be_sent_is_refused_from_the_start(path: Path) -> None:
    """It is not lost: it is there with its reason."""
    with outbox_with(path, new_entry(address="nowhere")) as outbox:
        entry = only(outbox)
        assert (entry.state, outbox.eml(entry.id)) == (State.REFUSED, b"")
        assert "no e-mail address" in entry.answer


def test_the_way_of_a_message(path: Path) -> None:
    """Put off twice, then sent: every step is there with its words, and attempts are counted."""
    with outbox_with(path, new_entry()) as outbox:
        outbox.settle(only(outbox), PUT_OFF, LATER, LATER + timedelta(hours=1))
        assert (only(outbox).attempts, only(outbox).next_at) == (1, LATER + timedelta(hours=1))
        outbox.begin(only(outbox), LATER, "jo@farms.example")
        assert (only(outbox).state, only(outbox).attempts) == (State.SENDING, 2)
        outbox.settle(only(outbox), SENT, LATER)
        entry = only(outbox)
        assert (entry.state, entry.attempts, entry.sent_to) == (State.SENT, 2, "jo@farms.example")
        steps = [(step.before, step.after, step.words) for step in outbox.steps(entry.id)]
    assert steps == [
        ("", State.WAITING, ""),
        ("waiting", State.PUT_OFF, "451 later"),
        ("put-off", State.SENDING, "to jo@farms.example"),
        ("sending", State.SENT, "250 taken"),
    ]


def test_what_was_cut_off_is_unsure(path: Path) -> None:
    """And stays so until a person says what became of it."""
    with outbox_with(path, new_entry("al"), new_entry("jo")) as outbox:
        cut_off = outbox.entries()[0]
        outbox.begin(cut_off, MORNING, cut_off.address)
    with open_outbox(path) as outbox:
        assert [entry.id for entry in outbox.find_cut_off(LATER)] == [cut_off.id]
        assert outbox.find_cut_off(LATER) == ()
        assert [entry.id for entry in outbox.entries(State.UNSURE)] == [cut_off.id]
        assert len(outbox.entries(State.WAITING)) == 1
        outbox.arrived(cut_off, LATER)
        assert outbox.entries(State.UNSURE) == ()


def test_again_is_the_same_bytes_with_a_new_life(path: Path) -> None:
    """And it is counted that a person forced it."""
    with outbox_with(path, new_entry()) as outbox:
        before = outbox.eml(only(outbox).id)
        outbox.begin(only(outbox), MORNING, "jo@farms.example")
        outbox.find_cut_off(LATER)
        outbox.again(only(outbox), LATER)
        entry = only(outbox)
        assert (entry.state, entry.attempts, entry.forced, entry.waits_since) == (State.WAITING, 0, 1, LATER)
        assert outbox.eml(entry.id) == before


def _reach(outbox: Outbox, state: State) -> Entry:
    """Bring the one message into a state."""
    entry = only(outbox)
    if state is State.GIVEN_UP:
        outbox.give_up(entry, MORNING, "too old")
    elif state is State.PUT_OFF:
        outbox.settle(entry, PUT_OFF, MORNING, LATER)
    elif state is not State.WAITING:
        outbox.begin(entry, MORNING, entry.address)
        if state is not State.SENDING:
            outbox.settle(entry, Outcome(state, "as it is"), MORNING)
    return only(outbox)


MOVES: dict[str, tuple[Callable[[Outbox, Entry], None], set[State]]] = {
    "begin": (lambda outbox, one: outbox.begin(one, LATER, one.address), {State.WAITING, State.PUT_OFF}),
    "settle": (lambda outbox, one: outbox.settle(one, SENT, LATER), {State.WAITING, State.PUT_OFF, State.SENDING}),
    "give up": (lambda outbox, one: outbox.give_up(one, LATER, "old"), {State.WAITING, State.PUT_OFF}),
    "again": (lambda outbox, one: outbox.again(one, LATER), set(AGAIN)),
    "arrived": (lambda outbox, one: outbox.arrived(one, LATER), {State.UNSURE}),
}


@pytest.mark.parametrize("state", State)
@pytest.mark.parametrize("move", MOVES)
def test_no_other_step_is_taken(path: Path, state: State, move: str) -> None:
    """Every state with every step: it is taken where it may be, and changes nothing where it may not."""
    do, may = MOVES[move]
    with outbox_with(path, new_entry()) as outbox:
        entry = _reach(outbox, state)
        assert entry.state is state
        steps = outbox.steps(entry.id)
        if state in may:
            do(outbox, entry)
            assert len(outbox.steps(entry.id)) == len(steps) + 1
        else:
            with pytest.raises(ValueError, match=f"is {state} and cannot"):
                do(outbox, entry)
            assert (only(outbox), outbox.steps(entry.id)) == (entry, steps)


def test_a_step_that_cannot_be_noted_is_not_taken(path: Path) -> None:
    """As on a full disk: message and note stand together or not at all, and the outbox stays usable."""
    with outbox_with(path, new_entry()) as outbox:
        entry = only(outbox)
        outbox._connection.execute("CREATE TRIGGER full BEFORE INSERT ON steps BEGIN SELECT RAISE(ABORT, 'full'); END")
        with pytest.raises(sqlite3.IntegrityError, match="full"):
            outbox.begin(entry, LATER, entry.address)
        with pytest.raises(sqlite3.IntegrityError, match="full"):
            outbox.add(new_entry("al"), LATER)
        assert only(outbox) == entry
        outbox._connection.execute("DROP TRIGGER full")
        outbox.begin(entry, LATER, entry.address)
        assert only(outbox).state is State.SENDING


def test_the_urgent_and_the_older_come_first(path: Path) -> None:
    """Then by id, so that the order is always the same."""
    made = [
        new_entry("late", urgency=Urgency.ORDINARY),
        new_entry("early", urgency=Urgency.ORDINARY, day=date(2027, 2, 1)),
        new_entry("now", urgency=Urgency.URGENT),
    ]
    with outbox_with(path, *made) as outbox:
        assert [entry.key.person.rpartition("/")[2] for entry in outbox.entries()] == ["now", "early", "late"]


def test_what_may_have_gone_is_counted(path: Path) -> None:
    """Since a moment, sent or unsure."""
    with outbox_with(path, *(new_entry(f"p{number}") for number in range(3))) as outbox:
        first, second, _ = outbox.entries()
        outbox.begin(first, MORNING, first.address)
        outbox.settle(first, SENT, MORNING)
        outbox.begin(second, LATER, second.address)
        assert outbox.sent_since(MORNING - timedelta(seconds=1)) == 2
        assert outbox.sent_since(MORNING) == 1


def test_no_id_no_entry(path: Path) -> None:
    """An id that nobody gave out."""
    with outbox_with(path) as outbox:
        assert outbox.find("0" * 16) is None
