"""What a night has read is found again while its files are the same, and read again otherwise."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from soilrota.batch.read_once import keep_in, once
from soilrota.batch.reading import read_client, read_shared
from tests.documents.made import BOOK, CLIENTS


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[Path]:
    """Keep what is read in a folder, for one test."""
    place = tmp_path / "kept"
    place.mkdir()
    keep_in(place)
    yield place
    keep_in(None)


class Reader:
    """Reads one text after the other."""

    def __init__(self, *texts: str) -> None:
        self.left = list(texts)

    def __call__(self) -> str:
        """Read the next text."""
        return self.left.pop(0)


def test_nothing_is_kept_before_there_is_a_place() -> None:
    """Commands that are no night read what they need."""
    reader = Reader("a", "b")
    assert [once(lambda: "same", reader) for _ in range(2)] == ["a", "b"]


@pytest.mark.usefixtures("folder")
def test_the_same_digest_is_read_once_and_another_again() -> None:
    """What was read under one digest is nothing to another."""
    reader = Reader("a", "b")
    assert [once(lambda digest=digest: digest, reader) for digest in "1121"] == ["a", "a", "b", "a"]  # type: ignore[misc]


@pytest.mark.usefixtures("folder")
def test_what_changed_while_it_was_read_is_not_kept() -> None:
    """The digest from before stands for what nobody read."""
    digests, reader = Reader("old", "new", "old", "old", "old"), Reader("mixed", "old")
    assert [once(digests, reader) for _ in range(3)] == ["mixed", "old", "old"]


@pytest.mark.parametrize("content", [b"", b"no pickle", b"\x80\x05"])
def test_a_damaged_file_is_read_over(folder: Path, content: bytes) -> None:
    """The place is no record: it costs nothing but time."""
    reader = Reader("a", "b")
    once(lambda: "1", reader)
    (kept,) = folder.iterdir()
    kept.write_bytes(content)
    assert [once(lambda: "1", reader) for _ in range(2)] == ["b", "b"]


def test_a_place_that_is_gone_costs_nothing(folder: Path) -> None:
    """A full or missing disk is no reason to make no documents."""
    folder.rmdir()
    reader = Reader("a", "b")
    assert [once(lambda: "1", reader) for _ in range(2)] == ["a", "b"]


@pytest.mark.parametrize("name", CLIENTS)
def test_clients_of_the_example_come_back_equal(folder: Path, name: str) -> None:
    """Client, practice and problems, all of them."""
    shared, _ = read_shared(BOOK)
    assert shared is not None
    first = read_client(BOOK, name, shared)
    assert len(list(folder.iterdir())) == 2
    assert read_shared(BOOK)[0] == shared
    again = read_client(BOOK, name, shared)
    assert again == first
    assert again[0] is not first[0]
