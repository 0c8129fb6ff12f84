"""Why a zone's window is what it is, and what would change it: one client loaded, nothing written."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.batch.reading import read_sound_client
from soilrota.batch.weather import known_on, weather_for
from soilrota.documents.explanation import explanation
from soilrota.files import nearest_name
from soilrota.model.client import Client
from soilrota.model.windows import Task
from soilrota.timing import changes_of, tasks_of, window_of


def explain_zone(
    root: Path, client_id: str, zone: str, as_of: date | None, today: Callable[[str], date]
) -> tuple[str, ...]:
    """Return the explanation of every task of a zone, a line an entry, with an empty line between two tasks.

    Args:
        root: the book's folder.
        client_id: id of the client.
        zone: id of the zone, or `farm/zone` where several farms have one of that id.
        as_of: the as-of date; None for today in the practice's time zone.
        today: returns today's date in a time zone (IANA name).

    Raises:
        CannotStartError: the client or the zone is not there, or has errors.
    """
    client = read_sound_client(root, client_id)
    day = as_of or today(client.practice.time_zone)
    weather = known_on(weather_for(root, client)[0] or {}, day)
    lines: list[str] = []
    for task in _tasks(client, tasks_of(client, weather), zone):
        lines += [*([""] if lines else []), *explanation(client, window_of(task, day), changes_of(task, day))]
    return tuple(lines)


def _tasks(client: Client, tasks: tuple[Task, ...], zone: str) -> tuple[Task, ...]:
    """Return the tasks of a zone."""
    found = tuple(task for task in tasks if zone in {task.key.zone, f"{task.key.farm}/{task.key.zone}"})
    names = sorted({f"{task.key.farm}/{task.key.zone}" for task in tasks})
    if not found:
        near = nearest_name(zone, [*names, *(name.partition("/")[2] for name in names)])
        raise CannotStartError(f"{client.id} has no zone {zone}" + (f"; did you mean {near}?" if near else ""))
    farms = {task.key.farm for task in found}
    if len(farms) > 1:
        choices = " or ".join(f"{farm}/{zone}" for farm in sorted(farms))
        raise CannotStartError(f"several farms have a zone {zone}: write {choices}")
    return found
