"""Bag ids and points that were given out: read with their problems, added to, never changed.

`records/issued/<client-id>/bags.csv` and `points.csv` are replaced whole with rows added at their end, and put in place
before any paper that names them is made. They are no part of a client's digest: a row can matter only once somebody
has sampled by it, and that changes the client's own files.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

from soilrota.files import file_digest, replace_file, safe_table
from soilrota.model.field_pack import Bag
from soilrota.model.issued import Issued, IssuedBag, IssuedPoint
from soilrota.problems import Problem

if TYPE_CHECKING:
    from soilrota.model.client import Client
    from soilrota.model.layout import EarlierPoint
    from soilrota.model.windows import TaskKey

FOLDER = "records/issued"
_BAGS, _POINTS = "bags.csv", "points.csv"
_BAG_COLUMNS = ("bag", "farm", "zone", "protocol", "season", "top_cm", "bottom_cm", "issued_on")
_POINT_COLUMNS = ("farm", "zone", "protocol", "season", "number", "longitude", "latitude", "in_row", "issued_on")


def read_issued(root: Path, client: str) -> tuple[Issued | None, tuple[Problem, ...]]:
    """Return what was given out for a client, or None where a file has an error; and the problems.

    Args:
        root: the book's folder.
        client: id of the client.
    """
    bags, wrong_bags = _rows(root, client, _BAGS, "issued_bags")
    points, wrong_points = _rows(root, client, _POINTS, "issued_points")
    problems = (*wrong_bags, *wrong_points)
    if bags is None or points is None:
        return None, problems
    return Issued(tuple(map(_bag, bags)), tuple(map(_point, points))), problems


def issued_file(root: Path, client: str) -> Path:
    """Return where the bags that were given out for a client are recorded."""
    return root / FOLDER / client / _BAGS


def issued_digest(root: Path) -> str:
    """Return the digest of every bag id that was given out, and to whom."""
    folder = root / FOLDER
    files = sorted(folder.glob(f"*/{_BAGS}")) if folder.is_dir() else ()
    return sha256("\n".join(f"{path.parent.name} {file_digest(path)}" for path in files).encode()).hexdigest()


def _rows(root: Path, client: str, name: str, table: str) -> tuple[list[dict[str, Any]] | None, tuple[Problem, ...]]:
    """Return the rows of one file, none where it is not there, and None where it has an error."""
    path = root / FOLDER / client / name
    if not path.exists():
        return [], ()
    from soilrota.files import read_csv  # noqa: PLC0415 - a night that reads no table does without what reads them

    read, problems = read_csv(path, f"{FOLDER}/{client}/{name}", table)
    return (None if read is None else [row.values for row in read.rows]), problems


def _bag(row: dict[str, Any]) -> IssuedBag:
    """Return one bag."""
    bag = Bag(
        id=row["bag"],
        farm=row["farm"],
        zone=row["zone"],
        protocol=row["protocol"],
        season=row["season"].isoformat(),
        top_cm=float(row["top_cm"]),
        bottom_cm=float(row["bottom_cm"]),
    )
    return IssuedBag(bag, row["issued_on"])


def _point(row: dict[str, Any]) -> IssuedPoint:
    """Return one point."""
    return IssuedPoint(
        farm=row["farm"],
        zone=row["zone"],
        protocol=row["protocol"],
        season=row["season"].isoformat(),
        number=row["number"],
        position=(float(row["longitude"]), float(row["latitude"])),
        in_row=row["in_row"] == "yes",
        issued_on=row["issued_on"],
    )


def earlier_points(client: Client, issued: Issued, key: TaskKey) -> tuple[EarlierPoint, ...]:
    """Return the points by which a task was last sampled, in their order; none where it never was by points of ours.

    Points were followed when they were the last ones given out for the task on the day of its last field note.

    Args:
        client: the client with its field notes.
        issued: what was given out for it.
        key: which task.
    """
    name = (key.farm, key.zone, key.protocol)
    notes = (note.day for note in client.field_notes if (note.farm, note.zone, note.protocol) == name)
    sampled = max(notes, default=None)
    if sampled is None:
        return ()
    given = [
        point
        for point in issued.points
        if (point.farm, point.zone, point.protocol) == name and point.issued_on <= sampled
    ]
    from soilrota.model.layout import EarlierPoint  # noqa: PLC0415 - as above

    return tuple(EarlierPoint(point.number, point.position, point.in_row) for point in _last_walk(given))


def _last_walk(points: Sequence[IssuedPoint]) -> Sequence[IssuedPoint]:
    """Return the points that were given out last: each walk begins with number 1, and rows are only ever added."""
    begins = [index for index, point in enumerate(points) if point.number == 1]
    return points[begins[-1] :] if begins else ()


def add_bags(root: Path, client: str, issued: Issued, more: Sequence[IssuedBag]) -> Issued:
    """Add bags at the end of a client's file, and return what is then given out.

    Raises:
        OSError: the file cannot be written.
    """
    bags = (*issued.bags, *more)
    if more:
        rows = (_bag_row(one) for one in bags)
        replace_file(root / FOLDER / client / _BAGS, _table(_BAG_COLUMNS, rows))
    return Issued(bags, issued.points)


def add_points(root: Path, client: str, issued: Issued, points: Iterable[IssuedPoint]) -> Issued:
    """Add the points of every task and season of which the last ones given out are others; return what is then there.

    Raises:
        OSError: the file cannot be written.
    """
    offered: dict[tuple[str, ...], list[IssuedPoint]] = {}
    for point in points:
        offered.setdefault(_group(point), []).append(point)
    more = [
        point
        for group, some in sorted(offered.items())
        if _places(_last_of(issued, group)) != _places(some)
        for point in some
    ]
    together = (*issued.points, *more)
    if more:
        rows = (_point_row(one) for one in together)
        replace_file(root / FOLDER / client / _POINTS, _table(_POINT_COLUMNS, rows))
    return Issued(issued.bags, together)


def _group(point: IssuedPoint) -> tuple[str, ...]:
    """Return the task and season of a point."""
    return point.farm, point.zone, point.protocol, point.season


def _last_of(issued: Issued, group: tuple[str, ...]) -> Sequence[IssuedPoint]:
    """Return the last points that were given out for a task and season."""
    return _last_walk([point for point in issued.points if _group(point) == group])


def _places(points: Iterable[IssuedPoint]) -> list[tuple[int, str, str, bool]]:
    """Return where points lie, as it is written."""
    return sorted((point.number, *_written(point), point.in_row) for point in points)


def _written(point: IssuedPoint) -> tuple[str, str]:
    """Return longitude and latitude to a centimetre or so."""
    longitude, latitude = point.position
    return f"{longitude:.7f}", f"{latitude:.7f}"


def _bag_row(one: IssuedBag) -> tuple[str, ...]:
    """Return the row of one bag."""
    bag = one.bag
    depth = (f"{bag.top_cm:g}", f"{bag.bottom_cm:g}")
    return bag.id, bag.farm, bag.zone, bag.protocol, bag.season, *depth, one.issued_on.isoformat()


def _point_row(point: IssuedPoint) -> tuple[str, ...]:
    """Return the row of one point."""
    in_row = "yes" if point.in_row else "no"
    return (*_group(point), str(point.number), *_written(point), in_row, point.issued_on.isoformat())


def _table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Return rows as CSV; coordinates below nought stay numbers."""
    named = (dict(zip(columns, row, strict=True)) for row in rows)
    return safe_table(columns, named, numbers=("longitude", "latitude"))
