"""What came of advice: what was spread since, and whether the next result moved as it was to be expected.

    expected change = (what was spread between the two samplings - harvests x what one takes off) / what lifts the test

with the factor of the rule that made the need, as it is remembered. A result says the expected only as far as two such
values can be told apart: it came `as-expected` where it lies within the expected range, widened by the least change
that can be told from chance on both sides; where that least change is more than all that was expected and all that
came, nothing can be told.

Materials are known by the names of products, as everywhere in advice. A record counts from its day to that of the next
one. What is only planned was not spread.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from math import fsum

from soilrota.agronomy.advice.applied import Applied, applied_of, day_of, spread_on
from soilrota.agronomy.advice.crop_plan import next_harvest
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.barred import Barred, rules_against
from soilrota.agronomy.comparable import Key, Run
from soilrota.agronomy.doubt import Evidence, evidence_of
from soilrota.agronomy.trend import trend_of
from soilrota.model.advice import Input
from soilrota.model.applications import Standing
from soilrota.model.client import Client, Zone
from soilrota.model.follow_up import AdviceRecord, AdvisedNeed, AdvisedTest, Done, FollowUp, Moved, NextResult
from soilrota.model.results import Result

_NOT_KNOWN = frozenset({SpreadingCaution.APPLIED_UNKNOWN, SpreadingCaution.APPLIED_UNDATED})


@dataclass(frozen=True, slots=True)
class Following:
    """What is followed up by.

    Attributes:
        on: day on which it is asked.
        key: what results must have in common, for instance `soilrota.results.history.comparability_key`.
        barred: samples whose results are barred from advice; they say nothing afterwards either.
    """

    on: date
    key: Key
    barred: Barred = field(default_factory=dict)


def followed_up(client: Client, records: Sequence[AdviceRecord], by: Following) -> tuple[FollowUp, ...]:
    """Return what came of every need that was advised, the latest advice first.

    Args:
        client: the client as it is now, with its applications, results and products; zones that are gone are left out.
        records: what it was advised, in any order.
        by: what is followed up by.
    """
    zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
    evidence = evidence_of(client)
    held = [one for one in sorted(records, key=lambda one: one.day) if one.day <= by.on]
    ends = (*(later.day for later in held[1:]), by.on)
    found: list[FollowUp] = []
    for record, until in reversed(list(zip(held, ends, strict=False))):
        for need in record.needs:
            zone = zones.get((need.farm, need.zone))
            if zone is not None and (until > record.day or record is held[-1]):
                found.append(_followed(client, zone, _Case(record, need, until), by, evidence))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Case:
    """One need of one record, and the last day that counts for it."""

    record: AdviceRecord
    need: AdvisedNeed
    until: date


def _followed(client: Client, zone: Zone, case: _Case, by: Following, evidence: Evidence) -> FollowUp:
    """Return what came of one need."""
    need = case.need
    spread, last = _spread(client, zone, need.input, case.record.day, case.until)
    amount = -fsum(one.amount.value for one in spread.parts) + 0.0
    return FollowUp(
        advised_on=case.record.day,
        need=need,
        rates=tuple(one for one in case.record.rates if (one.farm, one.zone) == (need.farm, need.zone)),
        spread=amount,
        spread_until=last,
        cautions=spread.cautions,
        done=_done(need, amount, is_known=not _NOT_KNOWN & {*spread.cautions}),
        next_result=_next_result(client, zone, case, by, evidence) if need.test else None,
    )


def _spread(client: Client, zone: Zone, wanted: Input, since: date, until: date) -> tuple[Applied, date | None]:
    """Return what was spread on a zone after a day up to another, and the last day of it."""
    done = [one for one in client.applications if one.standing is Standing.DONE]
    rows = spread_on(done, zone, since, until)
    listed = client.practice.products
    products = tuple(listed.products.values()) if listed else ()
    region = f"{client.country}-{client.subdivision}" if client.subdivision else client.country
    found = applied_of(rows, products, wanted, region)
    counted = {one.step.facts["product"] for one in found.parts}
    days = (day for one in rows if one.material in counted and (day := day_of(one)) is not None)
    return found, max(days, default=None)


def _done(need: AdvisedNeed, spread: float, *, is_known: bool) -> Done:
    """Return what was spread, against what was advised and what was planned already."""
    if spread > need.high + need.planned:
        return Done.MORE
    if not is_known:
        return Done.NOT_KNOWN
    if spread == 0 and need.amount + need.planned > 0:
        return Done.NOTHING
    return Done.LESS if spread < need.low + need.planned else Done.WITHIN


def _next_result(client: Client, zone: Zone, case: _Case, by: Following, evidence: Evidence) -> NextResult | None:
    """Return what the last result that counts for a need says; None where there is none, or the first is gone."""
    test = case.need.test
    assert test is not None  # asked before
    held = [one for one in client.results if (one.farm, one.zone) == (zone.farm, zone.id) and _is_of(one, test)]
    before = next((one for one in held if one.sampled == test.sampled and _is_same(one, test)), None)
    later = [one for one in held if case.record.day < one.sampled <= case.until and not rules_against(one, by.barred)]
    if before is None or not later:
        return None
    comparable = [one for one in later if by.key(client, one) == by.key(client, before)]
    after = max(comparable or later, key=lambda one: one.sampled)
    brought = -fsum(
        one.amount.value
        for one in _spread(client, zone, case.need.input, before.sampled, after.sampled)[0].parts
    ) + 0.0  # fmt: skip
    harvests = next_harvest(after.sampled, client.hemisphere) - next_harvest(before.sampled, client.hemisphere)
    if not comparable:
        return NextResult(before, after, None, None, None, None, brought, harvests, Moved.NOT_COMPARABLE)
    moved = trend_of(Run((before, after), (), 0), evidence)
    low, high = _expected(test, brought, harvests)
    verdict = _verdict(moved.change, moved.detectable, low, high)
    return NextResult(before, after, moved.change, moved.detectable, low, high, brought, harvests, verdict)


def _is_of(result: Result, test: AdvisedTest) -> bool:
    """Return whether a result is of the analyte of a test, on ground in common with its layer."""
    return result.analyte == test.analyte and result.top_cm < test.bottom_cm and result.bottom_cm > test.top_cm


def _is_same(result: Result, test: AdvisedTest) -> bool:
    """Return whether a result is by the method, in the unit and of the layer of a test."""
    of = (result.method, result.unit, result.top_cm, result.bottom_cm)
    return of == (test.method, test.unit, test.top_cm, test.bottom_cm)


def _expected(test: AdvisedTest, brought: float, harvests: int) -> tuple[float | None, float | None]:
    """Return how far a test was to be expected to move [unit]; None where no source said what lifts it.

    >>> test = AdvisedTest("phosphorus", "colwell", "mg/kg", 0, 10, date(2026, 2, 1), 20, 2, 4, 2)
    >>> _expected(test, 14, 1)
    (3.0, 6.0)
    """
    if not test.lift_low or not test.lift_high:
        return None, None
    kept = brought - harvests * (test.taken_off or 0.0)
    ends = (kept / test.lift_low, kept / test.lift_high)
    return min(ends), max(ends)


def _verdict(change: float | None, detectable: float, low: float | None, high: float | None) -> Moved:
    """Return what a change says of what was expected."""
    if change is None:
        return Moved.CENSORED
    if low is None or high is None:
        return Moved.NO_FACTOR
    if max(abs(low), abs(high), abs(change)) <= detectable:
        return Moved.TOO_SMALL_TO_TELL
    if change < low - detectable:
        return Moved.LESS
    return Moved.MORE if change > high + detectable else Moved.AS_EXPECTED
