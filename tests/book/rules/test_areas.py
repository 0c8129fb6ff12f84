"""Areas of zones."""

from __future__ import annotations

import pytest

from soilrota.problems import Severity
from tests.book.small_book import Book


def test_an_area_is_needed(book: Book) -> None:
    """Without a map, the area must be stated."""
    book.edit("client.yaml", "        area_ha: 8\n", "")
    problem = book.only()
    assert (problem.code, problem.place.line) == ("area-missing", book.line("client.yaml", "id: hill"))


def test_no_area_is_asked_for_while_the_map_is_broken(book: Book) -> None:
    """A map that cannot be read may hold the area: only the map is reported."""
    book.edit("client.yaml", "        area_ha: 8\n", "")
    book.write("map.geojson", "{")
    assert {problem.place.file.rsplit("/", 1)[1] for problem in book.problems()} == {"map.geojson"}


@pytest.mark.parametrize(("area", "severity"), [("20", None), ("21.9", Severity.WARNING), ("22.1", Severity.ERROR)])
def test_the_largest_area_of_a_protocol(book: Book, area: str, severity: Severity | None) -> None:
    """Up to a tenth over the protocol's 20 ha is a warning, more an error."""
    book.edit("client.yaml", "area_ha: 8", f"area_ha: {area}")
    assert [problem.severity for problem in book.problems()] == ([severity] if severity else [])


def test_a_larger_area_with_a_reason(book: Book) -> None:
    """A written reason of the protocol lets a large zone pass, though not one that looks like a slip of unit."""
    book.add("protocols.yaml", "    reasons: {area: uniform plain}\n")
    book.edit("client.yaml", "area_ha: 8", "area_ha: 180")
    assert book.problems() == ()
    book.edit("client.yaml", "area_ha: 180", "area_ha: 600")
    assert book.only().code == "area-unlikely"
