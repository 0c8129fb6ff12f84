"""On which days samples were really taken: outside the season, within a waiting time, on a day the client had closed.

The days come from the same functions that make windows, so a sampling is judged by what its window was. Only what lay
behind the sampling counts: an application of which the first day came later did not touch it. House defaults, where
the rules leave it open:

| record | what is said |
|---|---|
| planned for a day before the sampling, never recorded as done | as if done: it counts until somebody says otherwise |
| last day known, first day not, sampled before the last day | the waiting time may have begun: case `undated` |
| first day known, last day not | inside while the wait after the first day alone runs; later, case `undated` |
| neither day known | case `undated` |
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from soilrota.guidelines.sample_findings import weight_of
from soilrota.model.applications import Standing
from soilrota.model.client import Client, Zone
from soilrota.model.findings import Fact, SampleFinding, SampleKey, SampleRule
from soilrota.model.samples import FieldNote
from soilrota.model.windows import AppliedGap, Rule, Task, TaskKey
from soilrota.timing.gaps import Closing, application_closings, closed_span, closure_closings, dated_facts, undated
from soilrota.timing.seasons import occurrences
from soilrota.timing.tasks import tasks_of


def check_days(client: Client) -> tuple[SampleFinding, ...]:
    """Return what is odd about the days of a client's samples, in the order of the field notes.

    Samples that no task asked for are held against the same days.
    """
    tasks = {task.key: task for task in tasks_of(_with_what_was_taken(client))}
    findings: list[SampleFinding] = []
    for note in client.field_notes:
        task = tasks.get(TaskKey(note.farm, note.zone, note.protocol))
        if task is not None:
            findings += _outside_season(note, task)
            findings += _inside_gap(note, task)
            findings += _closed(note, task)
    return tuple(findings)


def _with_what_was_taken(client: Client) -> Client:
    """Return the client as if each zone used every protocol that was taken there."""
    taken: dict[tuple[str, str], dict[str, None]] = {}
    for note in client.field_notes:
        protocol = client.protocols.get(note.protocol)
        if protocol is not None and client.hemisphere in client.practice.seasons[protocol.season].spans:
            taken.setdefault((note.farm, note.zone), {})[note.protocol] = None

    def wider(zone: Zone) -> Zone:
        also = taken.get((zone.farm, zone.id), {})
        return replace(zone, protocols=tuple(dict.fromkeys((*zone.protocols, *also))))

    farms = (replace(farm, zones=tuple(wider(zone) for zone in farm.zones)) for farm in client.farms)
    return replace(client, farms=tuple(farms))


def _finding(note: FieldNote, rule: SampleRule, facts: Mapping[str, Fact], case: str = "") -> SampleFinding:
    """Return a finding about the sample of a note."""
    sample = SampleKey(note.farm, note.zone, note.protocol, note.top_cm, note.bottom_cm, note.day)
    return SampleFinding(sample, rule, weight_of(rule, case), facts, note.place)


def _outside_season(note: FieldNote, task: Task) -> Iterator[SampleFinding]:
    """Yield that the day lies in no occurrence of the season, with the nearest one."""
    near = occurrences(task.seasons, note.day.year - 1, note.day.year + 1)
    nearest = min(near, key=lambda span: (span.distance(note.day), span))
    days = nearest.distance(note.day)
    if days:
        facts: dict[str, Fact] = {"days": days, "first": nearest.first, "last": nearest.last, "season": task.season}
        yield _finding(note, SampleRule.OUTSIDE_SEASON, facts)


def _inside_gap(note: FieldNote, task: Task) -> Iterator[SampleFinding]:
    """Yield the applications within whose waiting time the sample was taken, by days and place."""
    closings = sorted(application_closings(task, note.day), key=lambda one: (one.span, one.reason.place))
    for closing in closings:
        if note.day in closing.span:
            yield _dated(note, closing)
    for record in undated(task):
        yield from _undated(note, record)


def _dated(note: FieldNote, closing: Closing) -> SampleFinding:
    """Return that the sample lies within a waiting time of which the end is known."""
    facts = dict(closing.reason.facts)
    last_day = facts["last_day"]
    open_question = closing.begins is None and isinstance(last_day, date) and note.day < last_day
    standing = Standing.PLANNED if closing.reason.rule is Rule.SPREAD_PLANNED else Standing.DONE
    further: dict[str, Fact] = {"spread": last_day, "free": facts.pop("open_again"), "standing": str(standing)}
    return _finding(note, SampleRule.INSIDE_GAP, {**facts, **further}, "undated" if open_question else "")


def _undated(note: FieldNote, record: AppliedGap) -> Iterator[SampleFinding]:
    """Yield that the sample lies, or may lie, within a waiting time of which the end is not known."""
    application = record.application
    first_day = application.first_day
    if first_day is not None and first_day > note.day:
        return
    facts: dict[str, Fact] = {
        **dated_facts(application),
        "months": record.months,
        "standing": str(application.standing),
    }
    if first_day is not None:
        facts["spread"] = first_day
        if note.day in closed_span(first_day, first_day, record.months):
            yield _finding(note, SampleRule.INSIDE_GAP, facts)
            return
    yield _finding(note, SampleRule.INSIDE_GAP, facts, "undated")


def _closed(note: FieldNote, task: Task) -> Iterator[SampleFinding]:
    """Yield that the client had closed the day; the practice's own leave is its own affair."""
    for closing in closure_closings(task, note.day):
        if closing.reason.rule is Rule.BLACKOUT and note.day in closing.span:
            yield _finding(note, SampleRule.CLOSED_DAY, dict(closing.reason.facts))
