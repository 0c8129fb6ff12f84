"""Why a window, a judgement or an advised amount is what it is: one client loaded, nothing written."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from soilrota.batch.advising import advise_client
from soilrota.batch.faults import CannotStartError
from soilrota.batch.following import follow_up_client
from soilrota.batch.judging import judge_client, sample_findings, sets_of
from soilrota.batch.reading import read_sound_client
from soilrota.batch.weather import known_on, weather_for
from soilrota.documents.advice_explanation import Advised, advice_explanation
from soilrota.documents.explanation import explanation
from soilrota.documents.judgement_explanation import analytes_judged, judgement_explanation
from soilrota.files import nearest_name
from soilrota.language import speaking
from soilrota.model.advice import Input
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
    client = _told_to_practice(read_sound_client(root, client_id))
    day = as_of or today(client.practice.time_zone)
    weather = known_on(weather_for(root, client)[0] or {}, day)
    lines: list[str] = []
    for task in _tasks(client, tasks_of(client, weather), zone):
        lines += [*([""] if lines else []), *explanation(client, window_of(task, day), changes_of(task, day))]
    return tuple(lines)


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked of a zone's results.

    Attributes:
        root: the book's folder.
        client: id of the client.
        zone: id of the zone, or `farm/zone` where several farms have one of that id.
        subject: id of an analyte, its code with the method, the code of a derived quantity, or an input of advice.
        as_of: day of the advice; None for today in the practice's time zone.
    """

    root: Path
    client: str
    zone: str
    subject: str
    as_of: date | None = None


def explain_subject(asked: Question, today: Callable[[str], date]) -> tuple[str, ...]:
    """Return what is judged of a subject, and what is advised of it where it is an input, a line an entry.

    Args:
        asked: what is asked.
        today: returns today's date in a time zone (IANA name); asked only for advice without a day.

    Raises:
        CannotStartError: the client or the zone is not there, has errors or no results, or nothing is judged or
            advised of that subject.
    """
    client = _told_to_practice(read_sound_client(asked.root, asked.client))
    with speaking(client.language):
        return _subject(client, asked, today)


def _subject(client: Client, asked: Question, today: Callable[[str], date]) -> tuple[str, ...]:
    """Return what is judged and advised of a subject, in the language that is spoken."""
    zone = _zone(client, asked.zone)
    findings = sample_findings(asked.root, client)
    judgement = judge_client(client, findings)
    judged = judgement.of(zone.farm, zone.id)
    lines = judgement_explanation(client, zone, asked.subject, judged, sets_of(client, zone))
    if judged and asked.subject in {*Input}:
        day = asked.as_of or today(client.practice.time_zone)
        advice = advise_client(client, judgement, findings, day)
        need = next(one for one in advice.of(zone.farm, zone.id) if one.input == asked.subject)
        followed, _ = follow_up_client(asked.root, client, day)
        ground = (zone.farm, zone.id, asked.subject)
        came = tuple(one for one in followed if (one.need.farm, one.need.zone, one.need.input) == ground)
        advised = Advised(day, need, advice.mixes, advice.priorities, advice.closings, came)
        lines = (*lines, *([""] if lines else []), *advice_explanation(client, zone, advised))
    if not lines:
        raise _nothing(client, asked, analytes_judged(judged))
    return lines


def _told_to_practice(client: Client) -> Client:
    """Return a client of whom the practice's people are told, in their own language."""
    return replace(client, language=client.practice.language)


def _nothing(client: Client, asked: Question, there: tuple[str, ...]) -> CannotStartError:
    """Return that nothing is known of a subject, with what could be asked for."""
    if not there:
        return CannotStartError(f"zone {asked.zone} of {client.id} has no results yet")
    names = tuple(dict.fromkeys((*there, *(one.value for one in Input))))
    near = nearest_name(asked.subject, names)
    hint = f"did you mean {near}?" if near else f"there is {', '.join(names)}"
    return CannotStartError(f"nothing is judged or advised of {asked.subject} in zone {asked.zone}; {hint}")


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
