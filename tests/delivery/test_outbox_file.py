"""The outbox's file: durable, never begun anew where one was, refused where it is too new."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from soilrota.delivery.faults import OutboxUnfitError
from soilrota.delivery.outbox_file import VERSION, open_connection, open_to_read


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return where an outbox lies."""
    path = tmp_path / "outbox.sqlite"
    open_connection(path).close()
    return path


def test_what_is_committed_lasts(path: Path) -> None:
    """Write-ahead log and full synchronisation, read back."""
    with closing(open_connection(path)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert connection.execute("PRAGMA synchronous").fetchone() == (2,)


@pytest.mark.parametrize("damage", [b"", b"no database", b"SQLite format 3\0" + b"\xff" * 4096])
def test_a_damaged_outbox_is_put_aside_and_none_is_begun(path: Path, damage: bytes) -> None:
    """An outbox that forgot what went would send it again: a person decides."""
    path.write_bytes(damage)
    with pytest.raises(OutboxUnfitError, match=r"damaged.*put aside as outbox\.sqlite\.damaged-1"):
        open_connection(path)
    assert path.with_name("outbox.sqlite.damaged-1").read_bytes() == damage
    with pytest.raises(OutboxUnfitError, match="there is no outbox"):
        open_connection(path)
    assert not path.exists()
    path.with_name("outbox.sqlite.damaged-1").rename(path.with_name("elsewhere"))
    open_connection(path).close()


def test_one_of_a_newer_engine_is_left_alone(path: Path) -> None:
    """Neither read nor changed."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    for way in (open_connection, open_to_read):
        with pytest.raises(OutboxUnfitError, match="newer soilrota"):
            way(path)
    assert path.exists()


def test_reading_changes_nothing(path: Path) -> None:
    """Not even where it is damaged."""
    with closing(open_to_read(path)) as connection, pytest.raises(sqlite3.OperationalError, match="readonly"):
        connection.execute("DELETE FROM outbox")
    path.write_bytes(b"no database")
    with pytest.raises(OutboxUnfitError, match="damaged"):
        open_to_read(path)
    assert path.read_bytes() == b"no database"


def test_one_that_somebody_holds_is_not_taken_for_damaged(path: Path) -> None:
    """It is said to be in use, and stays where it is."""
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(OutboxUnfitError, match="cannot be opened"):
            open_connection(path)
    assert path.exists()


def test_one_that_cannot_be_made(tmp_path: Path) -> None:
    """Its folder is missing."""
    with pytest.raises(OutboxUnfitError, match="cannot be made"):
        open_connection(tmp_path / "nowhere" / "outbox.sqlite")
