"""Files of a client, each read by itself."""

from __future__ import annotations

from soilrota.book.client_files import read_client_files
from tests.book.small_book import Book


def test_optional_files(book: Book) -> None:
    """Only client.yaml must be there."""
    files, problems = read_client_files(book.root, "anvil-creek")
    assert problems == ()
    assert files.client is not None
    assert (files.map, files.map_failed, files.applications, files.results) == (None, False, None, ())


def test_one_broken_file_stops_no_other(book: Book) -> None:
    """A broken map is reported, and the client's file is read."""
    book.write("map.geojson", "{")
    files, problems = read_client_files(book.root, "anvil-creek")
    assert files.client is not None
    assert (files.map, files.map_failed) == (None, True)
    assert {problem.place.file for problem in problems} == {"clients/anvil-creek/map.geojson"}


def test_a_missing_client_file(book: Book) -> None:
    """A folder without client.yaml is a problem, not an exception."""
    files, problems = read_client_files(book.root, "nobody")
    assert files.client is None
    assert [problem.place.file for problem in problems] == ["clients/nobody/client.yaml"]
