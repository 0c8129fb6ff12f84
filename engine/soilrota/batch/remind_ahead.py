"""Reminders and calendar feeds on any day, and up to which day they bring nothing new.

Most nights differ from the last in nothing but the date, and most dates bring nobody anything new. So a night that has
read every client looks at the days after it as well, as later nights would; those need not read anything then.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.batch.weather import goes_beyond, known_on
from soilrota.delivery.choosing import ClientNight, PracticeNight, practice_reminders, reminders_of
from soilrota.delivery.feed_visits import client_feed_visits, crew_feed_visits, planned_visits
from soilrota.delivery.feeds import next_feed
from soilrota.delivery.gathering import due
from soilrota.model.check_values import CheckValue
from soilrota.model.client import Client
from soilrota.model.feeds import FeedEvent, FeedVisit
from soilrota.model.intake import MissingBag
from soilrota.model.practice import Practice
from soilrota.model.reminders import Placement, PlannedVisit, Reminder, ReportState, Said, SetAsideFile
from soilrota.model.visits import FarmVisits
from soilrota.model.weather import Weather
from soilrota.model.windows import Task, Window
from soilrota.results import laboratory_state
from soilrota.timing import tasks_of, visits_of, window_of

#: Begin the names of feeds: of a client, of a crew member.
CLIENT, CREW = "client", "crew"
_SAMPLER = "sampler"
#: So many days are looked at beyond the as-of date [d]: each costs every client a few milliseconds.
LOOKED_AHEAD = 14

Feeds = Mapping[str, Sequence[FeedEvent]]


@dataclass(frozen=True, slots=True)
class Grounds:
    """What reminders rest on beside the clients and the day.

    Attributes:
        practice: the practice.
        weather: returns the records of a client's stations, by station.
        placed: where the field calendar put each visit, by its id.
        missing: bags that have not come back.
        report: returns how the farm reports of a client stand.
        set_aside: laboratory files of which rows wait.
        check_values: what laboratories reported of check samples.
    """

    practice: Practice
    weather: Callable[[Client], dict[str, Weather]]
    placed: Mapping[str, Placement]
    missing: tuple[MissingBag, ...]
    report: Callable[[Client], ReportState | None]
    set_aside: tuple[SetAsideFile, ...]
    check_values: Sequence[CheckValue]


class DaysAhead:
    """What a night finds, looked at on its own day and on days after it."""

    def __init__(self, grounds: Grounds, as_of: date) -> None:
        """Take what it rests on, and the first day."""
        self._grounds = grounds
        self._as_of = as_of
        self._tasks: dict[str, tuple[Task, ...]] = {}
        self._visits: dict[str, tuple[tuple[Window, ...], tuple[FarmVisits, ...]]] = {}
        self._nights: dict[str, tuple[date, ClientNight]] = {}

    def reminders(self, client: Client, day: date, said: Iterable[Said]) -> tuple[Reminder, ...]:
        """Return everything that people may be told of a client on a day; `said` is what was said before."""
        return reminders_of(self._night(client, day), day, said)

    def of_practice(self, day: date) -> tuple[Reminder, ...]:
        """Return everything that the office may be told on a day."""
        practice = self._grounds.practice
        charts = laboratory_state(self._grounds.check_values, practice.check_materials, day)
        return practice_reminders(PracticeNight(practice, self._grounds.set_aside, charts), day)

    def feeds(self, clients: Iterable[Client], day: date, last: Feeds) -> dict[str, tuple[FeedEvent, ...]]:
        """Return the events of the feed of each client and of each crew member on a day, by the feed's name."""
        return {name: next_feed(name, last.get(name, ()), shown, day) for name, shown in self._shown(clients, day)}

    def quiet_until(self, clients: Sequence[Client], said: Iterable[Said], feeds: Feeds) -> date:
        """Return the last day up to which nobody is to be told anything new and no feed changes.

        It holds while files, placed visits and missing bags stay as they are, and nothing else is said.

        Args:
            clients: all clients.
            said: what was said up to the as-of date, that date included.
            feeds: the feeds of the as-of date.
        """
        said = tuple(said)
        of_client = _by_client(said)

        def is_news(day: date) -> bool:
            return (
                any(due(self.reminders(one, day, of_client[one.id]), of_client[one.id], day) for one in clients)
                or bool(due(self.of_practice(day), said, day))
                or any(tuple(feeds[name]) != events for name, events in self.feeds(clients, day, feeds).items())
            )

        days = (self._as_of + timedelta(days=ahead) for ahead in range(1, LOOKED_AHEAD + 1))
        first = next(filter(is_news, days), self._as_of + timedelta(days=LOOKED_AHEAD + 1))
        return first - timedelta(days=1)

    def _night(self, client: Client, day: date) -> ClientNight:
        """Return what is known of a client on a day; the last one asked for is kept."""
        known = self._nights.get(client.id)
        if known is not None and known[0] == day:
            return known[1]
        windows = tuple(window_of(task, day) for task in self._tasks_on(client, day))
        night = ClientNight(
            client=client,
            windows=windows,
            visits=planned_visits(client, self._visits_in(client, windows), windows, self._grounds.placed),
            missing=tuple(bag for bag in self._grounds.missing if bag.client == client.id),
            report=known[1].report if known is not None else self._grounds.report(client),
        )
        self._nights[client.id] = (day, night)
        return night

    def _tasks_on(self, client: Client, day: date) -> tuple[Task, ...]:
        """Return the tasks of a client; the same on every day, but where records of weather go on beyond the first."""
        if client.id in self._tasks:
            return self._tasks[client.id]
        weather = self._grounds.weather(client)
        tasks = tasks_of(client, known_on(weather, day))
        if not goes_beyond(weather, self._as_of):
            self._tasks[client.id] = tasks
        return tasks

    def _visits_in(self, client: Client, windows: tuple[Window, ...]) -> tuple[FarmVisits, ...]:
        """Return the visits of a client, planned anew where its windows are others than those of the last day."""
        known = self._visits.get(client.id)
        if known is None or known[0] != windows:
            known = self._visits[client.id] = (windows, visits_of(client, windows))
        return known[1]

    def _shown(self, clients: Iterable[Client], day: date) -> Iterator[tuple[str, tuple[FeedVisit, ...]]]:
        """Yield the name of each feed with the visits that it shows."""
        visits: list[tuple[Client, PlannedVisit]] = []
        for client in sorted(clients, key=lambda one: one.id):
            own = self._night(client, day).visits
            visits += [(client, visit) for visit in own]
            yield f"{CLIENT}/{client.id}", client_feed_visits(client, own)
        for person in sorted(self._grounds.practice.people.values(), key=lambda one: one.id):
            if person.role == _SAMPLER:
                yield f"{CREW}/{person.id}", crew_feed_visits(person.id, visits)


def _by_client(said: Iterable[Said]) -> defaultdict[str, list[Said]]:
    """Return what was said by the second part of the event's name: of a client's events, the client's id.

    What was said grows for years, and a client's events are looked for among its own.
    """
    found: defaultdict[str, list[Said]] = defaultdict(list)
    for one in said:
        found[one.event.split("/")[1] if "/" in one.event else ""].append(one)
    return found
