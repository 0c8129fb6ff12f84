"""Databases begun whole, and put aside when damaged."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from soilrota.files.databases import database_put_aside, make_database, put_database_aside


def test_it_is_made_whole(tmp_path: Path) -> None:
    """Tables, mark and version; what an earlier attempt left is gone."""
    path = tmp_path / "a.sqlite"
    (tmp_path / ".~a.sqlite.1.tmp").write_bytes(b"half")
    make_database(path, "CREATE TABLE one (n INTEGER) STRICT;", 7, 3)
    with closing(sqlite3.connect(path)) as connection:
        found = [connection.execute(f"PRAGMA {name}").fetchone()[0] for name in ("application_id", "user_version")]
        assert found == [7, 3]
        assert connection.execute("SELECT count(*) FROM one").fetchone() == (0,)
    assert [one.name for one in tmp_path.iterdir()] == ["a.sqlite"]


def test_what_cannot_be_made_leaves_nothing(tmp_path: Path) -> None:
    """Neither the file nor a part of it."""
    with pytest.raises(sqlite3.Error):
        make_database(tmp_path / "a.sqlite", "CREATE nonsense;", 7, 3)
    assert list(tmp_path.iterdir()) == []


def test_a_damaged_one_is_put_aside_with_its_companions(tmp_path: Path) -> None:
    """Each under a number of its own; the first is named."""
    path = tmp_path / "a.sqlite"
    assert database_put_aside(path) == ""
    for number in (1, 2):
        for name in ("a.sqlite", "a.sqlite-wal"):
            (tmp_path / name).write_text(str(number), encoding="utf-8")
        assert put_database_aside(path) == f"a.sqlite.damaged-{number}"
    names = sorted(one.name for one in tmp_path.iterdir())
    assert names == [f"a.sqlite.damaged-{number}{part}" for number in (1, 2) for part in ("", "-wal")]
    assert (tmp_path / "a.sqlite.damaged-1").read_text(encoding="utf-8") == "1"
    assert database_put_aside(path) == "a.sqlite.damaged-1"
