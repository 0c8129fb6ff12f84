"""What a zone may follow."""

from __future__ import annotations

import pytest

from soilrota.problems import Severity
from tests.book.small_book import Book

NOTES = "day,farm,zone,protocol,top_cm,bottom_cm,cores,soil_state,sampler,bag,note\n"
NORTH = NOTES + "2023-02-20,home,north,topsoil,0,10,25,moist,Jo,B1,\n"


def follow(book: Book, *former: str) -> None:
    """Let the hill follow former series."""
    book.edit("client.yaml", "        area_ha: 8\n", f"        area_ha: 8\n        follows: [{', '.join(former)}]\n")


@pytest.mark.parametrize(
    "former",
    [
        "{since: 2024-07-01, how: redrawn}",
        "{since: 2024-07-01, how: redrawn, zones: [north]}",
        "{since: 2024-07-01, how: split, zones: [river-flat]}",
        "{since: 2024-07-01, how: merged, zones: [hill, north]}",
    ],
)
def test_what_can_be(book: Book, former: str) -> None:
    """Itself, a zone that is gone, or a zone that is still there and gave some of its land; records may name them."""
    if "north" in former:
        book.write("field_notes.csv", NORTH)
    follow(book, former)
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    assert client.farms[0].zones[1].follows[0].how in former


def test_zones_that_are_gone_are_known_ground(book: Book) -> None:
    """Notes, results and applications may name them; the map and the client's file may not; others are unknown."""
    book.write("field_notes.csv", NORTH.replace("north", "nort"))
    follow(book, "{since: 2024-07-01, how: redrawn, zones: [north]}")
    unknown, unused = sorted(book.problems(), key=lambda problem: problem.code, reverse=True)
    assert (unknown.code, unknown.mend) == ("unknown-zone", "write north")
    assert (unused.code, unused.severity) == ("former-zone-without-records", Severity.WARNING)
    book.write("field_notes.csv", NORTH)
    assert book.problems() == ()


@pytest.mark.parametrize(
    ("former", "code"),
    [
        (["{since: 2024-07-01, how: redrawn, zones: [river-flat]}"], "former-zone-there"),
        (["{since: 2024-07-01, how: merged, zones: [river-flat]}"], "merged-from-one"),
        (["{since: 2024-07-01, how: redrawn}", "{since: 2024-07-01, how: redrawn}"], "series-repeated"),
        (["{since: 1924-07-01, how: redrawn}"], "year-not-possible"),
    ],
)
def test_what_cannot_be(book: Book, former: list[str], code: str) -> None:
    """Redrawn from a zone that is still there, merged from one, two changes on one day, a year that cannot be."""
    follow(book, *former)
    found = {problem.code: problem for problem in book.problems()}
    assert set(found) == {code}
    assert found[code].place.line == book.line("client.yaml", "follows:")
