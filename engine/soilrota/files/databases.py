"""SQLite files that must never be lost: begun whole, and put aside with their companions when damaged."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path


def make_database(path: Path, script: str, application: int, version: int) -> None:
    """Make a database, whole at the moment at which it gets its name.

    Args:
        path: its place; the folder must be there.
        script: statements that make its tables.
        application: the mark in the header by which a file is known as ours.
        version: of its tables.

    Raises:
        OSError: it cannot be written; nothing is left behind.
        sqlite3.Error: as above.
    """
    beside = path.with_name(f".~{path.name}.{os.getpid()}.tmp")
    for old in path.parent.glob(f".~{path.name}.*"):
        old.unlink(missing_ok=True)
    try:
        with closing(sqlite3.connect(beside)) as connection:
            connection.executescript(script)
            connection.execute(f"PRAGMA application_id = {application}")
            connection.execute(f"PRAGMA user_version = {version}")
            connection.commit()
        beside.replace(path)
    except (OSError, sqlite3.Error):
        beside.unlink(missing_ok=True)
        raise


def put_database_aside(path: Path) -> str:
    """Rename a damaged database with its companions, and return its new name; an earlier one is never replaced."""
    number = 1
    while (aside := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    for companion in ("-wal", "-shm", ""):
        part = path.with_name(path.name + companion)
        if part.exists():
            part.rename(aside.with_name(aside.name + companion))
    return aside.name


def database_put_aside(path: Path) -> str:
    """Return the name of the first file that was put aside as a damaged one of a database; empty where none was."""
    return min((found.name for found in path.parent.glob(f"{path.name}.damaged-*")), default="")
