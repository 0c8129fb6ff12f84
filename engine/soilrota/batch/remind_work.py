"""What a worker does for the reminders of a night: clients to messages and calendar feeds. It writes nothing.

A client that cannot be read costs its own reminders alone, and is named.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

from soilrota.batch.check_records import read_all_check_values
from soilrota.batch.faults import BatchError
from soilrota.batch.outputs import PROGRAMME, WINDOWS_FEED, document_file, document_name
from soilrota.batch.reading import read_client, read_shared
from soilrota.batch.received import SHORT, read_received
from soilrota.batch.remind_ahead import CLIENT, DaysAhead, Grounds
from soilrota.batch.signatures import sign_state_of
from soilrota.batch.signing import signed_values
from soilrota.batch.values import PlacedRow
from soilrota.batch.weather import weather_for
from soilrota.book import Shared
from soilrota.delivery.attachments import FileKind, FoundFile, WantedFile
from soilrota.delivery.feed_visits import crew_feed
from soilrota.delivery.feeds import as_record, from_record
from soilrota.delivery.gathering import said_by
from soilrota.delivery.ical import calendar_text
from soilrota.delivery.messages import messages_of
from soilrota.language import say, speaking
from soilrota.model.client import Client
from soilrota.model.feeds import FeedEvent
from soilrota.model.intake import MissingBag
from soilrota.model.messages import Message
from soilrota.model.practice import Practice
from soilrota.model.reminders import Placement, Reminder, ReportState, Said, SetAsideFile


class RemindFaultError(BatchError):
    """The files that all clients share got errors during the night."""


@dataclass(frozen=True, slots=True)
class RemindOrder:
    """What a worker is asked.

    Attributes:
        root, out: the book's folder and the output folder, where files that go along lie.
        client: names the order.
        as_of: the as-of date.
        clients: ids of the clients whose files are in order.
        placed: day and person of each visit that the field calendar has placed.
        missing: bags that have not come back.
        reports: date of the latest farm report of each client that has any, by id.
        said: what was said before.
        feeds: the events of each feed as they were last given out, by the feed's name.
    """

    root: Path
    out: Path
    client: str
    as_of: date
    clients: tuple[str, ...]
    placed: tuple[PlacedRow, ...] = ()
    missing: tuple[MissingBag, ...] = ()
    reports: Mapping[str, date] = field(default_factory=dict)
    said: tuple[Said, ...] = ()
    feeds: Mapping[str, list[dict[str, Any]]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Feed:
    """A calendar feed: its file below the output folder, its content, its events as records."""

    file: str
    content: bytes
    events: list[dict[str, Any]]


@dataclass(frozen=True, slots=True)
class RemindAnswer:
    """What a worker makes of a night: messages, feeds by name, and in words the clients that could not be read.

    While nothing else changes, nobody is to be told anything new, and no feed changes, up to the day `quiet_until`.
    """

    client: str
    messages: tuple[Message, ...]
    feeds: Mapping[str, Feed]
    quiet_until: date
    faults: tuple[str, ...] = ()


def make_reminders(order: RemindOrder) -> RemindAnswer:
    """Make the messages and calendar feeds of a night.

    Raises:
        RemindFaultError: the files that all clients share got errors during the night.
    """
    shared, problems = read_shared(order.root)
    if shared is None:
        raise RemindFaultError(f"the files that all clients share got errors during the night: {problems[0]}")
    clients: dict[str, Client] = {}
    faults: list[str] = []
    reminders: list[Reminder] = []
    days = DaysAhead(_grounds(order, shared), order.as_of)
    for name in order.clients:
        client, _ = read_client(order.root, name, shared)
        if client is None:
            faults.append(f"nobody is reminded for {name}: its files have errors")
            continue
        clients[name] = client
        reminders += days.reminders(client, order.as_of, order.said)
    reminders += days.of_practice(order.as_of)
    last = {name: [from_record(record) for record in records] for name, records in order.feeds.items()}
    events = days.feeds(clients.values(), order.as_of, last)
    feeds = dict(_feeds(shared.practice, clients, events))
    files = _Files(order, feeds)
    messages = messages_of(reminders, order.said, order.as_of, shared.practice, clients, files=files.find)
    said = (*order.said, *said_by(messages))
    until = order.as_of if faults else days.quiet_until(tuple(clients.values()), said, events)
    return RemindAnswer(order.client, messages, feeds, until, tuple(faults))


def _placements(rows: Iterable[PlacedRow]) -> dict[str, Placement]:
    """Return where the field calendar put each visit; rows of an earlier engine, without ids, place nothing."""
    return {
        row["visit"]: Placement(row["person_id"], date.fromisoformat(row["day"]), date.fromisoformat(row["last"]))
        for row in rows
        if "person_id" in row
    }


def _grounds(order: RemindOrder, shared: Shared) -> Grounds:
    """Return what the night rests on, whichever day it is."""
    values, _ = read_all_check_values(order.root)
    waiting = tuple(
        SetAsideFile(one.digest[:SHORT], one.name, one.laboratory, one.received_on, len(one.reasons))
        for one in read_received(order.root)
        if one.is_open
    )
    return Grounds(
        practice=shared.practice,
        weather=lambda client: weather_for(order.root, client)[0] or {},
        placed=_placements(order.placed),
        missing=order.missing,
        report=lambda client: _report(order, client),
        set_aside=waiting,
        check_values=values,
    )


def _report(order: RemindOrder, client: Client) -> ReportState | None:
    """Return how the farm reports of a client stand; None where it has none."""
    made_on = order.reports.get(client.id)
    if made_on is None:
        return None
    with speaking(client.practice.language):  # what changed is told to the practice alone
        return ReportState(sign_state_of(order.root, signed_values(client)), made_on)


def _feeds(
    practice: Practice, clients: Mapping[str, Client], events: Mapping[str, Sequence[FeedEvent]]
) -> Iterator[tuple[str, Feed]]:
    """Yield the feed of each client and of each crew member, by name, with its file."""
    organiser = practice.mail.from_address
    for name, found in events.items():
        whose, _, one = name.partition("/")
        if whose == CLIENT:
            file = document_name(one, WINDOWS_FEED)
            with speaking(clients[one].language):
                title = say("{client}: soil sampling", client=clients[one].name)
        else:
            file = crew_feed(one)
            with speaking(practice.language):
                title = say("{person}: visits", person=practice.people[one].name)
        yield name, Feed(file, calendar_text(title, organiser, found), [as_record(event) for event in found])


class _Files:
    """The files that go along with messages."""

    def __init__(self, order: RemindOrder, feeds: Mapping[str, Feed]) -> None:
        self._order = order
        self._feeds = feeds

    def find(self, wanted: WantedFile) -> FoundFile | None:
        """Return a file that a message wants; None where there is none."""
        if wanted.kind is FileKind.CALENDAR:
            feed = self._feeds.get(f"crew/{wanted.person}" if wanted.person else f"client/{wanted.client}")
            return None if feed is None else FoundFile(Path(feed.file).name, feed.content, feed.file)
        if wanted.kind is FileKind.PROGRAMME:
            return self._read(document_file(self._order.out, wanted.client, PROGRAMME))
        if wanted.kind is FileKind.PACK:
            _, farm, number = wanted.visit.split("/")
            return self._read(document_file(self._order.out, wanted.client, f"field_pack-{farm}-{number}.pdf"))
        drafts = wanted.kind is FileKind.DRAFT
        folder = self._order.out / ("drafts" if drafts else "clients") / wanted.client
        reports = sorted(folder.glob("farm_report-*.pdf")) if folder.is_dir() else []
        return self._read(reports[0]) if reports else None

    def _read(self, path: Path) -> FoundFile | None:
        """Return a file of the output folder."""
        if not path.is_file():
            return None
        return FoundFile(path.name, path.read_bytes(), path.relative_to(self._order.out).as_posix())
