"""The way into documents keeps the places."""

from __future__ import annotations

from soilrota.book.places import items, whole
from soilrota.files import read_yaml
from tests.book.small_book import Book
from tests.book.written import written


def test_items_of_items() -> None:
    """Each entry of a list knows its place; a list that is not written has none."""
    top = written({"farms": [{"zones": [{"id": "a"}, {"id": "b"}]}]})
    (farm,) = items(top, "farms")
    assert [zone.data["id"] for zone in items(farm, "zones")] == ["a", "b"]
    assert [zone.at("id").path for zone in items(farm, "zones")] == ["farms/0/zones/0/id", "farms/0/zones/1/id"]
    assert list(items(top, "targets")) == []


def test_places_of_a_document(book: Book) -> None:
    """A place is the line of the value; of one that is not written, the nearest above that is."""
    path = book.root / "clients" / "anvil-creek" / "client.yaml"
    document, _ = read_yaml(path, "clients/anvil-creek/client.yaml", "client")
    assert document is not None
    top = whole(document)
    (farm,) = items(top, "farms")
    assert top.at("adviser").line == book.line("client.yaml", "adviser:")
    assert farm.at("name").line == book.line("client.yaml", "name: Home block")
    assert farm.at("locality").line == farm.at().line == book.line("client.yaml", "id: home")
    assert top.at("targets", 0, "low").file == "clients/anvil-creek/client.yaml"
