"""What is new to whom, and how it is gathered."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from soilrota.delivery.gathering import due, gather, said_by, said_in
from soilrota.delivery.messages import messages_of
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Reminder, Said
from tests.delivery.reminding import JO, MARA, NED, NIGHT, clients, practice, reminder

DAYS = st.integers(0, 60).map(lambda number: NIGHT + timedelta(days=number))


def said(one: Reminder, day: date, on: date) -> Said:
    """Return that a reminder was said with a day on a night."""
    return Said(one.to.person, one.event.name, day, on)


@given(
    day=DAYS,
    apart=st.integers(0, 40),
    within=st.integers(0, 10),
    repeats=st.booleans(),
    told=st.lists(st.tuples(DAYS, DAYS), max_size=6),
    as_of=DAYS,
)
def test_what_is_due_is_what_the_rules_say(
    *, day: date, apart: int, within: int, repeats: bool, told: list[tuple[date, date]], as_of: date
) -> None:
    """Held against the rules read one by one over everything that was said."""
    one = reminder(day=day, apart_days=apart, same_within_days=within, repeats=repeats)
    last = max((night for _, night in told), default=None)
    if last is None:
        expected = True
    elif last >= as_of or (as_of - last).days < apart:
        expected = False
    else:
        spoken = next(of for of, night in told if night == last)
        expected = repeats or abs((day - spoken).days) > within
    assert bool(due([one], [said(one, of, night) for of, night in told], as_of)) is expected


def test_another_person_or_event_is_another_matter() -> None:
    """What Jo was told Mara was not, and another season is another event."""
    one = reminder()
    before = [said(one, one.event.day, NIGHT - timedelta(days=1))]
    assert due([one], before, NIGHT) == ()
    assert len(due([replace(one, to=MARA), reminder(name="closing/else")], before, NIGHT)) == 2


def test_a_day_that_moved_is_told_with_the_day_before() -> None:
    """The reminder carries the day that was said; a day that was over when it was said is none."""
    one = reminder(ReminderKind.VISIT, day=date(2027, 2, 8))
    (moved,) = due([one], [said(one, date(2027, 2, 5), NIGHT - timedelta(days=2))], NIGHT)
    assert moved.before == date(2027, 2, 5)
    (again,) = due([one], [said(one, NIGHT - timedelta(days=2), NIGHT - timedelta(days=2))], NIGHT)
    assert again.before is None


def test_one_packet_a_person_the_urgent_first() -> None:
    """Over farms and clients; the most urgent person first, and in a packet the most urgent thing, then the day."""
    slow = reminder(day=date(2027, 2, 9), name="a")
    soon = reminder(day=date(2027, 2, 3), name="b", client="cobb-hill-dairy")
    urgent = reminder(to=NED, urgency=Urgency.URGENT, name="c")
    packets = gather([slow, urgent, soon, slow], NIGHT)
    assert [[one.event.name for one in packet.reminders] for packet in packets] == [["c"], ["b", "a"]]
    assert gather([], NIGHT) == ()


def test_who_is_of_the_practice_is_addressed_as_that() -> None:
    """One who is a contact of one client and works for the practice is told where that is set."""
    contact = replace(JO, person=MARA.person, address=MARA.address)
    (packet,) = gather([reminder(to=contact, name="a"), reminder(to=MARA, name="b")], NIGHT)
    assert packet.to == MARA


def test_what_messages_say_is_read_back() -> None:
    """From keys and facts of messages what was said comes back, so that the next night is silent."""
    one = reminder()
    messages = messages_of([one], (), NIGHT, practice(), clients())
    assert list(said_by(messages)) == [Said(JO.person, one.event.name, one.event.day, NIGHT)]
    assert messages_of([one], list(said_by(messages)), NIGHT + timedelta(days=1), practice(), clients()) == ()
    assert next(said_in("a@b.example", NIGHT, ["visit/x@y@2027-03-01"])).event == "visit/x@y"
