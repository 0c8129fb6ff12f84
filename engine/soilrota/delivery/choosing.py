"""Which reminders a night has: of each client, and of the practice itself. What was said before is not asked here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from soilrota.delivery.farm_events import bag_events, report_events, visit_events
from soilrota.delivery.gone_visits import gone_visits
from soilrota.delivery.office_events import laboratory_events, set_aside_events
from soilrota.delivery.recipients import office_of, recipients_of
from soilrota.delivery.window_events import window_events
from soilrota.model.check_charts import CheckChart
from soilrota.model.client import Client
from soilrota.model.intake import MissingBag
from soilrota.model.practice import Practice
from soilrota.model.reminder_choices import LeadTimes
from soilrota.model.reminders import Event, PlannedVisit, Reminder, ReportState, Said, SetAsideFile
from soilrota.model.windows import Window


@dataclass(frozen=True, slots=True)
class ClientNight:
    """What a night knows of one client.

    Attributes:
        client: the client.
        windows: the answers for its tasks on the as-of date.
        visits: its visits, those with a place in the field calendar and those without.
        missing: bags of any client that are not back; those of other clients are left out.
        report: how its farm report stands; None where there is none.
    """

    client: Client
    windows: tuple[Window, ...]
    visits: tuple[PlannedVisit, ...] = ()
    missing: tuple[MissingBag, ...] = ()
    report: ReportState | None = None


@dataclass(frozen=True, slots=True)
class PracticeNight:
    """What a night knows of the practice itself: files of which rows wait, charts of check samples."""

    practice: Practice
    set_aside: tuple[SetAsideFile, ...] = ()
    charts: tuple[CheckChart, ...] = ()


def reminders_of(night: ClientNight, as_of: date, said: Iterable[Said] = ()) -> tuple[Reminder, ...]:
    """Return everything that people may be told of a client on the as-of date, whether or not they know it already.

    The same event has the same name and day night after night; `gathering.due` keeps what is new. Nothing is said of
    a day that has passed.

    Args:
        night: what is known of the client.
        as_of: the as-of date.
        said: what was said before, of any client: who was told of a visit is told that it will not take place.
    """
    times, said = lead_times(night.client), tuple(said)
    events = (
        *window_events(night.client, night.windows, night.visits, as_of, times),
        *visit_events(night.client, night.visits, as_of, times, said),
        *bag_events(night.client, night.missing, as_of, times),
        *report_events(night.client, night.report, as_of, times),
    )
    told = (Reminder(to, event) for event in events for to in recipients_of(night.client, event))
    return (*told, *gone_visits(night.client, night.windows, night.visits, said, as_of))


def practice_reminders(night: PracticeNight, as_of: date) -> tuple[Reminder, ...]:
    """Return everything that the office may be told on the as-of date."""
    events: Iterable[Event] = (
        *set_aside_events(night.set_aside, night.practice, as_of),
        *laboratory_events(night.charts, night.practice, as_of),
    )
    return tuple(Reminder(to, event) for event in events for to in office_of(night.practice, event))


def lead_times(client: Client) -> LeadTimes:
    """Return the lead times that hold for a client: the practice's, with what the client sets otherwise."""
    return replace(client.practice.reminders.times, **client.lead_times)
