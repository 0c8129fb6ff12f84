"""A calendar program that keeps what it took over from each feed file shows the visits that stand, all year long.

The program is modelled from RFC 5546, section 2.1.5, on values that the calendar library reads: it knows nothing of how
feeds are made. It keys events by UID, takes one over where SEQUENCE is higher, or equal with a later DTSTAMP, and drops
what is cancelled, but remembers its rank.
"""

from __future__ import annotations

import os
import random
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

import pytest
from icalendar import Calendar, Event

from soilrota.delivery.feeds import next_feed
from soilrota.delivery.ical import calendar_text
from soilrota.model.feeds import FeedEvent, FeedVisit

YEARS = 30 if os.environ.get("SOILROTA_LONG") == "1" else 2
NIGHTS = 365
FIRST = date(2027, 1, 1)
ZONES = "abcdefgh"

#: What a person sees of an event: first day, the day after its last, its words.
Shown = tuple[date, date, str, str]


@dataclass
class ClientCalendar:
    """A calendar program: what it shows, and the rank of all that it ever saw."""

    shown: dict[str, Shown] = field(default_factory=dict)
    ranks: dict[str, tuple[int, datetime]] = field(default_factory=dict)
    taken: int = 0
    cancelled: int = 0

    def take(self, content: bytes) -> None:
        """Take over what is newer in a file."""
        for event in Calendar.from_ical(content).walk("VEVENT"):
            uid, rank = str(event["UID"]), (int(event["SEQUENCE"]), event.decoded("DTSTAMP"))
            if uid in self.ranks and rank <= self.ranks[uid]:
                continue
            self.ranks[uid] = rank
            self.taken += 1
            if event["STATUS"] == "CANCELLED":
                self.cancelled += self.shown.pop(uid, None) is not None
            else:
                self.shown[uid] = _shown(event)

    def from_day(self, day: date) -> list[Shown]:
        """Return what it shows that is not over on a day, each as often as it is there."""
        return sorted(one for one in self.shown.values() if one[1] > day)


def _shown(event: Event) -> Shown:
    """Return what a person sees of an event of a file."""
    return event.decoded("DTSTART"), event.decoded("DTEND"), str(event["SUMMARY"]), str(event["DESCRIPTION"])


class _Plan:
    """Visits that move, vanish, come back, part and join from night to night, as a seed has it."""

    def __init__(self, seed: int) -> None:
        self._chance = random.Random(seed)
        self._days: dict[str, date] = {}
        self._away: set[str] = set()
        self._words: dict[str, str] = {}

    def visits(self, night: date) -> tuple[FeedVisit, ...]:
        """Return the visits of a night: zones that have the same day are one visit; most stay as they were."""
        chance = self._chance
        for zone in ZONES:
            known = self._days.get(zone)
            if known is None or known < night:
                if chance.random() < 0.1:
                    self._days[zone] = night + timedelta(days=chance.randint(1, 40))
                else:
                    self._days.pop(zone, None)
            elif chance.random() < 0.05:
                other = self._days.get(chance.choice(ZONES), known)
                moved = night + timedelta(days=chance.randint(0, 40))
                self._days[zone] = other if other >= night and chance.random() < 0.5 else moved
            if chance.random() < 0.04:
                self._away ^= {zone}
            if chance.random() < 0.02:
                self._words[zone] = f"Gate {chance.randint(1, 9)}, call first; or\nwait"
        groups: dict[date, list[str]] = {}
        for zone, day in sorted(self._days.items()):
            if zone not in self._away:
                groups.setdefault(day, []).append(zone)
        return tuple(self._visit(day, zones) for day, zones in groups.items())

    def _visit(self, day: date, zones: list[str]) -> FeedVisit:
        """Return a visit to zones."""
        words = " ".join(["Zones", *zones, *(self._words.get(zone, "") for zone in zones)]).strip()
        tasks = tuple(f"{zone}/topsoil/2027-01-01" for zone in zones)
        last = day + timedelta(days=len(zones) // 3)
        summary = f"Sampling of {len(zones)}"
        return FeedVisit("anvil-creek", "home", tasks, day, last, len(zones) > 1, summary, words, "Merrow", 6)


def _as_seen(visit: FeedVisit) -> Shown:
    """Return what a person is to see of a visit."""
    return visit.first, visit.last + timedelta(days=1), visit.summary, visit.description


@pytest.mark.parametrize("seed", range(YEARS))
def test_a_calendar_that_takes_each_file_shows_the_visits_that_stand(seed: int) -> None:
    """On every night of a year, those alone, each once; a file that comes twice changes nothing."""
    plan, calendar, events, last = _Plan(seed), ClientCalendar(), (), b""
    for number in range(NIGHTS):
        night = FIRST + timedelta(days=number)
        visits = plan.visits(night)
        events = next_feed("client/anvil-creek", events, visits, night)
        content = calendar_text("Sampling", "office@merrow-tarn.example", events)
        if content != last:
            calendar.take(content)
        last = content
        assert calendar.from_day(night) == sorted(map(_as_seen, visits)), night
    taken = calendar.taken
    calendar.take(last)
    assert calendar.taken == taken
    assert calendar.cancelled > 10


@pytest.mark.parametrize("seed", range(YEARS))
def test_a_calendar_that_looks_now_and_then_shows_them_as_well(seed: int) -> None:
    """A telephone that was off for up to three months is right again with the first file that it reads."""
    plan, calendar, chance = _Plan(seed), ClientCalendar(), random.Random(seed + 1_000)
    events: tuple[FeedEvent, ...] = ()
    looks = 0
    off_until = FIRST
    for number in range(NIGHTS):
        night = FIRST + timedelta(days=number)
        visits = plan.visits(night)
        events = next_feed("client/anvil-creek", events, visits, night)
        if night < off_until:
            continue
        looks += 1
        off_until = night + timedelta(days=chance.choice((1, 2, 7, 30, 90)))
        calendar.take(calendar_text("Sampling", "", events))
        assert calendar.from_day(night) == sorted(map(_as_seen, visits)), night
    assert looks > 5


def test_an_older_file_that_comes_late_takes_nothing_back() -> None:
    """Files may overtake each other on their way, as attachments of messages do."""
    plan, events, files = _Plan(7), (), []
    for number in range(60):
        night = FIRST + timedelta(days=number)
        events = next_feed("client/anvil-creek", events, plan.visits(night), night)
        files.append(calendar_text("Sampling", "", events))
    calendar = ClientCalendar()
    calendar.take(files[-1])
    shown = dict(calendar.shown)
    known = set(calendar.ranks)
    for content in files:
        calendar.take(content)
    assert {uid: one for uid, one in calendar.shown.items() if uid in known} == shown
