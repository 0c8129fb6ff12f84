"""Feeds from night to night: what moves keeps its UID and rises, what goes is cancelled, what is past stays."""

from __future__ import annotations

import json
import os
import random
from dataclasses import replace
from datetime import date, timedelta

import pytest

from soilrota.delivery.feeds import as_record, from_record, next_feed
from soilrota.delivery.ical import calendar_text
from soilrota.model.feeds import FeedEvent, FeedStatus, FeedVisit
from tests.delivery.ical_reader import PhoneCalendar, read
from tests.delivery.year_of_nights import year

CASES = 1_000 if os.environ.get("SOILROTA_LONG") == "1" else 60
NIGHT = date(2027, 2, 1)
DAY = date(2027, 2, 10)
SEASON = "topsoil/2027-01-20"


def visit(first: date = DAY, *zones: str, placed: bool = True, summary: str = "Soil sampling: Home block") -> FeedVisit:
    """Return a visit as it is to stand in a feed."""
    tasks = tuple(sorted(f"{zone}/{SEASON}" for zone in zones or ("barn", "ridge")))
    return FeedVisit("anvil-creek", "home", tasks, first, first, placed, summary, "words", "Merrow", 6)


def after(last: tuple[FeedEvent, ...], *visits: FeedVisit, night: date = NIGHT) -> tuple[FeedEvent, ...]:
    """Return the feed's next state."""
    return next_feed("client/anvil-creek", last, visits, night)


def test_nothing_new_leaves_the_feed_as_it_is() -> None:
    """The same visits on later nights: the very same events, stamps included."""
    first = after((), visit())
    assert after(first, visit(), night=NIGHT + timedelta(days=5)) == first
    assert (first[0].sequence, first[0].status, first[0].stamped) == (0, FeedStatus.CONFIRMED, NIGHT)


def test_a_visit_that_moves_keeps_its_uid() -> None:
    """Another day raises SEQUENCE by one and stamps the night; changed small print stamps alone."""
    first = after((), visit())
    (moved,) = after(first, visit(DAY + timedelta(days=3)), night=NIGHT + timedelta(days=1))
    assert (moved.uid, moved.sequence, moved.stamped) == (first[0].uid, 1, NIGHT + timedelta(days=1))
    (words,) = after(first, replace(visit(), description="other words"), night=NIGHT + timedelta(days=1))
    assert (words.sequence, words.stamped) == (0, NIGHT + timedelta(days=1))
    (placed,) = after(after((), visit(placed=False)), visit())
    assert (placed.status, placed.sequence) == (FeedStatus.CONFIRMED, 1)


def test_a_visit_that_goes_is_cancelled_and_may_come_back() -> None:
    """Cancelled once with a higher SEQUENCE; back again with a higher one still, under the same UID."""
    first = after((), visit())
    gone = after(first)
    assert (gone[0].status, gone[0].sequence, gone[0].uid) == (FeedStatus.CANCELLED, 1, first[0].uid)
    assert after(gone, night=NIGHT + timedelta(days=9)) == gone
    (back,) = after(gone, visit(), night=NIGHT + timedelta(days=10))
    assert (back.status, back.sequence, back.uid) == (FeedStatus.CONFIRMED, 2, first[0].uid)


def test_what_is_past_stays_and_is_forgotten_after_a_while() -> None:
    """A visit that was made is not cancelled; half a year on it is dropped."""
    first = after((), visit())
    assert after(first, night=DAY + timedelta(days=1)) == first
    assert after(first, night=DAY + timedelta(days=180)) == first
    assert after(first, night=DAY + timedelta(days=181)) == ()


def test_what_is_left_over_of_a_visit_is_a_new_one() -> None:
    """One of two zones was sampled on the day: the day stays, the other zone has an event of its own."""
    first = after((), visit())
    both = after(first, visit(DAY + timedelta(days=9), "ridge"), night=DAY + timedelta(days=2))
    assert both[0] == first[0]
    assert (both[1].uid != first[0].uid, both[1].sequence) == (True, 0)


def test_tasks_that_change_hands_leave_no_uid_twice() -> None:
    """A visit that splits keeps its UID where most tasks go; one that joins takes over the one it shares most with."""
    first = after((), visit(DAY, "a", "b", "c"))
    split = after(first, visit(DAY, "a", "b"), visit(DAY + timedelta(days=5), "c"))
    assert [event.uid == first[0].uid for event in split] == [True, False]
    joined = after(split, visit(DAY, "a", "b", "c"))
    assert sorted((event.status, event.uid == first[0].uid) for event in joined) == [
        (FeedStatus.CANCELLED, False),
        (FeedStatus.CONFIRMED, True),
    ]


def test_what_is_forgotten_is_never_taken_up_again() -> None:
    """The same tasks, half a year after their event was dropped, are an event with a UID of its own."""
    first = after((), visit())
    late = DAY + timedelta(days=200)
    (again,) = after(after(first, night=late), visit(late), night=late)
    assert (again.uid != first[0].uid, again.sequence) == (True, 0)


def test_feeds_share_no_uid() -> None:
    """The same visit in the client's and the crew's feed has two UIDs, so that neither overrules the other."""
    one, two = (next_feed(name, (), [visit()], NIGHT)[0].uid for name in ("client/a", "crew/b"))
    assert one != two


@pytest.mark.parametrize("seed", range(CASES))
def test_a_phone_that_takes_every_file_shows_the_plan(seed: int) -> None:
    """Random moves, losses and regroupings: a calendar that applied each file shows what is planned, no more."""
    draw = random.Random(seed)
    phone, events, night = PhoneCalendar(), (), NIGHT
    for _ in range(12):
        zones = [zone for zone in "abcdef" if draw.random() < 0.8]
        draw.shuffle(zones)
        cuts = sorted(draw.sample(range(len(zones) + 1), min(2, len(zones))))
        groups = [zones[: cuts[0]], zones[cuts[0] : cuts[-1]], zones[cuts[-1] :]] if cuts else [zones]
        plan = [
            visit(night + timedelta(days=draw.randint(1, 30)), *group, placed=draw.random() < 0.5)
            for group in groups
            if group
        ]
        before = {event.uid: event for event in events}
        events = after(events, *plan, night=night)
        assert len({event.uid for event in events}) == len(events)
        assert all(event.sequence >= before[event.uid].sequence for event in events if event.uid in before)
        phone.take(calendar_text("n", "o@a.example", events))
        shown = {one for one in phone.shown() if one[1] > night}
        assert shown == {(one.first, one.last + timedelta(days=1), one.summary) for one in plan}
        night += timedelta(days=1)


def test_a_record_reads_back() -> None:
    """What a ledger keeps as JSON gives back the event."""
    (event,) = after((), visit())
    assert from_record(json.loads(json.dumps(as_record(event)))) == event
    with pytest.raises(KeyError):
        from_record({"uid": "x"})


def test_the_feeds_of_a_year() -> None:
    """Every feed of every night is sound; a phone that follows one shows what it holds; bytes hang on nothing else."""
    phones: dict[str, PhoneCalendar] = {}
    last: dict[str, tuple[FeedEvent, ...]] = {}
    moved = cancelled = 0
    for feeds in year().feeds.values():
        for name, events in feeds.items():
            if events == last.get(name):
                continue
            last[name] = events
            content = calendar_text(name, "office@merrow-tarn.example", events)
            assert content == calendar_text(name, "office@merrow-tarn.example", events[::-1])
            phone = phones.setdefault(name, PhoneCalendar())
            phone.take(content)
            kept = {event.uid for event in events}
            live = [one for one in events if one.status is not FeedStatus.CANCELLED]
            held = {uid for uid, part in phone.events.items() if part.one("STATUS") != "CANCELLED" and uid in kept}
            assert held == {one.uid for one in live}
            moved += any(one.sequence for one in events)
            cancelled += len(live) < len(events)
            assert len(read(content).parts) == len(events)
    assert moved > 10
    assert cancelled > 3
