"""Calendar feeds: what is to stand in one, and its events as they were last given out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class FeedStatus(StrEnum):
    """How sure an event is, in the words of RFC 5545, section 3.8.1.11."""

    TENTATIVE = "TENTATIVE"
    CONFIRMED = "CONFIRMED"
    CANCELLED = "CANCELLED"


@dataclass(frozen=True, slots=True)
class FeedVisit:
    """A visit as it is to stand in a feed.

    Attributes:
        client, farm: ids.
        tasks: `zone/protocol/season` of its tasks, the season by its first day; sorted, never empty.
        first, last: its days, both included.
        placed: whether somebody is placed on it; otherwise its days are those on which it may be made.
        summary, description, location: words for people.
        alarm_hours: the alarm rings so many hours before the first day begins [h].
    """

    client: str
    farm: str
    tasks: tuple[str, ...]
    first: date
    last: date
    placed: bool
    summary: str
    description: str
    location: str
    alarm_hours: int


@dataclass(frozen=True, slots=True)
class FeedEvent:
    """An event of a feed as it was last given out.

    Attributes:
        uid: names it for ever.
        sequence: how often it was changed in a way that a calendar must take over [-].
        stamped: as-of date of the night on which it became as it is.
        status: how sure it is.
        visit: the visit that it stands for.
    """

    uid: str
    sequence: int
    stamped: date
    status: FeedStatus
    visit: FeedVisit
