"""The visits of a farm in words: which day, which zones, how long; why so many; what one more or fewer would mean."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from soilrota.documents.dates import counted, joined, long_day
from soilrota.documents.sentences import has_rule, window_words
from soilrota.language import say, say_count
from soilrota.model.client import Client
from soilrota.model.visits import FarmVisits, SharedDays, VisitDay
from soilrota.model.windows import Rule, TaskKey, Window

_HOUR = 60


@dataclass(frozen=True, slots=True)
class VisitRow:
    """One visit: its day, its zones with their letters, the time it takes, what is late; all in words."""

    day: str
    zones: str
    time: str
    note: str


@dataclass(frozen=True, slots=True)
class VisitsView:
    """The visits of one farm: a row each, then what is to be known."""

    rows: tuple[VisitRow, ...]
    notes: tuple[str, ...]


def visits_view(
    client: Client, visits: FarmVisits, windows: Mapping[TaskKey, Window], letters: Mapping[tuple[str, str], str]
) -> VisitsView:
    """Return the visits of a farm in words.

    Args:
        client: the client of the farm.
        visits: its visits.
        windows: the answers for the client's tasks.
        letters: letter of each zone, by farm and zone.
    """
    words = _Words(client, windows, letters)
    rows = tuple(
        VisitRow(words.day(visit), words.zones(visit.tasks), time_words(visit.minutes), words.late(visit))
        for visit in visits.plan.visits
    )
    return VisitsView(rows, tuple(_notes(visits, words)))


class _Words:
    """Names and days as this client reads them."""

    def __init__(
        self, client: Client, windows: Mapping[TaskKey, Window], letters: Mapping[tuple[str, str], str]
    ) -> None:
        self._client = client
        self._windows = windows
        self._letters = letters
        self._names = {(zone.farm, zone.id): zone.name for farm in client.farms for zone in farm.zones}
        self._several = {
            (zone.farm, zone.id) for farm in client.farms for zone in farm.zones if len(zone.protocols) > 1
        }
        self.language = client.language

    def task(self, key: TaskKey) -> str:
        """Return a task by its zone's letter and name, with its protocol where the zone has several."""
        name = self.zone(key)
        return f"{name} ({self.protocol(key)})" if (key.farm, key.zone) in self._several else name

    def zone(self, key: TaskKey) -> str:
        """Return a task's zone by its letter and name."""
        place = (key.farm, key.zone)
        return f"{self._letters[place]} {self._names[place]}"

    def protocol(self, key: TaskKey) -> str:
        """Return the name of a task's protocol, as it stands inside a sentence."""
        name = self._client.protocols[key.protocol].name
        return name[0].lower() + name[1:]

    def zones(self, keys: tuple[TaskKey, ...]) -> str:
        """Return tasks in words, in the order of their letters."""
        ordered = sorted(keys, key=lambda key: (len(self._letters[key.farm, key.zone]), self.task(key)))
        return joined([self.task(key) for key in ordered])

    def window(self, key: TaskKey) -> str:
        """Return the open days of a task's season."""
        return window_words(self._windows[key], self.language)

    def day(self, visit: VisitDay) -> str:
        """Return the day of a visit; 'as soon as possible' where a best day has passed and it is the first there is."""
        windows = [self._windows[key] for key in visit.tasks]
        first = max(window.workable[0].first for window in windows)
        if visit.day == first and any(has_rule(window, Rule.BEST_DAY_PASSED) for window in windows):
            return say("as soon as possible")
        return long_day(visit.day, self.language)

    def late(self, visit: VisitDay) -> str:
        """Return which tasks of a visit come too late for their decision; empty where none does."""
        if not visit.late:
            return ""
        return say("Too late for the decision: {zones}.", zones=self.zones(visit.late))


def time_words(minutes: int) -> str:
    """Return how long a visit takes on the farm, to the half hour.

    >>> time_words(20), time_words(95), time_words(150), time_words(60)
    ('about half an hour', 'about 1 1/2 hours', 'about 2 1/2 hours', 'about 1 hour')
    """
    halves = max(round(minutes / (_HOUR / 2)), 1)
    if halves == 1:
        return say("about half an hour")
    hours, half = divmod(halves, 2)
    if half:
        return say("about {hours} 1/2 hours", hours=hours)
    return say("about {hours}", hours=counted(hours, "hour", "hours"))


def _notes(visits: FarmVisits, words: _Words) -> Iterator[str]:
    """Yield what is to be known of the visits."""
    plan = visits.plan
    if plan.witness:
        yield _needed(visits, words)
    yield from (_shared(group, words) for group in visits.sharing)
    if plan.one_more is not None and plan.one_more.gain:
        gain = counted(plan.one_more.gain, "day", "days")
        yield say("One visit more would bring the samples closer to their best days by {days} in all.", days=gain)
    if plan.one_fewer is not None and len(plan.visits) > 1:
        yield say("With one visit fewer {zones} would go without.", zones=words.zones(plan.one_fewer.missed))


def _needed(visits: FarmVisits, words: _Words) -> str:
    """Return why so many visits are needed."""
    plan = visits.plan
    tasks = joined([f"{words.task(key)} ({words.window(key)})" for key, _ in plan.witness])
    if plan.witness_apart:
        return say_count(
            "{count} visit is needed, because no two of them share a day: {tasks}.",
            "{count} visits are needed, because no two of them share a day: {tasks}.",
            len(plan.visits),
            tasks=tasks,
        )
    return say_count(
        "{count} visit is needed, because fewer days cannot serve them all: {tasks}.",
        "{count} visits are needed, because fewer days cannot serve them all: {tasks}.",
        len(plan.visits),
        tasks=tasks,
    )


def _shared(group: SharedDays, words: _Words) -> str:
    """Return which protocols of a zone can share a visit, and when."""
    return say(
        "On {zone}, {protocols} can share a visit, up to {day} at the latest.",
        zone=words.zone(group.keys[0]),
        protocols=joined([words.protocol(key) for key in group.keys]),
        day=long_day(group.spans[-1].last, words.language),
    )
