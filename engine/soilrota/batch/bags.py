"""Which bags there are: those given out, those that field notes name, and those of them that have not come back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path

from soilrota.batch.issued import read_issued
from soilrota.book import Shared, read_field_notes, read_results, standing
from soilrota.model.client import Client
from soilrota.model.intake import ClientBags, MissingBag
from soilrota.model.practice import Laboratory, Practice
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.problems import Problem, Severity, has_errors
from soilrota.results import missing_bags
from soilrota.timing import results_day


def read_bags(
    root: Path, clients: Iterable[str], practice: Practice
) -> tuple[tuple[ClientBags, ...], tuple[Problem, ...]]:
    """Return the bags of every client, read without the rest of its files, and a warning for what cannot be read.

    Args:
        root: the book's folder.
        clients: ids of the clients.
        practice: the practice, for the form of its field notes.
    """
    found: list[ClientBags] = []
    problems: tuple[Problem, ...] = ()
    for client in clients:
        notes, of_notes = read_field_notes(root, client, practice.notes_form)
        issued, of_issued = read_issued(root, client)
        found.append(ClientBags(client, tuple(one.bag for one in issued.bags) if issued else (), notes))
        problems += tuple(problem for some in (of_notes, of_issued) if has_errors(some) for problem in some)
    return tuple(found), tuple(replace(problem, severity=Severity.WARNING) for problem in problems)


def with_ground(bags: ClientBags, client: Client) -> ClientBags:
    """Return the bags of a client with the ground and the protocols that its records may name."""
    zones = {(farm.id, zone.id) for farm in client.farms for zone in farm.zones}
    former = {
        (zone.farm, old)
        for farm in client.farms
        for zone in farm.zones
        for forebear in zone.follows
        for old in forebear.zones
    }
    protocols = {*client.protocols, *(note.protocol for note in bags.notes)}
    return replace(bags, zones=frozenset(zones | former), protocols=frozenset(protocols))


def missing_of(client: Client, as_of: date) -> tuple[MissingBag, ...]:
    """Return the bags of one client that have not come back."""
    bags = (ClientBags(client.id, (), client.field_notes),)
    return _missing(bags, {client.id: client.results}, client.protocols, client.practice, as_of)


def missing_in_book(root: Path, clients: Sequence[str], shared: Shared, as_of: date) -> tuple[MissingBag, ...]:
    """Return the bags of all clients that have not come back, the longest awaited first.

    Only field notes and results are read; a client whose own protocol names another laboratory than the shared one of
    the same id is told the shared one's time.
    """
    bags, _ = read_bags(root, clients, shared.practice)
    results = {client: standing(read_results(root, client)[0])[0] for client in clients}
    return _missing(bags, results, shared.protocols, shared.practice, as_of)


def _missing(
    bags: Sequence[ClientBags],
    results: Mapping[str, Sequence[Result]],
    protocols: Mapping[str, Protocol],
    practice: Practice,
    as_of: date,
) -> tuple[MissingBag, ...]:
    """Return the bags that have not come back, with the day on which their results are due."""

    def laboratory(note: FieldNote) -> Laboratory | None:
        protocol = protocols.get(note.protocol)
        return practice.laboratories.get(protocol.laboratory) if protocol else None

    def laboratory_of(_client: str, note: FieldNote) -> str:
        found = laboratory(note)
        return found.id if found else ""

    def due_of(_client: str, note: FieldNote) -> date | None:
        found = laboratory(note)
        return results_day(found, note.day) if found else None

    return missing_bags(bags, results, as_of, laboratory_of=laboratory_of, due_of=due_of)
