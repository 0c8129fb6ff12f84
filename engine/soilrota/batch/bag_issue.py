"""Gives out bag ids: the next free ones of the practice, a bag of one task, season and layer always the same one."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date
from itertools import count, islice
from pathlib import Path
from typing import TYPE_CHECKING

from soilrota.bag_ids import bag_id, serial_of
from soilrota.batch.issued import FOLDER, add_bags, read_issued
from soilrota.model.issued import Issued, IssuedBag
from soilrota.problems import Problem, has_errors

if TYPE_CHECKING:
    from soilrota.model.field_pack import Bag


class BagIssue:
    """The bag ids of one practice, read once a night and only where an id is wanted."""

    def __init__(self, root: Path, reserved: Callable[[], Collection[str]] = frozenset) -> None:
        """Begin.

        Args:
            root: the book's folder.
            reserved: returns ids that no client is to have; asked where a new id is wanted.
        """
        self._root = root
        self._reserved = reserved
        self._issued: dict[str, Issued] = {}
        self._next: int | None = None
        self.problems: tuple[Problem, ...] = ()

    def bags_for(self, client: str, wanted: Sequence[Bag], day: date) -> tuple[Bag, ...] | None:
        """Return the wanted bags with their ids, giving out new ones and writing them down first.

        Args:
            client: id of the client.
            wanted: bags without ids.
            day: the as-of date.

        Returns:
            The bags in the same order; None where a file of what was given out has an error, see `problems`.

        Raises:
            OSError: the file cannot be written.
        """
        issued = self.of(client)
        if issued is None:
            return None
        known = {replace(one.bag, id=""): one.bag for one in issued.bags}
        fresh = [bag for bag in dict.fromkeys(wanted) if bag not in known]
        if fresh:
            first = self._first_free()
            if first is None:
                return None
            ids = islice(self._free_ids(first), len(fresh))
            given = [replace(bag, id=free) for bag, free in zip(fresh, ids, strict=True)]
            self._issued[client] = add_bags(self._root, client, issued, [IssuedBag(bag, day) for bag in given])
            self._next = serial_of(given[-1].id) + 1
            known |= {replace(bag, id=""): bag for bag in given}
        return tuple(known[bag] for bag in wanted)

    def of(self, client: str) -> Issued | None:
        """Return what was given out for a client; None where a file has an error."""
        if client not in self._issued:
            issued, problems = read_issued(self._root, client)
            self.problems += problems if has_errors(problems) else ()
            if issued is None:
                return None
            self._issued[client] = issued
        return self._issued[client]

    def keep(self, client: str, issued: Issued) -> None:
        """Remember what is now given out for a client."""
        self._issued[client] = issued

    def _free_ids(self, first: int) -> Iterator[str]:
        """Yield the ids from a number on that are not reserved."""
        reserved = self._reserved()
        return (free for free in map(bag_id, count(first)) if free not in reserved)

    def _first_free(self) -> int | None:
        """Return the number after the last one given out to any client that ever was; None where a file has an error.

        An id that cannot be read must not be given out again, so no id is given out then.
        """
        if self._next is None:
            everyone = [self.of(client) for client in _folders(self._root)]
            if any(issued is None for issued in everyone):
                return None
            serials = (serial_of(one.bag.id) for issued in everyone if issued is not None for one in issued.bags)
            self._next = max(serials, default=0) + 1
        return self._next


def _folders(root: Path) -> Iterable[str]:
    """Return the clients to whom anything was given out."""
    folder = root / FOLDER
    return sorted(path.name for path in folder.iterdir() if path.is_dir()) if folder.is_dir() else ()
