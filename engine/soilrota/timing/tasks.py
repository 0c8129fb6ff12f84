"""The tasks of a client: each zone under each of its protocols, with the records that its window depends on.

House defaults, where the rules leave it open:

- Where several overrides of the client hold, the one that names most (zones, protocols) wins, then the longest.
- A class that the practice does not count still counts for a task of which the protocol, or an override, asks for a
  wait.
- Field notes and results of one day are one sampling. A result without a field note proves a sampling too.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from typing import TYPE_CHECKING

from soilrota.model.applications import Application
from soilrota.model.client import Client, GapOverride, Zone
from soilrota.model.practice import AnalysisWait
from soilrota.model.protocol import Protocol
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.model.windows import (
    AppliedGap,
    Closure,
    DecisionDay,
    Sampling,
    Span,
    Task,
    TaskKey,
    WorkCalendar,
)
from soilrota.problems import Place
from soilrota.quantities import analyte, split_code
from soilrota.timing.task_moisture import with_outlooks

if TYPE_CHECKING:
    from soilrota.model.weather import Weather


def tasks_of(client: Client, weather: Mapping[str, Weather] | None = None) -> tuple[Task, ...]:
    """Return the tasks of the client, by farm, zone and protocol in the order of the file.

    Args:
        client: the checked client.
        weather: records up to the as-of date by station id; without them moisture ranks nothing.

    Raises:
        KeyError: a zone refers to a protocol, season, hemisphere or class of material that is not there; a loaded
            client refers to none such.
    """
    samplings = _samplings(client)
    tasks = tuple(
        _task(client, zone, client.protocols[name], samplings.get(TaskKey(farm.id, zone.id, name), ()))
        for farm in client.farms
        for zone in farm.zones
        for name in zone.protocols
    )
    return with_outlooks(client, tasks, weather) if weather else tasks


def _task(client: Client, zone: Zone, protocol: Protocol, samplings: tuple[Sampling, ...]) -> Task:
    """Return one zone under one protocol."""
    touching = (row for row in client.applications if row.farm == zone.farm and (not row.zones or zone.id in row.zones))
    return Task(
        key=TaskKey(zone.farm, zone.id, protocol.id),
        season=protocol.season,
        seasons=client.practice.seasons[protocol.season].spans[client.hemisphere],
        interval_months=protocol.interval_months,
        tolerance_days=protocol.tolerance_days,
        samplings=samplings,
        applications=tuple(_applied_gap(client, zone, protocol, row) for row in touching),
        analysis_waits=_waits(client.practice.analysis_waits, protocol.analyses),
        place=zone.place,
        calendar=_calendar(client, zone),
        laboratory=client.practice.laboratories.get(protocol.laboratory),
        holding_days=_holding_days(protocol),
        decisions=tuple(
            DecisionDay(decision.day, decision.what, decision.place)
            for decision in client.decisions
            if decision.protocol == protocol.id and (not decision.zones or f"{zone.farm}/{zone.id}" in decision.zones)
        ),
    )


def _calendar(client: Client, zone: Zone) -> WorkCalendar:
    """Return on which days the practice samples in the zone."""
    practice = client.practice
    leave = (Closure("leave", Span(row.first, row.last), row.reason, row.place) for row in practice.leave)
    blackouts = (
        Closure("blackout", Span(row.first, row.last), row.reason, row.place)
        for row in client.blackouts
        if not row.zones or f"{zone.farm}/{zone.id}" in row.zones
    )
    return WorkCalendar(practice.worked_weekdays, client.country, client.subdivision, (*leave, *blackouts))


def _holding_days(protocol: Protocol) -> int | None:
    """Return the shortest holding time of the protocol's analyses [d]; None where all keep."""
    found = (analyte(split_code(code)[0]) for code in protocol.analyses)
    times = [known.holding_days for known in found if known is not None and known.holding_days is not None]
    return min(times, default=None)


def _applied_gap(client: Client, zone: Zone, protocol: Protocol, application: Application) -> AppliedGap:
    """Return the application with the waiting time that holds for this zone and protocol."""
    gap = client.practice.gaps[application.material_class]
    asked = protocol.gap_months.get(gap.material_class, 0)
    usual = max(gap.months if gap.counts else 0, asked)
    counts = gap.counts or asked > 0
    record = AppliedGap(application, counts, usual, usual_months=usual, class_reason="" if counts else gap.reason)
    override = _override(client.gap_overrides, gap.material_class, f"{zone.farm}/{zone.id}", protocol.id)
    if override is None or not (counts or override.months):
        return record
    return replace(
        record,
        counts=True,
        months=override.months,
        class_reason="",
        override_reason=override.reason,
        override_place=override.place,
    )


def _override(overrides: Iterable[GapOverride], material_class: str, zone: str, protocol: str) -> GapOverride | None:
    """Return the override of the client that holds for this class, zone (`farm/zone`) and protocol."""
    holding = (
        override
        for override in overrides
        if override.material_class == material_class
        and (not override.zones or zone in override.zones)
        and (not override.protocols or protocol in override.protocols)
    )
    return min(
        holding,
        key=lambda found: (-bool(found.zones) - bool(found.protocols), -found.months, found.place),
        default=None,
    )


def _waits(waits: Iterable[AnalysisWait], analyses: tuple[str, ...]) -> tuple[AnalysisWait, ...]:
    """Return the waits cut to what the protocol asks for: an analyte (`ph`), or one method of it (`ph.cacl2`)."""
    asked = {*analyses, *(analysis.partition(".")[0] for analysis in analyses)}
    cut = (replace(wait, analytes=tuple(name for name in wait.analytes if name in asked)) for wait in waits)
    return tuple(wait for wait in cut if wait.analytes)


@dataclass(slots=True)
class _Day:
    """What the records say of one task on one day."""

    notes: list[FieldNote] = field(default_factory=list)
    results: list[Result] = field(default_factory=list)
    before: list[Place] = field(default_factory=list)

    def sampling(self, day: date) -> Sampling:
        """Return the sampling that the records prove."""
        bags = sorted({note.bag for note in self.notes} | {result.bag for result in self.results})
        places = [note.place for note in self.notes] or self.before or [result.place for result in self.results]
        reported = min((result.reported for result in self.results), default=None)
        return Sampling(day, reported, tuple(filter(None, bags)), min(places), awaited=bool(self.notes or self.results))


def _samplings(client: Client) -> dict[TaskKey, tuple[Sampling, ...]]:
    """Return the samplings of every task, in order of day."""
    found: defaultdict[TaskKey, defaultdict[date, _Day]] = defaultdict(lambda: defaultdict(_Day))
    for note in client.field_notes:
        found[TaskKey(note.farm, note.zone, note.protocol)][note.day].notes.append(note)
    for result in client.results:
        found[TaskKey(result.farm, result.zone, result.protocol)][result.sampled].results.append(result)
    for zone in (zone for farm in client.farms for zone in farm.zones):
        for last in zone.last_sampled:
            found[TaskKey(zone.farm, zone.id, last.protocol)][last.day].before.append(last.place)
    return {key: tuple(days[day].sampling(day) for day in sorted(days)) for key, days in found.items()}
