"""The next state of a calendar feed, from its last state and the visits that it is to show.

An event stays the same event, whatever becomes of its visit: a visit takes over the event that it shares most tasks
with. What it takes over keeps its UID, and its SEQUENCE rises where days, certainty or words on its face changed. An
event whose visit is gone is cancelled while its days lie ahead; one that is past stays as it was, and is forgotten
after a while.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, replace
from datetime import date, timedelta
from typing import Any
from uuid import UUID, uuid5

from soilrota.model.feeds import FeedEvent, FeedStatus, FeedVisit

#: An event is forgotten so long after its last day, or after it was cancelled [d]. House default.
_KEPT_DAYS = 180
#: Names are made below this one (RFC 7986 recommends UUIDs); drawn once at random.
_NAMES = UUID("5b1a5d4e-5d0c-4b3c-9c58-8f1f6f0b3a71")


def next_feed(feed: str, last: Sequence[FeedEvent], visits: Iterable[FeedVisit], as_of: date) -> tuple[FeedEvent, ...]:
    """Return the events of a feed on the as-of date, by first day and UID.

    The same arguments give the same answer, and an answer given back with the same visits stays as it is.

    Args:
        feed: names the feed, for instance `client/anvil-creek`; part of every UID, so that no two feeds share one.
        last: the events as they were last given out.
        visits: what the feed is to show.
        as_of: the as-of date.
    """
    wanted = sorted(visits, key=lambda one: (one.client, one.farm, one.first, one.tasks))
    taken = _taken_over(last, wanted, as_of)
    free = {event.uid for event in last} - {event.uid for event in taken.values()}
    events: list[FeedEvent] = []
    for number, visit in enumerate(wanted):
        known = taken.get(number)
        if known is None:
            uid = _uid(feed, visit, as_of, {event.uid for event in (*last, *events)})
            events.append(FeedEvent(uid, 0, as_of, _status(visit), visit))
        else:
            events.append(_changed(known, visit, as_of))
    events += [kept for event in last if event.uid in free for kept in _without_visit(event, as_of)]
    return tuple(sorted(events, key=lambda event: (event.visit.first, event.uid)))


def _taken_over(last: Sequence[FeedEvent], wanted: Sequence[FeedVisit], as_of: date) -> dict[int, FeedEvent]:
    """Return which event each visit takes over, by the visit's number: those that share most tasks, first.

    A past event of which a task is done already stays where it was: the visit that is left over is a new one.
    """
    pairs = []
    for number, visit in enumerate(wanted):
        for event in last:
            shared = len(set(visit.tasks) & set(event.visit.tasks))
            past = event.visit.last < as_of
            whole = set(event.visit.tasks) <= set(visit.tasks)
            same_farm = (visit.client, visit.farm) == (event.visit.client, event.visit.farm)
            if same_farm and shared and (whole or not past):
                cancelled = event.status is FeedStatus.CANCELLED
                away = abs((visit.first - event.visit.first).days)
                pairs.append((cancelled, -shared, away, number, event.uid, event))
    found: dict[int, FeedEvent] = {}
    used: set[str] = set()
    for *_, number, uid, event in sorted(pairs, key=lambda pair: pair[:5]):
        if number not in found and uid not in used:
            found[number] = event
            used.add(uid)
    return found


def _changed(event: FeedEvent, visit: FeedVisit, as_of: date) -> FeedEvent:
    """Return an event with its visit as it is now; the very same event where nothing changed."""
    status = _status(visit)
    if event.visit == visit and event.status is status:
        return event
    sequence = event.sequence + (_face(event.visit, event.status) != _face(visit, status))
    return FeedEvent(event.uid, sequence, as_of, status, visit)


def _face(visit: FeedVisit, status: FeedStatus) -> tuple[object, ...]:
    """Return what a calendar must take over."""
    return visit.first, visit.last, status, visit.summary, visit.location


def _without_visit(event: FeedEvent, as_of: date) -> tuple[FeedEvent, ...]:
    """Return what becomes of an event whose visit is gone: nothing once it is old."""
    past = event.visit.last < as_of
    if event.status is FeedStatus.CANCELLED or past:
        gone = max(event.visit.last, event.stamped) + timedelta(days=_KEPT_DAYS)
        return (event,) if as_of <= gone else ()
    return (replace(event, sequence=event.sequence + 1, stamped=as_of, status=FeedStatus.CANCELLED),)


def _status(visit: FeedVisit) -> FeedStatus:
    """Return how sure a visit is."""
    return FeedStatus.CONFIRMED if visit.placed else FeedStatus.TENTATIVE


def _uid(feed: str, visit: FeedVisit, as_of: date, used: set[str]) -> str:
    """Return the UID of a new event, made of feed, client, farm, tasks, seasons and night; another where that is used.

    The night makes it differ from that of a forgotten event with the same tasks: a calendar that remembers that one
    would take the new one, which begins at SEQUENCE 0 again, for an old state of it, and not show it.
    """
    text = "\n".join((feed, visit.client, visit.farm, *visit.tasks, as_of.isoformat()))
    again = 0
    while (uid := str(uuid5(_NAMES, f"{text}\n{again}" if again else text))) in used:
        again += 1
    return uid


def as_record(event: FeedEvent) -> dict[str, Any]:
    """Return an event as plain values, for a ledger that keeps JSON."""
    record = asdict(event)
    record["stamped"] = event.stamped.isoformat()
    visit = record["visit"]
    visit["first"], visit["last"] = event.visit.first.isoformat(), event.visit.last.isoformat()
    return record


def from_record(record: Mapping[str, Any]) -> FeedEvent:
    """Return the event of a record.

    Raises:
        KeyError, TypeError, ValueError: it is no record of ours.
    """
    visit = dict(record["visit"])
    days = {name: date.fromisoformat(visit[name]) for name in ("first", "last")}
    return FeedEvent(
        record["uid"],
        record["sequence"],
        date.fromisoformat(record["stamped"]),
        FeedStatus(record["status"]),
        FeedVisit(**{**visit, **days, "tasks": tuple(visit["tasks"])}),
    )
