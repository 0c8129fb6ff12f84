"""The rules of a window read day by day, in the most obvious way: the engine is held against this.

Written from the rules alone: loops over days and records, dateutil for months, no spans, no shared code of the engine.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

import holidays
from dateutil.relativedelta import relativedelta

from soilrota.model.applications import Standing
from soilrota.model.practice import Laboratory, MonthDay, MonthDaySpan
from soilrota.model.windows import AppliedGap, Closure, DecisionDay, Sampling, Task
from soilrota.problems import Place

ONE = timedelta(days=1)
YEARS = range(1, 9)


@dataclass(frozen=True)
class Season:
    """One occurrence: its first and its last day."""

    first: date
    last: date

    def days(self) -> list[date]:
        """Return every day of it."""
        return list(days_from(self.first, self.last))


@dataclass(frozen=True)
class Way:
    """A way out: its days and the best of them."""

    kind: str
    days: tuple[date, ...]
    best: date
    out_of_season: int
    late: int
    places: tuple[Place, ...]


@dataclass(frozen=True)
class Expected:
    """What the rules say of one task on one as-of date."""

    state: str
    due: Season
    season: Season
    season_open: list[date]
    open: list[date]
    preferred: date | None
    target: date
    anniversary: date | None
    last_sampling: tuple[date, date | None] | None
    overdue_months: int | None
    closed: set[tuple[date, Place]]
    waiting: list[tuple[str, date]]
    ways_out: list[Way]
    rules: set[str]
    workable: list[date]
    on_time: list[date]
    decision: DecisionDay | None


def days_from(first: date, last: date) -> Iterator[date]:
    """Yield each day from the first to the last, both included."""
    day = first
    while day <= last:
        yield day
        day += ONE


def months_after(day: date, months: int) -> date:
    """Return the corresponding day some months later."""
    return day + relativedelta(months=+months)


def whole_months(earlier: date, later: date) -> int:
    """Count how often a month fits between two days."""
    months = 0
    while months_after(earlier, months + 1) <= later:
        months += 1
    return months


def in_year(month_day: MonthDay, year: int) -> date:
    """Return the day of the year; 29 February is 28 February where there is none."""
    try:
        return date(year, month_day.month, month_day.day)
    except ValueError:
        assert (month_day.month, month_day.day) == (2, 29)
        return date(year, 2, 28)


def all_seasons(spans: tuple[MonthDaySpan, ...], year: int) -> list[Season]:
    """Return every occurrence of some years around one year."""
    found = []
    for start in range(year - 8, year + 9):
        for span in spans:
            wraps = (span.last.month, span.last.day) < (span.first.month, span.first.day)
            found.append(Season(in_year(span.first, start), in_year(span.last, start + 1 if wraps else start)))
    return sorted(found, key=lambda season: (season.first, season.last))


def away(day: date, season: Season) -> int:
    """Count the days from a day to the nearest day of the season."""
    if day < season.first:
        return (season.first - day).days
    if day > season.last:
        return (day - season.last).days
    return 0


def closes(record: AppliedGap, day: date) -> bool:
    """Say whether an application closes a day."""
    application = record.application
    if not record.counts or application.standing is Standing.CANCELLED or application.last_day is None:
        return False
    begun = application.first_day is None or application.first_day <= day
    over = day > application.last_day and day >= months_after(application.last_day, record.months)
    return begun and not over


def nearest_to(target: date, days: list[date]) -> date | None:
    """Return the day nearest to the target, the earlier of two."""
    best = None
    for day in sorted(days):
        if best is None or abs((day - target).days) < abs((best - target).days):
            best = day
    return best


def nearest_anniversary(day: date, season: Season) -> date:
    """Return the anniversary nearest to the season, the earlier of two."""
    best = None
    for year in range(season.first.year - 2, season.last.year + 3):
        candidate = in_year(MonthDay(day.month, day.day), year)
        if best is None or away(candidate, season) < away(best, season):
            best = candidate
    assert best is not None
    return best


def aimed_at(last: Sampling | None, season: Season) -> date:
    """Return the middle of the season, or the day of it that is nearest to the anniversary."""
    if last is None:
        return season.first + timedelta(days=(season.last - season.first).days // 2)
    anniversary = nearest_anniversary(last.day, season)
    return min(season.days(), key=lambda day: abs((day - anniversary).days))


@cache
def holidays_of(country: str, subdivision: str, year: int) -> frozenset[date]:
    """Return the public holidays of a year."""
    return (
        frozenset(holidays.country_holidays(country, subdiv=subdivision or None, years=year))
        if country
        else frozenset()
    )


def is_off(laboratory: Laboratory, day: date) -> bool:
    """Say whether laboratory and couriers rest on a day."""
    return day.isoweekday() > 5 or day in holidays_of(laboratory.country, "", day.year)


def received_on(laboratory: Laboratory, taken: date) -> date:
    """Follow a bag to the laboratory, day by day."""
    day, travelled = taken, 0
    while travelled < laboratory.courier_days:
        day += ONE
        if not is_off(laboratory, day):
            travelled += 1
    while day.isoweekday() not in laboratory.receiving_weekdays or day in holidays_of(laboratory.country, "", day.year):
        day += ONE
    return day


def results_on(laboratory: Laboratory, taken: date) -> date:
    """Follow a bag to its results, day by day."""
    day, worked = received_on(laboratory, taken), 0
    while worked < laboratory.turnaround_working_days:
        day += ONE
        if not is_off(laboratory, day):
            worked += 1
    return day


def is_workable(task: Task, day: date) -> bool:
    """Say whether somebody works on a day and a bag taken then keeps until the laboratory has it."""
    calendar = task.calendar
    if day.isoweekday() not in calendar.weekdays:
        return False
    if day in holidays_of(calendar.country, calendar.subdivision, day.year):
        return False
    if task.laboratory is None or task.holding_days is None:
        return True
    return (received_on(task.laboratory, day) - day).days <= task.holding_days


def is_in_time(task: Task, day: date, decision: DecisionDay | None) -> bool:
    """Say whether results of a day are there for the decision."""
    if decision is None:
        return True
    return (day if task.laboratory is None else results_on(task.laboratory, day)) <= decision.day


def is_closed(closure: Closure, day: date) -> bool:
    """Say whether leave or a blackout takes a day."""
    return closure.span.first <= day <= closure.span.last


def pick(task: Task, last: Sampling | None, days: list[date], season: Season) -> date | None:
    """Return the best of the days for a season."""
    target = aimed_at(last, season)
    if task.moisture is None or not days:
        return nearest_to(target, days)
    near = days
    if last is not None:
        anniversary = nearest_anniversary(last.day, season)
        near = [day for day in days if abs((day - anniversary).days) <= task.tolerance_days] or days
    best = max(task.moisture.on(day) for day in near)
    return nearest_to(target, [day for day in near if task.moisture.on(day) == best])


def expect(task: Task, as_of: date) -> Expected:
    """Say what the rules give for the task on the as-of date."""
    seasons = all_seasons(task.seasons, as_of.year)
    last: Sampling | None = None
    for sampling in task.samplings:
        if sampling.day <= as_of and (last is None or sampling.day > last.day):
            last = sampling
    reported = last.reported if last is not None and last.reported is not None and last.reported <= as_of else None

    due = _due(task, last, seasons, as_of)
    season, overdue = due, None
    if due.last < as_of:
        overdue = whole_months(due.last, as_of)
        season = next(s for s in seasons if s.last >= as_of and (last is None or s.first > last.day))

    counting = [r for r in task.applications if r.counts and r.application.standing is not Standing.CANCELLED]
    closures = task.calendar.closures
    unknown = any(record.application.last_day is None for record in counting)
    closed = {(day, r.application.place) for r in counting for day in season.days() if closes(r, day)}
    closed |= {(day, c.place) for c in closures for day in season.days() if is_closed(c, day)}
    season_open = [] if unknown else [d for d in season.days() if is_free(d, counting, closures)]
    open_days = [day for day in season_open if day >= as_of]
    decision = _decision(task, season)
    season_in_time = [day for day in season_open if is_workable(task, day) and is_in_time(task, day, decision)]
    workable = [day for day in open_days if is_workable(task, day)]
    on_time = [day for day in workable if is_in_time(task, day, decision)]

    anniversary = None
    if last is not None:
        anniversary = nearest_anniversary(last.day, season)
    season_best = pick(task, last, season_in_time, season)
    preferred = pick(task, last, on_time, season)
    if on_time and season_best is not None and season_best < as_of:
        preferred = on_time[0]
    waiting = _waiting(task, preferred)
    return Expected(
        state=_state(
            as_of,
            last,
            reported,
            due=due,
            overdue=overdue,
            open_days=open_days,
            workable=workable,
            on_time=on_time,
            unknown=unknown,
        ),
        due=due,
        season=season,
        season_open=season_open,
        open=open_days,
        preferred=preferred,
        target=aimed_at(last, season),
        anniversary=anniversary,
        last_sampling=None if last is None else (last.day, reported),
        overdue_months=overdue,
        closed=closed,
        waiting=waiting,
        ways_out=[] if workable or unknown else _ways_out(task, counting, as_of, last, season=season, due=due),
        rules=_rules_of_calendar(last, overdue, waiting)
        | _rules_of_choice(task, as_of, preferred, season_best, anniversary)
        | _rules_of_practice(task, season, season_open, workable=workable, on_time=on_time, decision=decision)
        | {rule for record in task.applications for rule in _rules_of_application(record, as_of, season)},
        workable=workable,
        on_time=on_time,
        decision=decision,
    )


def is_free(day: date, records: list[AppliedGap], closures: tuple[Closure, ...]) -> bool:
    """Say whether nothing closes a day."""
    return not any(closes(record, day) for record in records) and not any(is_closed(c, day) for c in closures)


def _decision(task: Task, season: Season) -> DecisionDay | None:
    """Return the first decision on or after the season's first day, within a year of its last."""
    until = months_after(season.last, 12)
    ahead = [decision for decision in task.decisions if season.first <= decision.day <= until]
    return min(ahead, key=lambda decision: (decision.day, decision.place)) if ahead else None


def _due(task: Task, last: Sampling | None, seasons: list[Season], as_of: date) -> Season:
    """Return the season in which the task is first due."""
    if last is None:
        return next(season for season in seasons if season.last >= as_of)
    due_on = months_after(last.day, task.interval_months)
    candidates = [s for s in all_seasons(task.seasons, due_on.year) if s.first > last.day]
    best = candidates[0]
    for season in candidates:
        if away(due_on, season) < away(due_on, best):
            best = season
    return best


def _state(
    as_of: date,
    last: Sampling | None,
    reported: date | None,
    *,
    due: Season,
    overdue: int | None,
    open_days: list[date],
    workable: list[date],
    on_time: list[date],
    unknown: bool,
) -> str:
    """Return the first state that holds."""
    if unknown:
        return "not-known"
    if last is not None and as_of < due.first:
        if reported is None and last.awaited:
            return "bags-out"
        if reported is not None and as_of <= months_after(last.day, 6):
            return "results-in"
    if overdue is not None:
        return "overdue"
    if not workable:
        return "no-day-left"
    if not on_time:
        return "late-for-decision"
    if as_of in open_days:
        return "last-days" if max(on_time) <= as_of + timedelta(days=14) else "open-today"
    return "opens-later"


def _waiting(task: Task, preferred: date | None) -> list[tuple[str, date]]:
    """Return the analyses that are not ready on the preferred day."""
    found: dict[str, date] = {}
    for record in task.applications:
        application = record.application
        if preferred is None or application.standing is Standing.CANCELLED or application.last_day is None:
            continue
        if application.first_day is not None and application.first_day > preferred:
            continue
        for wait in task.analysis_waits:
            ready = months_after(application.last_day, wait.months)
            if wait.material_class == application.material_class and preferred < ready:
                for analyte in wait.analytes:
                    found[analyte] = max(ready, found.get(analyte, ready))
    return sorted(found.items())


def _is_planned(record: AppliedGap, as_of: date) -> bool:
    """Say whether an application is planned, or claimed to be done before its time."""
    application = record.application
    if application.standing is Standing.PLANNED:
        return True
    return application.first_day is not None and application.first_day > as_of


def _can_move(record: AppliedGap, as_of: date) -> bool:
    """Say whether a planned application is not over yet."""
    last_day = record.application.last_day
    return _is_planned(record, as_of) and last_day is not None and last_day >= as_of


def _ways_out(
    task: Task,
    counting: list[AppliedGap],
    as_of: date,
    last: Sampling | None,
    *,
    season: Season,
    due: Season,
) -> list[Way]:
    """Return what to do when no day of the season is left."""
    in_the_way = [r for r in counting if _can_move(r, as_of) and any(closes(r, day) for day in season.days())]
    places = tuple(sorted(record.application.place for record in in_the_way))
    staying = [record for record in counting if record not in in_the_way]

    def free(first: date, last: date, records: list[AppliedGap] = counting) -> list[date]:
        return [day for day in days_from(first, last) if is_free(day, records, task.calendar.closures)]

    before = []
    starts = [r.application.first_day for r in in_the_way if r.application.first_day is not None]
    if starts:
        before = free(as_of, min(starts) - ONE)
    later = [
        s
        for s in all_seasons(task.seasons, season.last.year)
        if s.first > season.last and s.first.year <= season.last.year + 6
    ]
    after = free(season.last + ONE, later[0].first - ONE)
    after = [day for day in after if day < after[0] + timedelta(days=30)]
    upcoming = next((s for s in later if any(is_workable(task, day) for day in free(s.first, s.last))), season)
    moved = free(max(as_of, season.first), season.last, staying) if in_the_way else []

    ways = []
    for kind, days, aim in (
        ("before-planned", before, season),
        ("after-gap", after, season),
        ("next-season", free(upcoming.first, upcoming.last), upcoming),
        ("move-planned", moved, season),
    ):
        best = pick(task, last, [day for day in days if is_workable(task, day)], aim)
        if best is not None:
            giving = places if kind == "move-planned" else ()
            ways.append(Way(kind, tuple(days), best, away(best, aim), whole_months(due.last, best), giving))
    return ways


def _rules_of_calendar(last: Sampling | None, overdue: int | None, waiting: list[tuple[str, date]]) -> set[str]:
    """Return the rules that must speak of the season and of analyses that are not ready."""
    rules = {"season"}
    rules |= {"never-sampled", "middle-of-season"} if last is None else {"sampled", "due-season", "anniversary"}
    if overdue is not None:
        rules.add("overdue")
    if waiting:
        rules.add("analysis-wait")
    return rules


def _rules_of_choice(
    task: Task, as_of: date, preferred: date | None, best: date | None, anniversary: date | None
) -> set[str]:
    """Return the rules that must speak of the preferred day, `best` being the best open day of the whole season."""
    rules = set()
    if preferred is not None and best is not None and best < as_of:
        rules.add("best-day-passed")
    elif preferred is not None and task.moisture is not None:
        rules.add("moisture")
    if preferred is not None and anniversary is not None and abs((preferred - anniversary).days) > task.tolerance_days:
        rules.add("outside-tolerance")
    return rules


def _rules_of_practice(
    task: Task,
    season: Season,
    season_open: list[date],
    *,
    workable: list[date],
    on_time: list[date],
    decision: DecisionDay | None,
) -> set[str]:
    """Return the rules that must speak of leave, worked days, holding times and the decision."""
    rules = {c.kind for c in task.calendar.closures for day in season.days() if is_closed(c, day)}
    calendar = task.calendar
    off = [day for day in season_open if day in holidays_of(calendar.country, calendar.subdivision, day.year)]
    if season_open and (off or len(calendar.weekdays) < 7):
        rules.add("worked-days")
    if task.laboratory is not None and task.holding_days is not None:
        waits = [(received_on(task.laboratory, day) - day).days for day in season_open]
        if any(wait > task.holding_days for wait in waits):
            rules.add("holding")
    if decision is not None:
        rules.add("decision")
        if workable and not on_time:
            rules.add("late")
    return rules


def _rules_of_application(record: AppliedGap, as_of: date, season: Season) -> set[str]:
    """Return the rules that must speak of one application."""
    application = record.application
    if application.standing is Standing.CANCELLED:
        return set()
    if not record.counts:
        known = [day for day in (application.first_day, application.last_day) if day is not None]
        year_before = season.first + relativedelta(years=-1)
        is_near = not known or (known[-1] >= year_before and known[0] <= season.last)
        return {"class-does-not-count"} if is_near else set()
    rules = set()
    if application.last_day is None:
        rules.add("spread-undated")
    elif any(closes(record, day) for day in season.days()):
        rules.add("spread-planned" if _is_planned(record, as_of) else "spread")
        if application.standing is Standing.PLANNED and application.last_day < as_of:
            rules.add("plan-has-passed")
        if record.override_reason:
            rules.add("gap-override")
    elif record.override_reason:
        usual = AppliedGap(application, counts=True, months=record.usual_months)
        if any(closes(usual, day) for day in season.days()):
            rules.add("gap-override")
    if rules & {"spread", "spread-planned", "spread-undated"} and not application.zones:
        rules.add("spread-no-zone")
    return rules
