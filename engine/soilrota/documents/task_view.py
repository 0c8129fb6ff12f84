"""One zone under one protocol as its part of the programme: when, why, where, results, and what was found of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TypeVar

from soilrota.documents.finding_sentences import sentences_about
from soilrota.documents.layout_sentences import where_sentences
from soilrota.documents.marks import state_mark
from soilrota.documents.result_finding_sentences import sentences_of_results
from soilrota.documents.results_view import last_results, result_rows
from soilrota.documents.sentences import (
    has_rule,
    overdue_words,
    preferred_words,
    reason_sentence,
    window_words,
)
from soilrota.documents.views import TaskView
from soilrota.documents.way_out_sentences import way_out_sentence
from soilrota.documents.words import STATES
from soilrota.language import say
from soilrota.model.client import Client, Zone
from soilrota.model.findings import SampleFinding
from soilrota.model.layout import ZoneLayout
from soilrota.model.result_findings import ResultFinding
from soilrota.model.results import Correction, Result
from soilrota.model.windows import Reason, Rule, State, TaskKey, Window

_One = TypeVar("_One")
_BLOCKING = frozenset(
    {
        Rule.SPREAD,
        Rule.SPREAD_PLANNED,
        Rule.PLAN_HAS_PASSED,
        Rule.SPREAD_UNDATED,
        Rule.SPREAD_NO_ZONE,
        Rule.GAP_OVERRIDE,
        Rule.CLASS_DOES_NOT_COUNT,
        Rule.ANALYSIS_WAIT,
        Rule.OUTSIDE_TOLERANCE,
        Rule.LEAVE,
        Rule.BLACKOUT,
        Rule.HOLDING,
        Rule.LATE,
    }
)


@dataclass(frozen=True, slots=True)
class Found:
    """What is known of a client beside its windows.

    Attributes:
        samples: what was found about samples.
        results: what was found about results.
        corrections: what laboratories corrected of late.
        layouts: where the cores of tasks come from.
    """

    samples: tuple[SampleFinding, ...] = ()
    results: tuple[ResultFinding, ...] = ()
    corrections: tuple[Correction, ...] = ()
    layouts: Mapping[TaskKey, ZoneLayout] = field(default_factory=dict)

    def by_task(self) -> Mapping[TaskKey, Found]:
        """Return what is known of each task of which something is known; corrections are of the whole client."""
        samples, results = _by_task(self.samples, _task_of_sample), _by_task(self.results, _task_of_results)
        return {
            key: Found(
                samples=tuple(samples.get(key, ())),
                results=tuple(results.get(key, ())),
                layouts={key: self.layouts[key]} if key in self.layouts else {},
            )
            for key in {*samples, *results, *self.layouts}
        }


def _by_task(found: Iterable[_One], task_of: Callable[[_One], TaskKey]) -> dict[TaskKey, list[_One]]:
    """Return findings by the task that they belong to, each list in their order."""
    by_task: defaultdict[TaskKey, list[_One]] = defaultdict(list)
    for one in found:
        by_task[task_of(one)].append(one)
    return by_task


def _task_of_sample(finding: SampleFinding) -> TaskKey:
    """Return the task whose sample a finding is about."""
    return TaskKey(finding.sample.farm, finding.sample.zone, finding.sample.protocol)


def _task_of_results(finding: ResultFinding) -> TaskKey:
    """Return the task whose results a finding is about."""
    return TaskKey(finding.key.farm, finding.key.zone, finding.key.protocol)


def task_view(client: Client, zone: Zone, window: Window, found: Found, sources: list[str]) -> TaskView:
    """Return a zone's part under one protocol.

    Args:
        client: the client.
        zone: the zone.
        window: the answer for the task.
        found: what is known of the task.
        sources: sources of targets; new ones are added.
    """
    language, protocol = client.language, window.key.protocol
    season = client.practice.seasons[window.season.name].name
    results = result_rows(client, zone, protocol, sources, found.samples, found.results)
    shown = last_results(client, zone, protocol)
    return TaskView(
        protocol=client.protocols[protocol].name,
        state=say(STATES[window.state]),
        state_note=state_note(window),
        mark=state_mark(window.state),
        window=window_words(window, language),
        best=preferred_words(window, language),
        why=tuple(reason_sentence(reason, season, language) for reason in _why(window)),
        blocks=tuple(
            reason_sentence(reason, season, language) for reason in window.reasons if reason.rule in _BLOCKING
        ),
        ways_out=tuple(way_out_sentence(way, language) for way in window.ways_out),
        results=results,
        has_targets=any(row.target for row in results),
        no_results="" if results else _no_results(window),
        about_results=sentences_of_results(found.results, client, shown),
        findings=sentences_about(found.samples, client, _shown_days(shown, window)),
        where=where_sentences(found.layouts[window.key]) if window.key in found.layouts else (),
    )


def state_note(window: Window) -> str:
    """Return what is said beside the state."""
    if window.overdue_months is not None:
        return overdue_words(window.overdue_months)
    if window.state in {State.BAGS_OUT, State.RESULTS_IN, State.OPENS_LATER}:
        return say("next season {season}", season=window.season.label)
    return ""


def _shown_days(shown: Iterable[Result], window: Window) -> frozenset[date]:
    """Return the days of the samples that a task's part shows: the last sampling, and each last result."""
    last = {window.last_sampling.day} if window.last_sampling else set()
    return frozenset({*last, *(result.sampled for result in shown)})


def _why(window: Window) -> tuple[Reason, ...]:
    """Return the reasons that explain the season and the day, the season once; what blocks stands apart."""
    said_twice = Rule.SEASON if has_rule(window, Rule.DUE_SEASON) and window.overdue_months is None else None
    elsewhere = _BLOCKING | {said_twice, Rule.WORKED_DAYS}
    return tuple(reason for reason in window.reasons if reason.rule not in elsewhere)


def _no_results(window: Window) -> str:
    """Return why a zone shows no results."""
    if window.last_sampling is None:
        return say("First year: no earlier results.")
    return say("No results have been accepted yet.")
