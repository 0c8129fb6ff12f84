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

    def holds_on(self, day: date) -> bool:
        """Return whether the analysis is held back on the day."""
        first_day = self.application.first_day
        return (first_day is None or first_day <= day) and day < self.ready


def waits_of(task: Task) -> tuple[Wait, ...]:
    """Return every analysis that an application of the task holds back at some time."""
    if not task.analysis_waits:
        return ()
    return tuple(
        Wait(analysis, add_months(last_day, rule.months), record.application, rule)
        for record in task.applications
        if record.application.standing is not Standing.CANCELLED and (last_day := record.application.last_day)
        for rule in task.analysis_waits
        if rule.material_class == record.application.material_class
        for analysis in rule.analytes
    )


def waits_on(task: Task, day: date) -> tuple[Wait, ...]:
    """Return, for each analysis held back on the day, the wait that ends last; by analysis."""
    if not task.analysis_waits:
        return ()
    last: dict[str, Wait] = {}
    for wait in sorted(waits_of(task), key=lambda wait: (wait.ready, wait.application.place, wait.rule.source)):
        if wait.holds_on(day):
            last[wait.analysis] = wait
    return tuple(last[analysis] for analysis in sorted(last))
