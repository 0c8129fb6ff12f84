"""Ids of blind check samples against those given out to clients: none is to mean two bags."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from soilrota.batch.issued import FOLDER, read_issued
from soilrota.problems import Place, Problem, error

if TYPE_CHECKING:
    from soilrota.model.practice import CheckBag

_FILE = "check_samples.csv"


def reserved_ids(root: Path) -> frozenset[str]:
    """Return the ids of blind check samples, which no client is to have; none where there is no such table.

    A table with an error gives none: it stops a night before any id is given out.
    """
    from soilrota.files import read_csv  # noqa: PLC0415 - a night that reads no table does without what reads them

    path = root / _FILE
    table = read_csv(path, _FILE, "check_samples")[0] if path.is_file() else None
    return frozenset(row.values["bag"] for row in table.rows) if table else frozenset()


def doubly_used(root: Path, check_bags: Iterable[CheckBag]) -> tuple[Problem, ...]:
    """Return an error for each check sample whose id was given out to a client.

    Args:
        root: the book's folder, for what was given out; files of it that have errors are passed over.
        check_bags: the blind check samples.
    """
    checks = {bag.bag: bag for bag in check_bags}
    if not checks:
        return ()
    folder = root / FOLDER
    clients = sorted(path.name for path in folder.iterdir() if path.is_dir()) if folder.is_dir() else ()
    return tuple(
        _doubly_used(checks[one.bag.id], client, f"{one.bag.farm}/{one.bag.zone}")
        for client in clients
        if (issued := read_issued(root, client)[0]) is not None
        for one in issued.bags
        if one.bag.id in checks
    )


def _doubly_used(bag: CheckBag, client: str, zone: str) -> Problem:
    """Return that the id of a check sample was given out."""
    found = f"{bag.bag} was given out to {client} for {zone}"
    mend = "correct the id; if the bag really carries it, take the row out and ask the laboratory to pass the bag over"
    place = Place(bag.place.file, bag.place.line, bag.place.column, "bag")
    return error("check-bag-issued", place, found, "an id that no client has", mend)
