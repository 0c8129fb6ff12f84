"""Short ways to write tasks and records in tests, and random tasks full of awkward days."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

from soilrota.model.applications import Application, Standing
from soilrota.model.moisture import CALENDAR_DAYS, Likelihood, MoistureOutlook, RecordedMoisture
from soilrota.model.practice import AnalysisWait, Laboratory, MonthDay, MonthDaySpan
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

LOG = "clients/anvil-creek/applications.csv"
AWKWARD_DAYS = [(1, 1), (1, 31), (2, 28), (2, 29), (3, 1), (3, 31), (5, 31), (8, 31), (11, 30), (12, 31)]
CLASSES = ("mineral-fertiliser", "lime", "manure", "other-amendment")


def day(text: str) -> date:
    """Return the day of an ISO date."""
    return date.fromisoformat(text)


def span(first: str, last: str) -> Span:
    """Return the span between two ISO dates."""
    return Span(day(first), day(last))


def spread(
    first: str | None,
    last: str | None = None,
    *,
    months: int = 3,
    standing: str = "done",
    material_class: str = "mineral-fertiliser",
    line: int = 2,
    counts: bool = True,
    zones: tuple[str, ...] = ("river-flat",),
    override: str = "",
    usual: int = 3,
) -> AppliedGap:
    """Return an application with its gap; `first` alone is a single day, `?` an unknown day."""
    last = first if last is None else last
    application = Application(
        farm="home",
        zones=zones,
        material_class=material_class,
        material=f"{material_class} of row {line}",
        first_day=None if first in {None, "?"} else day(str(first)),
        last_day=None if last in {None, "?"} else day(str(last)),
        standing=Standing(standing),
        rate_kg_ha=None,
        place=Place(LOG, line),
    )
    place = Place("clients/anvil-creek/client.yaml", 40) if override else None
    return AppliedGap(application, counts, months, override, place, usual)


def sampled(on: str, reported: str | None = None, *, line: int = 2, awaited: bool = True) -> Sampling:
    """Return a sampling, with the day of its report where results are in."""
    place = Place("clients/anvil-creek/field_notes.csv", line)
    return Sampling(day(on), None if reported is None else day(reported), (), place, awaited)


def seasons(*spans: str) -> tuple[MonthDaySpan, ...]:
    """Return month-day spans written like `01-20..03-31`."""
    return tuple(MonthDaySpan(*(MonthDay(*map(int, end.split("-"))) for end in text.split(".."))) for text in spans)


def a_task(
    *records: AppliedGap | Sampling,
    season: tuple[MonthDaySpan, ...] | None = None,
    interval: int = 12,
    tolerance: int = 30,
    waits: tuple[AnalysisWait, ...] = (),
) -> Task:
    """Return a task; its season is late summer, 20 January to 31 March, unless given."""
    return Task(
        key=TaskKey("home", "river-flat", "topsoil"),
        season="late-summer",
        seasons=season or seasons("01-20..03-31"),
        interval_months=interval,
        tolerance_days=tolerance,
        samplings=tuple(record for record in records if isinstance(record, Sampling)),
        applications=tuple(record for record in records if isinstance(record, AppliedGap)),
        analysis_waits=waits,
        place=Place("clients/anvil-creek/client.yaml", 12),
    )


def random_day(random: Random, around: date, reach: int) -> date:
    """Return a day near another; every third one is the end of a month or next to it."""
    found = around + timedelta(days=random.randint(-reach, reach))
    if random.random() < 1 / 3:
        month, number = random.choice(AWKWARD_DAYS)
        is_leap = found.year % 4 == 0
        found = date(found.year, month, number if is_leap or (month, number) != (2, 29) else 28)
    return found


def random_season(random: Random) -> tuple[MonthDaySpan, ...]:
    """Return a season of one span, or now and then two; wraps, single days and 29 February happen."""

    def month_day() -> MonthDay:
        if random.random() < 1 / 4:
            return MonthDay(*random.choice(AWKWARD_DAYS))
        return MonthDay(random.randint(1, 12), random.randint(1, 28))

    spans = []
    for _ in range(1 if random.random() < 3 / 4 else 2):
        first = month_day()
        last = first if random.random() < 1 / 20 else month_day()
        spans.append(MonthDaySpan(first, last))
    return tuple(spans)


def random_application(random: Random, as_of: date, line: int) -> AppliedGap:
    """Return an application within a year and a half of the as-of date, of any standing, now and then undated."""
    first = random_day(random, as_of, 540)
    last = first + timedelta(days=random.choice((0, 0, 0, 1, 9, 40)))
    fate = random.random()
    is_override = random.random() < 1 / 6
    counts = random.random() < 9 / 10
    application = Application(
        farm="home",
        zones=("river-flat",) if random.random() < 5 / 6 else (),
        material_class=random.choice(CLASSES),
        material="something",
        first_day=None if fate < 1 / 15 else first,
        last_day=None if fate < 1 / 60 or fate > 119 / 120 else last,
        standing=random.choice((Standing.DONE, Standing.DONE, Standing.PLANNED, Standing.PLANNED, Standing.CANCELLED)),
        rate_kg_ha=None,
        place=Place(LOG, line),
    )
    usual = random.choice((3, 3, 3, 4, 6, 12)) if counts else 0
    if not is_override or not counts:
        return AppliedGap(application, counts, usual, usual_months=usual)
    place = Place("client.yaml", random.randint(1, 90))
    return AppliedGap(application, counts, random.choice((0, 1, 2, 14)), "agreed with the adviser", place, usual)


def random_task(random: Random) -> tuple[Task, date]:
    """Return a task and an as-of date between 2023 and 2033."""
    as_of = random_day(random, date(2028, 6, 30), 1800)
    samplings: dict[date, Sampling] = {}
    for line in range(random.choice((0, 1, 1, 1, 2, 3))):
        on = random_day(random, as_of - timedelta(days=random.choice((0, 200, 400, 700))), 200)
        reported = None if random.random() < 1 / 3 else on + timedelta(days=random.randint(5, 60))
        samplings[on] = Sampling(on, reported, (), Place("field_notes.csv", line), random.random() < 5 / 6)
    lines = range(2, 2 + random.choice((0, 1, 1, 2, 3, 6)))
    waits = (AnalysisWait("lime", ("ph", "aluminium"), 12, "a"), AnalysisWait("lime", ("ph",), 24, "b"))
    task = Task(
        key=TaskKey("home", "river-flat", "topsoil"),
        season="some",
        seasons=random_season(random),
        interval_months=random.choice((1, 3, 6, 12, 12, 12, 18, 24, 36)),
        tolerance_days=random.choice((0, 10, 30, 60)),
        samplings=tuple(samplings[on] for on in sorted(samplings)),
        applications=tuple(random_application(random, as_of, line) for line in lines),
        analysis_waits=random.choice(((), waits[:1], waits)),
        place=Place("client.yaml", 12),
    )
    return task, as_of


def random_calendar(random: Random, as_of: date) -> WorkCalendar:
    """Return a calendar with some weekdays off, public holidays of some country, leave and blackouts."""
    closures = []
    for line in range(random.choice((0, 0, 1, 2))):
        first = random_day(random, as_of, 300)
        days = Span(first, first + timedelta(days=random.choice((0, 3, 12, 45))))
        kind = random.choice(("leave", "blackout"))
        closures.append(Closure(kind, days, "a reason", Place("practice.yaml", 60 + line)))
    weekdays = random.choice(((1, 2, 3, 4, 5), (1, 2, 3, 4, 5), (1, 2, 3, 4, 5, 6, 7), (2, 4), (6,)))
    country, subdivision = random.choice((("AU", "VIC"), ("GB", "NIR"), ("US", ""), ("", "")))
    return WorkCalendar(weekdays, country, subdivision, tuple(closures))


def random_laboratory(random: Random) -> Laboratory:
    """Return a laboratory with a courier, receiving days and a turnaround."""
    receiving = tuple(sorted(random.sample((1, 2, 3, 4, 5), random.randint(1, 5))))
    country = random.choice(("AU", "GB", "US"))
    turnaround, courier = random.choice((0, 5, 10)), random.choice((0, 1, 2))
    return Laboratory("bench", "Bench", country, turnaround, courier, receiving, Place("laboratories/bench.yaml"))


def random_outlook(random: Random) -> MoistureOutlook:
    """Return an outlook of runs of days."""
    likelihoods: list[Likelihood] = []
    while len(likelihoods) < CALENDAR_DAYS:
        likelihoods += [random.choice(list(Likelihood))] * random.choice((1, 5, 30, 90))
    recorded = RecordedMoisture(date(2026, 1, 1), 0.5, "moist") if random.random() < 1 / 2 else None
    return MoistureOutlook("station", 12, "moist", tuple(likelihoods[:CALENDAR_DAYS]), recorded)


def random_practical_task(random: Random) -> tuple[Task, date]:
    """Return a random task with everything: work calendar, laboratory, holding time, decisions, moisture."""
    task, as_of = random_task(random)
    decisions = tuple(
        DecisionDay(random_day(random, as_of, 500), "an order", Place("client.yaml", 70 + line))
        for line in range(random.choice((0, 1, 1, 2)))
    )
    has_laboratory = random.random() < 4 / 5
    return replace(
        task,
        calendar=random_calendar(random, as_of),
        laboratory=random_laboratory(random) if has_laboratory else None,
        holding_days=random.choice((None, None, 2, 4)),
        decisions=decisions,
        moisture=random_outlook(random) if random.random() < 1 / 2 else None,
    ), as_of
