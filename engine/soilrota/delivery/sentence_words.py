"""What the sentences of a reminder are made of: its facts as a reader says them, and what comes out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from soilrota.delivery.days import away_words, date_words, day_words, joined
from soilrota.language import marked, say
from soilrota.model.reminders import Event, Recipient, TaskName

#: Classes of material as people say them.
_CLASSES = {
    "mineral-fertiliser": marked("fertiliser"),
    "lime": marked("lime"),
    "gypsum": marked("gypsum"),
    "manure": marked("manure or slurry"),
    "compost": marked("compost"),
    "biosolids": marked("biosolids"),
    "other-amendment": marked("another amendment"),
}


@dataclass(frozen=True, slots=True)
class Said:
    """A reminder in words; `short` is what a subject says, without the farm."""

    head: str
    lines: tuple[str, ...]
    short: str


@dataclass(frozen=True, slots=True)
class Words:
    """What words are made of: the event, its tasks, who reads, and when."""

    event: Event
    tasks: tuple[TaskName, ...]
    to: Recipient
    as_of: date
    before: date | None = None

    @property
    def moved(self) -> tuple[str, ...]:
        """What is said of a day that moved since it was said; nothing where it did not."""
        if self.before is None:
            return ()
        before = day_words(self.before, self.to.language, self.as_of)
        return (say("This is a change: before, it was {day}.", day=before),)

    @property
    def facts(self) -> Mapping[str, Any]:
        """The facts of the event."""
        return self.event.facts

    def day(self, name: str) -> str:
        """Return a fact that is a day, with its weekday."""
        return day_words(self.facts[name], self.to.language, self.as_of)

    def date(self, name: str) -> str:
        """Return a fact that is a day, with its year."""
        return date_words(self.facts[name], self.to.language)

    def away(self, name: str) -> str:
        """Return how far ahead a fact that is a day is."""
        return away_words(self.facts[name], self.as_of)

    @property
    def where(self) -> tuple[str, ...]:
        """What is to be sampled, a line a protocol."""
        return what_where(self.tasks)

    @property
    def material(self) -> str:
        """What is spread: the material where it was named, else its class."""
        name = str(self.facts["material"]).strip()
        return name or say(_CLASSES[str(self.facts["class"])])


def what_where(tasks: Sequence[TaskName]) -> tuple[str, ...]:
    """Return tasks as lines, one for the zones of each protocol.

    >>> what_where((TaskName("Barn", "Topsoil pasture"), TaskName("Ridge", "Topsoil pasture")))
    ('Topsoil pasture: Barn and Ridge',)
    """
    protocols: dict[str, list[str]] = {}
    for task in tasks:
        protocols.setdefault(task.protocol, []).append(task.zone)
    return tuple(f"{protocol}: {joined(dict.fromkeys(zones))}" for protocol, zones in protocols.items())
