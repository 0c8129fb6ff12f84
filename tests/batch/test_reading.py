"""The book as the night sees it: blanks of new files are errors like any other."""

from __future__ import annotations

from pathlib import Path

from soilrota.batch.reading import read_client, read_clients, read_shared
from tests.acceptance.small_book import CLIENTS, edit


def test_a_sound_book_is_read(book: Path) -> None:
    """Shared files and clients come without a problem."""
    shared, problems = read_shared(book)
    assert shared is not None
    assert problems == ()
    assert read_clients(book) == (CLIENTS, ())
    client, problems = read_client(book, "alder-farm", shared)
    assert client is not None
    assert problems == ()


def test_a_blank_stops_its_file_alone(book: Path) -> None:
    """A blank name of a client stops that client; a blank of the practice stops all."""
    shared, _ = read_shared(book)
    assert shared is not None
    edit(book / "clients" / "birch-farm" / "client.yaml", "Birch Farm", "__FILL__ the name")
    client, problems = read_client(book, "birch-farm", shared)
    assert client is None
    assert [problem.code for problem in problems] == ["blank-left"]
    edit(book / "practice.yaml", "Small Soil Practice", "__FILL__")
    assert read_shared(book)[0] is None
