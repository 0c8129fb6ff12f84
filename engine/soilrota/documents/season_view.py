"""What the season page shows: every task of every client, where its papers lie, what needs somebody today."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from soilrota.model.windows import Span, State


@dataclass(frozen=True, slots=True)
class PaperLink:
    """A file beside the page: words, and its path from the page with forward slashes."""

    words: str
    path: str


@dataclass(frozen=True, slots=True)
class SeasonClient:
    """A client: id, name, and its papers that are not of one visit alone."""

    id: str
    name: str
    papers: tuple[PaperLink, ...] = ()


@dataclass(frozen=True, slots=True)
class SeasonTask:
    """One zone under one protocol.

    Attributes:
        client: id of the client.
        farm, zone, protocol: names.
        state: where it stands.
        season_name: what people call the season that the answer is about.
        season: days of that season; None where they are not known.
        open, closed: days of it that are open, and those that a record took.
        spreading: planned spreadings that take some of it.
        best: the best day; None where there is none or it has passed.
        best_passed: whether the best day has passed, so that any open day serves.
        planned: its day in the field calendar; None without one.
        person: who goes there on that day; empty without one.
        adviser: the client's adviser.
        last_sampled: day of the last sampling; None when never.
        months_overdue: whole months since its due season ended [month]; None when not overdue.
        papers: field pack and labels of its visit.
        is_current: whether the client could be looked at; else the row is of an earlier night.
    """

    client: str
    farm: str
    zone: str
    protocol: str
    state: State
    season_name: str = ""
    season: Span | None = None
    open: tuple[Span, ...] = ()
    closed: tuple[Span, ...] = ()
    spreading: tuple[Span, ...] = ()
    best: date | None = None
    best_passed: bool = False
    planned: date | None = None
    person: str = ""
    adviser: str = ""
    last_sampled: date | None = None
    months_overdue: int | None = None
    papers: tuple[PaperLink, ...] = ()
    is_current: bool = True


@dataclass(frozen=True, slots=True)
class WantedGroup:
    """What needs somebody for one reason: a heading, what it means, and a line each.

    `state` is the state whose tasks they are; None where they are no tasks. `count` tells how many there are [-], also
    where one line speaks of several.
    """

    heading: str
    meaning: str
    lines: tuple[str, ...]
    state: State | None = None
    count: int = 0


@dataclass(frozen=True, slots=True)
class SeasonView:
    """The page: whose it is, tasks in order, their clients, papers of the practice, what else needs somebody.

    `wanted` holds what is no task: clients with problems, rows that wait, bags that are late. `language` is the tag of
    the practice's language.
    """

    practice: str
    tasks: tuple[SeasonTask, ...]
    clients: tuple[SeasonClient, ...]
    papers: tuple[PaperLink, ...] = ()
    wanted: tuple[WantedGroup, ...] = ()
    language: str = "en-GB"
