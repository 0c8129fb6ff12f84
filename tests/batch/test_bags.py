"""Bags of every client, read without the rest of its files; those that are not back, with the day they are due."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.batch.bags import missing_in_book, missing_of, read_bags, with_ground
from soilrota.batch.reading import read_client, read_shared
from soilrota.book import Shared
from soilrota.model.intake import ClientBags
from soilrota.problems import Severity
from tests.acceptance.intake_book import add_laboratory, add_notes
from tests.acceptance.small_book import CLIENTS, edit
from tests.documents.made import AS_OF, example


def _shared(book: Path) -> Shared:
    """Return what the clients of a book share."""
    shared, problems = read_shared(book)
    assert shared is not None, problems
    return shared


def test_bags_are_read_and_errors_become_warnings(book: Path) -> None:
    """A client whose notes have an error keeps the notes that can be read; the others are not troubled."""
    add_notes(book, "alder-farm", {"A1": "2027-02-01"})
    add_notes(book, "birch-farm", {"B1": "2027-02-01", "B2": "yesterday"})
    bags, problems = read_bags(book, CLIENTS, _shared(book).practice)
    assert [one.client for one in bags] == list(CLIENTS)
    assert [note.bag for note in bags[0].notes] == ["A1"]
    assert problems
    assert {(problem.severity, problem.place.file) for problem in problems} == {
        (Severity.WARNING, "clients/birch-farm/field_notes.csv")
    }


def test_ground_that_records_may_name() -> None:
    """Zones as they are and as they were before they were redrawn, and protocols that only a note names."""
    client = example("dune-end-sheep")
    bags = with_ground(ClientBags(client.id, (), client.field_notes), client)
    assert {("dune-end", zone.id) for zone in client.farms[0].zones} <= bags.zones
    former = {old for zone in client.farms[0].zones for forebear in zone.follows for old in forebear.zones}
    assert former
    assert {("dune-end", old) for old in former} <= bags.zones
    assert {note.protocol for note in client.field_notes} <= bags.protocols


def test_bags_that_are_not_back_and_when_they_are_due(book: Path) -> None:
    """The book and the client say the same; a bag is due where its protocol names a laboratory."""
    add_notes(book, "alder-farm", {"A1": "2027-02-01"})
    day = date(2027, 2, 15)
    (missing,) = missing_in_book(book, CLIENTS, _shared(book), day)
    assert (missing.bag, missing.laboratory, missing.due) == ("A1", "", None)
    add_laboratory(book)
    edit(book / "protocols.yaml", "    pattern:", "    laboratory: bench\n    pattern:")
    (missing,) = missing_in_book(book, CLIENTS, _shared(book), day)
    assert missing.laboratory == "bench"
    assert missing.due is not None
    assert date(2027, 2, 1) < missing.due < day
    client, _ = read_client(book, "alder-farm", _shared(book))
    assert client is not None
    assert missing_of(client, day) == (missing,)


def test_what_came_back_of_the_example() -> None:
    """Bags at the laboratory are missing; those of earlier years came back."""
    found = missing_of(example("anvil-creek"), AS_OF)
    assert {bag.since.year for bag in found} == {2027}
    assert "A27-013" in {bag.bag for bag in found}
