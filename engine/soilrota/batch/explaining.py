"""Why a zone's window, or what is judged of its results, is what it is: one client loaded, nothing written."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

from soilrota.batch.faults import CannotStartError
from soilrota.batch.judging import judge_client, sample_findings, sets_of
from soilrota.batch.reading import read_sound_client
from soilrota.batch.weather import known_on, weather_for
from soilrota.documents.explanation import explanation
from soilrota.documents.judgement_explanation import analytes_judged, judgement_explanation
from soilrota.files import nearest_name
from soilrota.model.client import Client, Zone
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


def explain_analyte(root: Path, client_id: str, zone: str, analyte: str) -> tuple[str, ...]:
    """Return what every judgement of one analyte or derived quantity of a zone rests on, a line an entry.

    Args:
        root: the book's folder.
        client_id: id of the client.
        zone: id of the zone, or `farm/zone` where several farms have one of that id.
        analyte: id of the analyte, its code with the method, or the code of a derived quantity.

    Raises:
        CannotStartError: the client or the zone is not there, has errors or no results, or nothing of that analyte was
            judged.
    """
    client = read_sound_client(root, client_id)
    found = _zone(client, zone)
    judged = judge_client(client, sample_findings(root, client)).of(found.farm, found.id)
    lines = judgement_explanation(client, found, analyte, judged, sets_of(client, found))
    if not lines:
        there = analytes_judged(judged)
        if not there:
            raise CannotStartError(f"zone {zone} of {client.id} has no results yet")
        near = nearest_name(analyte, there)
        hint = f"did you mean {near}?" if near else f"there is {', '.join(there)}"
        raise CannotStartError(f"nothing was judged of {analyte} in zone {zone}; {hint}")
    return lines


def _zone(client: Client, name: str) -> Zone:
    """Return the zone of a name."""
    zones = {f"{zone.farm}/{zone.id}": zone for farm in client.farms for zone in farm.zones}
    found = [key for key, zone in zones.items() if name in {key, zone.id}]
    if not found:
        near = nearest_name(name, [*zones, *(zone.id for zone in zones.values())])
        raise CannotStartError(f"{client.id} has no zone {name}" + (f"; did you mean {near}?" if near else ""))
    if len(found) > 1:
        raise CannotStartError(f"several farms have a zone {name}: write {' or '.join(sorted(found))}")
    return zones[found[0]]


def _tasks(client: Client, tasks: tuple[Task, ...], zone: str) -> tuple[Task, ...]:
    """Return the tasks of a zone."""
    found = _zone(client, zone)
    return tuple(task for task in tasks if (task.key.farm, task.key.zone) == (found.farm, found.id))
