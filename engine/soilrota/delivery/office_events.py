"""What the office is told: laboratory rows that wait, a laboratory that its check samples show to be off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from soilrota.model.check_charts import CheckChart, CheckState
from soilrota.model.messages import Urgency
from soilrota.model.practice import Practice
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Event, SetAsideFile


def set_aside_events(files: Iterable[SetAsideFile], practice: Practice, as_of: date) -> Iterator[Event]:
    """Yield an event a file of which rows wait; it is said again until nothing waits."""
    for file in files:
        if file.received <= as_of:
            yield Event(
                name=f"set-aside/{file.digest}",
                kind=ReminderKind.SET_ASIDE,
                urgency=Urgency.SOON,
                day=file.received,
                facts={
                    "file": file.name,
                    "laboratory": _laboratory_name(practice, file.laboratory),
                    "rows": file.rows,
                    "received": file.received,
                },
                repeats=True,
                apart_days=practice.reminders.times.set_aside_again_days,
            )


def laboratory_events(charts: Iterable[CheckChart], practice: Practice, as_of: date) -> Iterator[Event]:
    """Yield an event a laboratory, analysis and spell in which it is off, once."""
    for chart in charts:
        if chart.state is CheckState.OFF and chart.since is not None and chart.since <= as_of:
            yield Event(
                name=f"laboratory-off/{chart.laboratory}/{chart.material}/{chart.analysis}",
                kind=ReminderKind.LABORATORY_OFF,
                urgency=Urgency.URGENT,
                day=chart.since,
                facts={
                    "laboratory": _laboratory_name(practice, chart.laboratory),
                    "analysis": chart.analysis,
                    "since": chart.since,
                },
            )


def _laboratory_name(practice: Practice, laboratory: str) -> str:
    """Return what people call a laboratory; empty where none is known."""
    known = practice.laboratories.get(laboratory)
    return known.name if known else ""
