"""What the season's table and page are made of: taken from the night and its ledger, as text that can be compared."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.ledger import ClientRecord, Ledger
from soilrota.batch.received import Received
from soilrota.batch.season import SEASON_FILE
from soilrota.batch.season_wanted import Wanting, wanting
from soilrota.batch.shared_step import FIELD_CALENDAR, LABORATORY_CHECKS
from soilrota.batch.values import Entry, PlacedRow, SeasonRow, VisitRow


@dataclass(frozen=True, slots=True)
class SeasonRequest:
    """What the step needs of the night.

    Attributes:
        out: the output folder.
        as_of: the as-of date.
        facts: what is known of the book as a whole.
        known: what is known of every client that ever was in the book, by id.
        current: ids of the clients that are as their files say.
        entries: what was said of clients in this night, by id.
        received: what is known of laboratory files.
    """

    out: Path
    as_of: date
    facts: BookFacts
    known: Mapping[str, ClientRecord]
    current: frozenset[str]
    entries: Mapping[str, Entry]
    received: tuple[Received, ...] = ()

    @property
    def in_book(self) -> dict[str, ClientRecord]:
        """What is known of the clients that are in the book, by id, in order."""
        names = sorted({*self.facts.clients, *self.facts.unreadable})
        return {name: self.known[name] for name in names if name in self.known}

    def rows(self) -> Iterator[SeasonRow]:
        """Yield the rows of every client of the book, by id."""
        for client, record in self.in_book.items():
            standing = "current" if client in self.current else "last-known"
            yield from ({**row, "standing": standing} for row in record.rows)


@dataclass(frozen=True, slots=True)
class SeasonFacts:
    """What the season page is made of, as the ledger keeps it.

    Attributes:
        practice: the practice's name.
        rows: rows of the season table.
        visits: visits that want a day, by client.
        placed: day and person of each visit that has one.
        papers: names of the files of each client that stand in its folder, by client.
        shared: names of the files of the practice.
        wanting: what needs somebody beside the tasks.
        language: language tag of the practice.
    """

    practice: str
    rows: tuple[SeasonRow, ...]
    visits: Mapping[str, Sequence[VisitRow]]
    placed: Sequence[PlacedRow]
    papers: Mapping[str, Sequence[str]]
    shared: Sequence[str]
    wanting: tuple[Wanting, ...]
    language: str = "en-GB"


def season_facts(request: SeasonRequest, ledger: Ledger) -> SeasonFacts:
    """Return what the page is made of: clients of the book, and the papers that stand in the output folder."""
    known, packs = request.in_book, ledger.packs()
    calendar, checks = ledger.shared(FIELD_CALENDAR.name), ledger.shared(LABORATORY_CHECKS.name)
    papers = {
        client: (*sorted(record.documents), *sorted(packs[client].files if client in packs else ()))
        for client, record in known.items()
    }
    shared = [name for record in (calendar, checks) if record is not None for name in sorted(record.files)]
    return SeasonFacts(
        practice=request.facts.practice,
        rows=tuple(request.rows()),
        visits={client: record.visits for client, record in known.items()},
        placed=calendar.placed if calendar is not None else (),
        papers=papers,
        shared=(*shared, SEASON_FILE),
        wanting=wanting(request.entries, known, request.received, request.as_of),
        language=request.facts.language,
    )
