"""From a client, its tasks and their windows to the view of its programme.

Nothing here depends on the day it is made, so a programme that says the same is the same.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from soilrota.documents.cautions import NOTES, cautions_for
from soilrota.documents.correction_sentences import correction_sentence
from soilrota.documents.dates import number
from soilrota.documents.finding_sentences import stray_sentences
from soilrota.documents.maps import farm_map, zone_letters
from soilrota.documents.marks import state_mark
from soilrota.documents.protocols import protocol_sentences
from soilrota.documents.sentences import (
    has_rule,
    preferred_words,
    reason_sentence,
    window_words,
)
from soilrota.documents.strips import StripRow, strip_key, year_strips
from soilrota.documents.task_view import Found, state_note, task_view
from soilrota.documents.views import FarmView, ProgrammeView, ProtocolView, TaskRow, TaskView, ZoneView
from soilrota.documents.visits_view import VisitsView, visits_view
from soilrota.documents.words import LAND_USES, POSITIONS, SHORT_STATES, STATES, WEEKDAYS
from soilrota.language import said_again, say, say_count, speaking
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.visits import FarmVisits
from soilrota.model.windows import Fact, Reason, Rule, State, Task, TaskKey, Window
from soilrota.problems import Problem

#: Most urgent first.
_URGENCY = (
    State.OVERDUE,
    State.NOT_KNOWN,
    State.NO_DAY_LEFT,
    State.LAST_DAYS,
    State.LATE_FOR_DECISION,
    State.OPEN_TODAY,
    State.OPENS_LATER,
    State.BAGS_OUT,
    State.RESULTS_IN,
)
_NOTHING = Found()


@dataclass(frozen=True, slots=True)
class _Client:
    """What every part of the view needs."""

    client: Client
    windows: dict[TaskKey, Window]
    letters: dict[tuple[str, str], str]
    sources: list[str]
    visits: dict[str, FarmVisits]
    found: Mapping[TaskKey, Found]


def programme_view(
    client: Client,
    tasks: Sequence[Task],
    windows: Sequence[Window],
    visits: Iterable[FarmVisits] = (),
    found: Found = _NOTHING,
) -> ProgrammeView:
    """Return the view of a client's programme.

    Args:
        client: the checked client.
        tasks: its tasks.
        windows: the answer for each task, in the same order.
        visits: the visits of its farms.
        found: what is known of it beside the windows.
    """
    with speaking(client.language):
        return _view(client, tasks, windows, visits, found)


def _view(
    client: Client, tasks: Sequence[Task], windows: Sequence[Window], visits: Iterable[FarmVisits], found: Found
) -> ProgrammeView:
    """Return the view in the language that is spoken."""
    letters = {
        (farm.id, zone.id): letter
        for farm in client.farms
        for letter, zone in zip(zone_letters(len(farm.zones)), farm.zones, strict=True)
    }
    answers = {task.key: window for task, window in zip(tasks, windows, strict=True)}
    of_farms = {farm.farm: farm for farm in visits}
    whole = _Client(client, answers, letters, [], of_farms, found.by_task())
    ordered = sorted(windows, key=_urgency)
    farms = tuple(_farm(whole, farm) for farm in client.farms)
    adviser = client.practice.people[client.adviser]
    return ProgrammeView(
        title=say("Soil sampling programme: {client}", client=client.name),
        client=client.name,
        practice=client.practice.name,
        contact=client.practice.contact,
        adviser=", ".join(filter(None, (adviser.name, adviser.qualification))),
        language=client.language,
        logo=client.practice.logo,
        colours=client.practice.colours,
        summary=_summary(windows),
        rows=tuple(_row(whole, window) for window in ordered),
        strips=year_strips([_strip_row(whole, window) for window in ordered], client.language),
        strip_key=strip_key(),
        farms=farms,
        corrections=tuple(f"{correction_sentence(one, client)}." for one in found.corrections),
        cautions=cautions_for(client, windows),
        sources=tuple(whole.sources),
        notes=(worked_days_note(client, windows), *map(say, NOTES)),
        warnings=(*_general_warnings(client), *stray_sentences(found.samples, client)),
    )


def worked_days_note(client: Client, windows: Iterable[Window]) -> str:
    """Return on which weekdays the practice samples, and the public holidays that windows hold."""
    reasons = [dict(reason.facts) for window in windows for reason in window.reasons if reason.rule is Rule.WORKED_DAYS]
    days = sorted({str(day) for facts in reasons for day in cast("tuple[str, ...]", facts["holidays"])})
    weekdays = tuple(name for number, name in enumerate(WEEKDAYS, 1) if number in client.practice.worked_weekdays)
    facts: dict[str, Fact] = {"weekdays": weekdays, "holidays": tuple(days)}
    return reason_sentence(Reason(Rule.WORKED_DAYS, facts=facts), "", client.language)


def _urgency(window: Window) -> tuple[object, ...]:
    """Return what tasks are sorted by: urgency, then the day by which something must be done."""
    last = window.open[-1].last if window.open else window.season.span.last
    key = window.key
    return _URGENCY.index(window.state), last, window.season.span.first, key.farm, key.zone, key.protocol


def _summary(windows: Iterable[Window]) -> tuple[str, ...]:
    """Return how many tasks stand where, in words."""
    counts = Counter(window.state for window in windows)
    return tuple(_COUNTED[state](counts[state]) for state in _URGENCY if counts[state])


#: How many tasks stand where; another language may say one of them otherwise than several.
_COUNTED: dict[State, Callable[[int], str]] = {
    State.OVERDUE: lambda count: say_count("{count} overdue", "{count} overdue", count),
    State.NOT_KNOWN: lambda count: say_count("{count} not known", "{count} not known", count),
    State.NO_DAY_LEFT: lambda count: say_count(
        "{count} without a day left this season", "{count} without a day left this season", count
    ),
    State.LAST_DAYS: lambda count: say_count("{count} in the last days", "{count} in the last days", count),
    State.LATE_FOR_DECISION: lambda count: say_count(
        "{count} open but late for the decision", "{count} open but late for the decision", count
    ),
    State.OPEN_TODAY: lambda count: say_count("{count} open now", "{count} open now", count),
    State.OPENS_LATER: lambda count: say_count("{count} opening later", "{count} opening later", count),
    State.BAGS_OUT: lambda count: say_count(
        "{count} with bags at the laboratory", "{count} with bags at the laboratory", count
    ),
    State.RESULTS_IN: lambda count: say_count("{count} with results in", "{count} with results in", count),
}


def _zone_and_farm(client: Client, key: TaskKey) -> tuple[Zone, Farm]:
    """Return the zone of a task, and its farm."""
    farm = next(farm for farm in client.farms if farm.id == key.farm)
    return next(zone for zone in farm.zones if zone.id == key.zone), farm


def _row(whole: _Client, window: Window) -> TaskRow:
    """Return a task's line in the first page's table."""
    zone, farm = _zone_and_farm(whole.client, window.key)
    return TaskRow(
        letter=whole.letters[(farm.id, zone.id)],
        farm=farm.name,
        zone=zone.name,
        protocol=whole.client.protocols[window.key.protocol].name,
        state=say(STATES[window.state]),
        state_note=state_note(window),
        mark=state_mark(window.state),
        window=window_words(window, whole.client.language),
        best=preferred_words(window, whole.client.language),
    )


def _strip_row(whole: _Client, window: Window) -> StripRow:
    """Return a task's row in the year strip."""
    zone, _ = _zone_and_farm(whole.client, window.key)
    several = len(zone.protocols) > 1
    letter = whole.letters[(zone.farm, zone.id)]
    protocol = whole.client.protocols[window.key.protocol].name
    passed = has_rule(window, Rule.BEST_DAY_PASSED)
    return StripRow(
        label=f"{letter} {zone.name}" + (f", {protocol.lower()}" if several else ""),
        season=window.season.span,
        closed=tuple(span for span, _ in window.closed),
        open=window.season_open if window.workable else (),
        best=None if passed else window.preferred,
        note=say(SHORT_STATES.get(window.state, STATES[window.state])),
    )


def _farm(whole: _Client, farm: Farm) -> FarmView:
    """Return a farm's part."""
    client = whole.client
    used = dict.fromkeys(protocol for zone in farm.zones for protocol in zone.protocols)
    protocols = [client.protocols[protocol] for protocol in used]
    return FarmView(
        name=farm.name,
        locality=farm.locality,
        map=farm_map(farm),
        visits=_visits(whole, farm),
        protocols=tuple(
            ProtocolView(protocol.name, protocol_sentences(protocol, client.practice, client.language))
            for protocol in protocols
        ),
        zones=tuple(_zone(whole, zone) for zone in farm.zones),
    )


def _visits(whole: _Client, farm: Farm) -> VisitsView | None:
    """Return the visits of a farm; None where nothing wants a day."""
    visits = whole.visits.get(farm.id)
    if visits is None or not visits.plan.visits:
        return None
    return visits_view(whole.client, visits, whole.windows, whole.letters)


def _zone(whole: _Client, zone: Zone) -> ZoneView:
    """Return a zone's part."""
    client = whole.client
    area = number(zone.area_ha, client.language)
    facts = [
        f"{area} ha",
        zone.soil_type,
        say(LAND_USES.get(zone.land_use, zone.land_use)),
        say(POSITIONS.get(zone.landscape_position, zone.landscape_position)),
    ]
    if zone.rows is not None:
        spacing = number(zone.rows.spacing_cm, client.language)
        facts.append(say("rows {spacing} cm apart with fertiliser in bands", spacing=spacing))
    own = [problem for problem in client.warnings if _belongs_to(problem, zone, client)]
    return ZoneView(
        letter=whole.letters[(zone.farm, zone.id)],
        name=zone.name,
        facts=", ".join(facts),
        warnings=tuple(_warning_words(problem) for problem in own),
        tasks=tuple(_task(whole, zone, protocol) for protocol in zone.protocols),
    )


def _task(whole: _Client, zone: Zone, protocol: str) -> TaskView:
    """Return a zone's part under one protocol."""
    key = TaskKey(zone.farm, zone.id, protocol)
    return task_view(whole.client, zone, whole.windows[key], whole.found.get(key, _NOTHING), whole.sources)


def _belongs_to(problem: Problem, zone: Zone, client: Client) -> bool:
    """Return whether a warning stands at a zone: inside it in the client's file, or at its outline in the map."""
    if zone.outline is not None and problem.place.file == zone.outline.place.file:
        return problem.place.path.startswith(zone.outline.place.path) and bool(zone.outline.place.path)
    return problem.place.file == client.place.file and problem.place.path.startswith(f"{zone.place.path}.")


def _general_warnings(client: Client) -> tuple[str, ...]:
    """Return the warnings that belong to no single zone; spreadings are explained where they matter."""
    zones = [zone for farm in client.farms for zone in farm.zones]
    return tuple(
        _warning_words(problem)
        for problem in client.warnings
        if not any(_belongs_to(problem, zone, client) for zone in zones)
    )


def _warning_words(problem: Problem) -> str:
    """Return a warning as a sentence."""
    found, mend = said_again(problem.found), said_again(problem.mend)
    return f"{found[:1].upper()}{found[1:]}. {mend[:1].upper()}{mend[1:]}."
