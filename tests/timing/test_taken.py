"""Days of real samples: each oddity by hand, then random clients against a reading day by day."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest
from dateutil.relativedelta import relativedelta

from soilrota.model.applications import Application, Standing
from soilrota.model.client import Blackout, Client
from soilrota.model.findings import SampleFinding, SampleRule, Weight
from soilrota.model.practice import Absence, Hemisphere, MonthDaySpan, Season
from soilrota.model.samples import FieldNote
from soilrota.problems import Place
from soilrota.timing.taken import check_days
from tests.timing.counts import RANDOM_TASKS
from tests.timing.making import day, random_day, random_season, seasons
from tests.timing.test_tasks import client, note, override, practice, protocol, row

ONE = timedelta(days=1)


def in_season(*spans: str) -> dict[str, object]:
    """Return changes to a client: its season by month-day spans."""
    found = Season("late-summer", "Late summer", {Hemisphere.SOUTHERN: seasons(*spans)}, Place("practice.yaml", 9))
    return {"practice": replace(practice(), seasons={"late-summer": found})}


def only(whole: Client) -> SampleFinding:
    """Return the one finding there is."""
    (finding,) = check_days(whole)
    return finding


def spread(first: str | None, last: str | None, standing: Standing = Standing.DONE) -> Application:
    """Return a spreading of manure on the river flat."""
    days = (None if one is None else day(one) for one in (first, last))
    first_day, last_day = days
    return replace(row(), first_day=first_day, last_day=last_day, standing=standing)


@pytest.mark.parametrize(
    ("on", "away", "first", "last"),
    [
        ("2027-01-19", 1, "2027-01-20", "2027-03-31"),
        ("2027-04-10", 10, "2027-01-20", "2027-03-31"),
        ("2026-12-31", 20, "2027-01-20", "2027-03-31"),
    ],
)
def test_outside_the_season(on: str, away: int, first: str, last: str) -> None:
    """The distance in days to the nearest season, whichever side it lies."""
    finding = only(client(field_notes=(note(on),)))
    assert (finding.rule, finding.weight) == (SampleRule.OUTSIDE_SEASON, Weight.DOUBT)
    assert finding.facts == {"days": away, "first": day(first), "last": day(last), "season": "late-summer"}
    assert (finding.sample.zone, finding.sample.day, finding.place) == ("river-flat", day(on), note(on).place)


def test_inside_the_season() -> None:
    """Both ends of a season lie in it, and so do both sides of the year in one that wraps."""
    for on in ("2027-01-20", "2027-03-31"):
        assert check_days(client(field_notes=(note(on),))) == ()
    wraps = in_season("11-15..02-10")
    for on in ("2026-11-15", "2026-12-31", "2027-01-01", "2027-02-10"):
        assert check_days(client(field_notes=(note(on),), **wraps)) == ()
    assert only(client(field_notes=(note("2027-02-11"),), **wraps)).facts["days"] == 1
    assert only(client(field_notes=(note("2026-11-13"),), **wraps)).facts["days"] == 2


def test_inside_a_waiting_time() -> None:
    """Three months after manure the first open day is the corresponding one; the finding says when it was free."""
    manure = spread("2026-11-20", "2026-11-24")
    finding = only(client(field_notes=(note("2027-02-23"),), applications=(manure,)))
    assert (finding.rule, finding.weight) == (SampleRule.INSIDE_GAP, Weight.UNUSABLE)
    assert finding.facts == {
        "class": "manure",
        "material": "something",
        "first_day": day("2026-11-20"),
        "last_day": day("2026-11-24"),
        "spread": day("2026-11-24"),
        "months": 3,
        "free": day("2027-02-24"),
        "standing": "done",
    }
    assert check_days(client(field_notes=(note("2027-02-24"),), applications=(manure,))) == ()


def test_what_came_later_or_did_not_happen() -> None:
    """A spreading after the sampling, a cancelled one and one on another zone did not touch it."""
    for application in (
        spread("2027-02-12", "2027-02-12"),
        spread("2027-02-12", None),
        spread("2027-01-30", "2027-01-30", Standing.CANCELLED),
        replace(spread("2027-01-30", "2027-01-30"), zones=("bank",)),
    ):
        assert check_days(client(field_notes=(note("2027-02-10"),), applications=(application,))) == ()


def test_a_plan_that_was_never_confirmed_counts() -> None:
    """Planned for a day before the sampling, it counts until somebody says that it did not happen."""
    plan = spread("2027-01-30", "2027-01-30", Standing.PLANNED)
    finding = only(client(field_notes=(note("2027-02-10"),), applications=(plan,)))
    assert (finding.weight, finding.facts["standing"]) == (Weight.UNUSABLE, "planned")


def test_the_clients_own_waiting_time_holds() -> None:
    """An override shortens or lengthens the wait, and a protocol may ask for more."""
    manure, taken = spread("2026-12-20", "2026-12-20"), (note("2027-02-25"),)
    whole = client(field_notes=taken, applications=(manure,))
    assert only(whole).facts["free"] == day("2027-03-20")
    assert check_days(replace(whole, gap_overrides=(override(2),))) == ()
    assert check_days(replace(whole, gap_overrides=(override(2, zones=("home/bank",)),))) != ()
    longer = protocol("topsoil", "ph.cacl2", gap_months={"manure": 12})
    assert only(replace(whole, protocols={**whole.protocols, "topsoil": longer})).facts["free"] == day("2027-12-20")


def test_days_of_spreading_that_nobody_knows() -> None:
    """Where a day is missing, what is certain is said as certain, and the rest leaves a doubt."""
    taken = (note("2027-02-10"),)
    for first, last, weight, known in (
        (None, None, Weight.DOUBT, False),
        ("2027-01-30", None, Weight.UNUSABLE, False),
        ("2026-01-30", None, Weight.DOUBT, False),
        (None, "2027-01-30", Weight.UNUSABLE, True),
        (None, "2027-02-20", Weight.DOUBT, True),
    ):
        finding = only(client(field_notes=taken, applications=(spread(first, last),)))
        assert (finding.rule, finding.weight) == (SampleRule.INSIDE_GAP, weight)
        assert ("free" in finding.facts) == known
    assert check_days(client(field_notes=taken, applications=(spread(None, "2026-01-30"),))) == ()


def test_days_that_the_client_had_closed() -> None:
    """A blackout of this zone or of all is said with its reason; the practice's own leave is not."""
    lambing = Blackout(day("2027-02-01"), day("2027-02-10"), "Lambing", (), Place("client.yaml", 70))
    whole = client(field_notes=(note("2027-02-10"),), blackouts=(lambing,))
    finding = only(whole)
    assert (finding.rule, finding.weight, finding.facts) == (
        SampleRule.CLOSED_DAY,
        Weight.NOTE,
        {"reason": "Lambing"},
    )
    assert check_days(replace(whole, blackouts=(replace(lambing, zones=("home/bank",)),))) == ()
    away = Absence(day("2027-02-01"), day("2027-02-28"), "Annual leave", Place("practice.yaml", 80))
    assert check_days(replace(whole, blackouts=(), practice=replace(practice(), leave=(away,)))) == ()


def test_samples_that_no_task_asked_for() -> None:
    """They are held against the same days; a zone or protocol that is not there gives nothing to hold against."""
    stray = replace(note("2027-06-01", name="subsoil"), zone="bank")
    assert only(client(field_notes=(stray,))).rule is SampleRule.OUTSIDE_SEASON
    for gone in (replace(stray, zone="gone"), replace(stray, protocol="gone")):
        assert check_days(client(field_notes=(gone,))) == ()
    nowhere = Season("late-summer", "Late summer", {}, Place("practice.yaml", 9))
    bare = client(field_notes=(stray,))
    empty = replace(bare.farms[0], zones=tuple(replace(zone, protocols=()) for zone in bare.farms[0].zones))
    other_half = replace(practice(), seasons={"late-summer": nowhere})
    assert check_days(replace(bare, farms=(empty,), practice=other_half)) == ()


def season_days(spans: tuple[MonthDaySpan, ...], years: range) -> Iterator[date]:
    """Yield every day of the seasons that begin in the years, one after the other."""
    for year in years:
        for span in spans:
            current, ends = _in_year(span.first.month, span.first.day, year), span.last
            last = _in_year(ends.month, ends.day, year + (ends < span.first))
            while current <= last:
                yield current
                current += ONE


def _in_year(month: int, number: int, year: int) -> date:
    """Return the day in that year, 28 February for the 29th of a common year."""
    try:
        return date(year, month, number)
    except ValueError:
        return date(year, month, 28)


def gaps_expected(whole: Client, taken: FieldNote) -> Iterator[tuple[str, str]]:
    """Yield rule and weight for each spreading that speaks against a sample."""
    for application in whole.applications:
        first, last = application.first_day, application.last_day
        elsewhere = application.zones and taken.zone not in application.zones
        later = first is not None and first > taken.day
        if elsewhere or later or application.standing is Standing.CANCELLED:
            continue
        months = 3
        for one in whole.gap_overrides:
            if one.material_class == application.material_class and f"home/{taken.zone}" in (
                one.zones or (f"home/{taken.zone}",)
            ):
                months = one.months
        if last is None:
            certain = first is not None and (taken.day == first or taken.day < first + relativedelta(months=months))
            yield "inside-gap", "unusable" if certain else "doubt"
        elif taken.day <= last or taken.day < last + relativedelta(months=months):
            yield "inside-gap", "doubt" if first is None and taken.day < last else "unusable"


def expected(whole: Client, taken: FieldNote, spans: tuple[MonthDaySpan, ...]) -> list[tuple[str, str]]:
    """Return rule and weight of every finding about one note, read in the most obvious way."""
    found = []
    around = range(taken.day.year - 2, taken.day.year + 3)
    distance = min(abs((one - taken.day).days) for one in season_days(spans, around))
    found += [("outside-season", "doubt")] * (distance > 0)
    found += gaps_expected(whole, taken)
    for blackout in whole.blackouts:
        if blackout.first <= taken.day <= blackout.last and (
            not blackout.zones or f"home/{taken.zone}" in blackout.zones
        ):
            found.append(("closed-day", "note"))
    return sorted(found)


def random_client(random: Random) -> tuple[Client, tuple[MonthDaySpan, ...]]:
    """Return a client with one to three notes of the river flat, and everything that may speak against their days."""
    around = random_day(random, date(2028, 2, 29), 700)
    spans = random_season(random)
    season = Season("late-summer", "Late summer", {Hemisphere.SOUTHERN: spans}, Place("practice.yaml", 9))
    applications = []
    for line in range(2, random.randint(2, 6)):
        first = random_day(random, around, 200)
        fate = random.random()
        applications.append(
            replace(
                row(random.choice(("manure", "lime")), random.choice(((), ("river-flat",), ("bank",))), line),
                first_day=None if fate < 1 / 5 else first,
                last_day=None if fate > 4 / 5 or fate < 1 / 15 else first + timedelta(days=random.choice((0, 1, 40))),
                standing=random.choice(list(Standing)),
            )
        )
    first = random_day(random, around, 60)
    closed = Blackout(first, first + timedelta(days=90), "Lambing", random.choice(((), ("home/bank",))), Place("c", 7))
    notes = [replace(note("2027-01-01", line=line), day=random_day(random, around, 60)) for line in range(2, 4)]
    whole = client(
        applications=tuple(applications),
        gap_overrides=(override(random.choice((0, 1, 6)), zones=random.choice(((), ("home/bank",)))),),
        blackouts=(closed,) * random.randint(0, 1),
        field_notes=tuple(notes),
        practice=replace(practice(), seasons={"late-summer": season}),
    )
    return whole, spans


def test_random_clients_agree_with_the_obvious_reading() -> None:
    """Rule and weight of every finding are those of a reading day by day."""
    random = Random(20270115)
    rules = set()
    for _ in range(RANDOM_TASKS // 5):
        whole, spans = random_client(random)
        findings = check_days(whole)
        for taken in whole.field_notes:
            own = sorted((str(one.rule), str(one.weight)) for one in findings if one.place == taken.place)
            assert own == expected(whole, taken, spans), (whole.applications, taken, spans)
            rules |= set(own)
    assert len(rules) == 4
