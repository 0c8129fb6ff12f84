"""Analyses that are not ready on a day, although the day itself is open: pH after lime, for instance.

House default: an application counts here, whether or not its class closes days, when it is not cancelled, its last
day is known, and it does not begin after the day asked about.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from soilrota.model.applications import Application, Standing
from soilrota.model.practice import AnalysisWait
from soilrota.model.windows import Task
from soilrota.timing.months import add_months

# Looked up once: a member of an enumeration takes ten times as long as a name of the module.
_CANCELLED = Standing.CANCELLED


@dataclass(frozen=True, slots=True)
class Wait:
    """One analysis that one application holds back.

    Attributes:
        analysis: analyte id.
        ready: first day on which the wait is over.
        application: what was, or will be, spread.
        rule: the row of the table of waits.
    """

    analysis: str
    ready: date
    application: Application
    rule: AnalysisWait


def waits_of(task: Task) -> tuple[Wait, ...]:
    """Return every analysis that an application of the task holds back at some time."""
    return tuple(
        Wait(analysis, ready, application, rule)
        for application, rule, ready in _held_back(task)
        for analysis in rule.analytes
    )


def waits_on(task: Task, day: date) -> tuple[Wait, ...]:
    """Return, for each analysis held back on the day, the wait that ends last; by analysis."""
    found = [
        Wait(analysis, ready, application, rule)
        for application, rule, ready in _held_back(task)
        if day < ready and (application.first_day is None or application.first_day <= day)
        for analysis in rule.analytes
    ]
    if not found:
        return ()
    found.sort(key=lambda wait: (wait.ready, wait.application.place, wait.rule.source))
    last = {wait.analysis: wait for wait in found}
    return tuple([last[analysis] for analysis in sorted(last)])


def _held_back(task: Task) -> list[tuple[Application, AnalysisWait, date]]:
    """Return each application that holds analyses back, by which rule, and the first day on which that is over."""
    if not task.analysis_waits:
        return []
    return [
        (record.application, rule, add_months(last_day, rule.months))
        for record in task.applications
        if (last_day := record.application.last_day) is not None and record.application.standing is not _CANCELLED
        for rule in task.analysis_waits
        if rule.material_class == record.application.material_class
    ]
