"""What is worth a reminder of the windows of a client.

| event | said when | the same again |
|---|---|---|
| opens-soon | the first worked day of a season is near | never for the same season |
| best-day | the preferred day is near and nobody is placed | where it moved by more than `moved_days` |
| closing | open, few days left in time, nobody placed on one of them | never for the same season |
| spreading | a planned spreading is near that takes days which are needed | where the spreading moved |
| overdue | the due season ended unsampled | every `overdue_again_days` |
| decision | a decision is near | where the decision moved |

A preferred day that is only the first of those left, because the best day has passed, moves every night: it is not
spoken of. Of a task that wants no day (its bags are out, its results are in) only the decision speaks.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.delivery.farm_events import farm_name, task_name
from soilrota.model.client import Client
from soilrota.model.messages import Urgency
from soilrota.model.reminder_choices import LeadTimes, ReminderKind
from soilrota.model.reminders import Event, PlannedVisit
from soilrota.model.windows import Fact, Reason, Rule, State, TaskKey, WayOutKind, Window

#: States in which a task wants a day.
_WANTS_A_DAY = frozenset({State.OPEN_TODAY, State.OPENS_LATER, State.LAST_DAYS, State.OVERDUE, State.LATE_FOR_DECISION})
#: States in which a planned spreading can take the days that are left, or has.
_SPREADING_MATTERS = _WANTS_A_DAY | {State.NO_DAY_LEFT}
#: So many days before a day it is urgent [d]. House default.
_URGENT_DAYS = 5


def window_events(
    client: Client, windows: Iterable[Window], visits: Iterable[PlannedVisit], as_of: date, times: LeadTimes
) -> Iterator[Event]:
    """Yield an event a task and thing to say of its window; decisions once for all their tasks of a farm."""
    placed = {key: visit for visit in visits if visit.person for key, _ in visit.tasks}
    windows = tuple(windows)
    for window in windows:
        looked = _Looked(client, window, placed.get(window.key), as_of, times)
        if window.state in _WANTS_A_DAY:
            yield from _opens_soon(looked)
            yield from _best_day(looked)
            yield from _closing(looked)
            yield from _overdue(looked)
        if window.state in _SPREADING_MATTERS:
            yield from _spreadings(looked)
    yield from _decisions(client, windows, placed, as_of, times)


@dataclass(frozen=True, slots=True)
class _Looked:
    """One window looked at on one night."""

    client: Client
    window: Window
    visit: PlannedVisit | None
    as_of: date
    times: LeadTimes

    def near(self, day: date, days: int) -> bool:
        """Return whether a day is not over yet and at most so many days away."""
        return self.as_of <= day <= self.as_of + timedelta(days=days)

    def urgency(self, day: date) -> Urgency:
        """Return how urgent a last day is."""
        return Urgency.URGENT if day <= self.as_of + timedelta(days=_URGENT_DAYS) else Urgency.SOON

    def event(
        self, kind: ReminderKind, day: date, urgency: Urgency, facts: Mapping[str, Fact], more: str = ""
    ) -> Event:
        """Return an event of the window; its name holds the season, and `more` where a season may have several."""
        key, season = self.window.key, self.window.season.span.first.isoformat()
        parts = [kind, self.client.id, key.farm, key.zone, key.protocol, season, *filter(None, [more])]
        return Event(
            name="/".join(parts),
            kind=kind,
            urgency=urgency,
            day=day,
            client=self.client.id,
            client_name=self.client.name,
            farm=key.farm,
            farm_name=farm_name(self.client, key.farm),
            tasks=(task_name(self.client, key),),
            facts=facts,
            repeats=kind is ReminderKind.OVERDUE,
            apart_days=self.times.overdue_again_days if kind is ReminderKind.OVERDUE else 0,
            same_within_days=self.times.moved_days if kind is ReminderKind.BEST_DAY else 0,
        )


def _opens_soon(looked: _Looked) -> Iterator[Event]:
    """Yield that a window opens soon, where no day of its season was open before."""
    window = looked.window
    if not window.workable or not looked.near(window.workable[0].first, looked.times.opens_days):
        return
    first = window.workable[0].first
    if window.season_open[0].first < looked.as_of or first == looked.as_of:
        return
    facts: dict[str, Fact] = {"first": first, "last": (window.on_time or window.workable)[-1].last}
    if window.preferred is not None:
        facts["best"] = window.preferred
    yield looked.event(ReminderKind.OPENS_SOON, window.season.span.first, Urgency.ORDINARY, facts)


def _best_day(looked: _Looked) -> Iterator[Event]:
    """Yield that the preferred day is near and nobody is placed yet."""
    window = looked.window
    passed = any(reason.rule is Rule.BEST_DAY_PASSED for reason in window.reasons)
    if looked.visit is not None or passed or window.preferred is None:
        return
    if looked.near(window.preferred, looked.times.best_day_days):
        facts = {"best": window.preferred, "last": window.on_time[-1].last}
        yield looked.event(ReminderKind.BEST_DAY, window.preferred, Urgency.SOON, facts)


def _closing(looked: _Looked) -> Iterator[Event]:
    """Yield that few days are left, unless somebody is placed on one of them."""
    window = looked.window
    if not window.on_time or window.open[0].first > looked.as_of:
        return
    last = window.on_time[-1].last
    if looked.near(last, looked.times.closing_days) and (looked.visit is None or looked.visit.last > last):
        facts: dict[str, Fact] = {"last": last}
        if window.decision is not None and window.last_useful is not None and window.workable[-1].last > last:
            facts |= {"what": window.decision.what, "decision": window.decision.day}
        yield looked.event(ReminderKind.CLOSING, window.season.span.first, looked.urgency(last), facts)


def _spreadings(looked: _Looked) -> Iterator[Event]:
    """Yield each planned spreading that is near and takes days of the season.

    One that leaves no day before it but enough after it only moves the window, and nobody has to act.
    """
    for reason in looked.window.reasons:
        if reason.rule is not Rule.SPREAD_PLANNED or not reason.taken:
            continue
        day = reason.facts.get("first_day") or reason.facts.get("last_day")
        if not isinstance(day, date) or day <= looked.as_of or not looked.near(day, looked.times.spreading_days):
            continue
        if not looked.window.workable or looked.window.workable[0].first < day:
            yield _spreading(looked, reason, day)


def _spreading(looked: _Looked, reason: Reason, day: date) -> Event:
    """Return one planned spreading with the days that are left before it."""
    before = [span for span in looked.window.workable if span.first < day]
    facts: dict[str, Fact] = {
        "class": str(reason.facts["class"]),
        "material": str(reason.facts.get("material", "")),
        "spread": day,
        "open_again": reason.facts["open_again"],
        "season_last": looked.window.season.span.last,
    }
    if before:
        facts["first"] = before[0].first
        facts["last"] = min(before[-1].last, day - timedelta(days=1))
    if looked.visit is not None and looked.visit.last < day:
        facts["visit"] = looked.visit.first
    moved = [way for way in looked.window.ways_out if way.kind is WayOutKind.MOVE_PLANNED]
    if moved:
        facts["until"] = moved[0].spans[-1].last
    return looked.event(ReminderKind.SPREADING, day, looked.urgency(day), facts, str(reason.facts["class"]))


def _overdue(looked: _Looked) -> Iterator[Event]:
    """Yield that the due season ended unsampled, named by that season."""
    window = looked.window
    if window.overdue_months is None:
        return
    facts: dict[str, Fact] = {"ended": window.due.span.last, "months": window.overdue_months}
    if window.workable:
        facts |= {"first": window.workable[0].first, "last": window.workable[-1].last}
        facts["open"] = "yes" if window.workable[0].first <= looked.as_of else ""
    if looked.visit is not None:
        facts["visit"] = looked.visit.first
    due = window.due.span.first.isoformat()
    yield looked.event(ReminderKind.OVERDUE, window.due.span.last, Urgency.SOON, facts, due)


def _decisions(
    client: Client, windows: Iterable[Window], placed: Mapping[TaskKey, PlannedVisit], as_of: date, times: LeadTimes
) -> Iterator[Event]:
    """Yield each decision that is near, by farm, with where its tasks stand."""
    for decision in client.decisions:
        if not as_of <= decision.day <= as_of + timedelta(days=times.decision_days):
            continue
        by_farm: defaultdict[str, list[Window]] = defaultdict(list)
        for window in windows:
            key = window.key
            named = not decision.zones or f"{key.farm}/{key.zone}" in decision.zones
            if key.protocol == decision.protocol and named:
                by_farm[key.farm].append(window)
        for farm, found in by_farm.items():
            facts: dict[str, Fact] = {
                "what": decision.what,
                "decision": decision.day,
                **_standing(client, found, as_of),
            }
            planned = [placed[window.key].first for window in found if window.key in placed]
            if planned:
                facts["visit"] = min(planned)
            yield Event(
                name=f"decision/{client.id}/{farm}/{decision.protocol}/{decision.what}/{decision.day.year}",
                kind=ReminderKind.DECISION,
                urgency=Urgency.SOON if facts["unsampled"] else Urgency.ORDINARY,
                day=decision.day,
                client=client.id,
                client_name=client.name,
                farm=farm,
                farm_name=farm_name(client, farm),
                tasks=tuple(task_name(client, window.key) for window in found),
                facts=facts,
            )


def _standing(client: Client, windows: Iterable[Window], as_of: date) -> dict[str, Fact]:
    """Return the zones that are not sampled, those of which bags are out, and whether a day is left in time."""
    unsampled: list[Window] = [window for window in windows if window.state in _WANTS_A_DAY | {State.NO_DAY_LEFT}]
    out = [window for window in windows if window.state is State.BAGS_OUT]
    last = [window.on_time[-1].last for window in unsampled if window.on_time and window.on_time[-1].last >= as_of]
    facts: dict[str, Fact] = {
        "unsampled": tuple(task_name(client, window.key).zone for window in unsampled),
        "out": tuple(task_name(client, window.key).zone for window in out),
    }
    return facts | ({"last": min(last)} if last else {})
