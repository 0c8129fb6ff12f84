"""What is worth a reminder of a farm beside its windows: planned visits, bags that are not back, the farm report."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from soilrota.model.client import Client
from soilrota.model.intake import MissingBag
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import LeadTimes, ReminderKind
from soilrota.model.reminders import Event, PlannedVisit, ReportState, Said, TaskName
from soilrota.model.windows import TaskKey

#: A signed report is no news any more so long after it was signed [d]. House default.
_NEWS_DAYS = 60


def task_name(client: Client, key: TaskKey) -> TaskName:
    """Return what people call a task; the ids where the client has no such zone any more."""
    names = {(zone.farm, zone.id): zone.name for farm in client.farms for zone in farm.zones}
    protocol = client.protocols.get(key.protocol)
    return TaskName(names.get((key.farm, key.zone), key.zone), protocol.name if protocol else key.protocol)


def farm_name(client: Client, farm: str) -> str:
    """Return what people call a farm."""
    return next((one.name for one in client.farms if one.id == farm), farm)


def visit_events(
    client: Client, visits: Iterable[PlannedVisit], as_of: date, times: LeadTimes, said: Iterable[Said] = ()
) -> Iterator[Event]:
    """Yield an event a visit that somebody is placed on and that is near.

    A visit of which a day to come was said before is spoken of however far off it is now: who expects it on the other
    day must hear of the new one at once.
    """
    expected = {
        visit_task(one.event)
        for one in said
        if one.day >= as_of and one.event.startswith(f"{ReminderKind.VISIT}/{client.id}/")
    }
    for visit in visits:
        near = visit.first <= as_of + timedelta(days=times.best_day_days)
        moved = any(key in expected for key, _ in visit.tasks)
        if not visit.person or visit.first < as_of or not (near or moved):
            continue
        person = client.practice.people.get(visit.person)
        farm = next((one for one in client.farms if one.id == visit.farm), None)
        yield Event(
            name=visit_name(client, visit),
            kind=ReminderKind.VISIT,
            urgency=Urgency.SOON,
            day=visit.first,
            client=client.id,
            client_name=client.name,
            farm=visit.farm,
            farm_name=farm_name(client, visit.farm),
            tasks=tuple(sorted(task_name(client, key) for key, _ in visit.tasks)),
            facts={
                "first": visit.first,
                "last": visit.last,
                "who": person.name if person else visit.person,
                "minutes": visit.minutes,
                "locality": farm.locality if farm else "",
                "contacts": tuple(f"{one.name} ({one.role}), {one.phone}" for one in client.contacts if one.phone),
                "visit": visit.id,
            },
            person=visit.person,
        )


def visit_name(client: Client, visit: PlannedVisit) -> str:
    """Return the name of the event of a visit, which is known by the first of its tasks and its season."""
    key, season = min(visit.tasks, key=lambda one: (one[0].zone, one[0].protocol, one[1]))
    return f"{ReminderKind.VISIT}/{client.id}/{visit.farm}/{key.zone}/{key.protocol}/{season.isoformat()}"


def visit_task(name: str) -> TaskKey:
    """Return the task that the event of a visit is named by.

    >>> visit_task("visit/anvil-creek/home/barn/topsoil/2027-01-20")
    TaskKey(farm='home', zone='barn', protocol='topsoil')
    """
    _, _, farm, zone, protocol, _ = name.split("/")
    return TaskKey(farm, zone, protocol)


def bag_events(client: Client, missing: Iterable[MissingBag], as_of: date, times: LeadTimes) -> Iterator[Event]:
    """Yield an event a farm, laboratory and day of sampling of which bags are late; it is said again until none is."""
    late: defaultdict[tuple[str, str, date], list[MissingBag]] = defaultdict(list)
    for bag in missing:
        if bag.client == client.id and bag.due is not None and _is_late(bag.due, as_of, times):
            late[bag.farm, bag.laboratory, bag.since].append(bag)
    for (farm, laboratory, since), bags in sorted(late.items()):
        known = client.practice.laboratories.get(laboratory)
        yield Event(
            name=f"bags-out/{client.id}/{farm}/{laboratory}/{since.isoformat()}",
            kind=ReminderKind.BAGS_OUT,
            urgency=Urgency.SOON,
            day=since,
            client=client.id,
            client_name=client.name,
            farm=farm,
            farm_name=farm_name(client, farm),
            tasks=tuple(sorted({task_name(client, TaskKey(farm, bag.zone, bag.protocol)) for bag in bags})),
            facts={
                "laboratory": known.name if known else "",
                "since": since,
                "due": max(bag.due for bag in bags if bag.due is not None),
                "count": len(bags),
                "bags": tuple(sorted(bag.bag for bag in bags if bag.bag)),
            },
            repeats=True,
            apart_days=times.bags_again_days,
        )


def _is_late(due: date, as_of: date, times: LeadTimes) -> bool:
    """Return whether results that were due on a day are late enough to be spoken of."""
    return due + timedelta(days=times.bags_late_days) <= as_of


def report_events(client: Client, report: ReportState | None, as_of: date, times: LeadTimes) -> Iterator[Event]:
    """Yield that a signed report is ready, or that a draft waits; what is not signed for certain is a draft."""
    if report is None or report.made_on > as_of:
        return
    signature = report.sign.signature
    if signature is not None and report.sign.is_signed and not report.sign.problems:
        if signature.day + timedelta(days=_NEWS_DAYS) < as_of:
            return
        yield Event(
            name=f"report/{client.id}/{signature.digest}",
            kind=ReminderKind.REPORT,
            urgency=Urgency.ORDINARY,
            day=signature.day,
            client=client.id,
            client_name=client.name,
            facts={"by": signature.name, "signed": signature.day},
        )
        return
    yield Event(
        name=f"draft/{client.id}",
        kind=ReminderKind.DRAFT,
        urgency=Urgency.ORDINARY,
        day=report.made_on,
        client=client.id,
        client_name=client.name,
        facts={"made": report.made_on, "changed": report.sign.changed, "signed_before": signature is not None},
        apart_days=times.draft_apart_days,
    )
