"""Swapped bags: a worked pair, what keeps a pair from being judged, a slow oracle, and simulated farms."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from math import exp, log, sqrt
from statistics import median
from time import perf_counter

import pytest
from scipy import stats

from soilrota.guidelines.plausibility import swap_figures
from soilrota.model.result_findings import Grade, ResultFinding, ResultRule
from soilrota.model.results import Result
from soilrota.results.bags import BagResults, bags_of, between
from soilrota.results.plausibility import check_results
from soilrota.results.swaps import check_swaps, swaps_among
from soilrota.results.usual_values import History
from tests.results.making import client, result
from tests.results.simulated import simulated_farm
from tests.results.swap_counts import swap_grades

#: Simulated farms of each kind.
FARMS = 300 if os.environ.get("SOILROTA_LONG") == "1" else 30
FLAT: dict[str, float] = {"ph.cacl2": 5.0, "phosphorus.olsen": 15, "potassium.colwell": 90, "calcium.exchangeable": 4.0}
BANK: dict[str, float] = {"ph.cacl2": 6.4, "phosphorus.olsen": 60, "potassium.colwell": 400, "calcium.exchangeable": 12}


def bag(values: dict[str, float], zone: str, year: int, **changes: object) -> list[Result]:
    """Return the results of a bag."""
    day = date(year, 2, 10)
    return [
        result(code, value, day, **{"zone": zone, "bag": f"{zone}-{year}", **changes}) for code, value in values.items()
    ]


def history(years: int = 2) -> list[Result]:
    """Return two zones that differ, each the same every year."""
    return [
        one for year in range(2027 - years, 2027) for one in (*bag(FLAT, "river-flat", year), *bag(BANK, "bank", year))
    ]


def found(fresh: list[Result], earlier: list[Result]) -> list[ResultFinding]:
    """Return the findings of swapped bags among fresh results."""
    return list(check_swaps(bags_of(fresh), History(client(*earlier))))


def test_two_bags_that_changed_places() -> None:
    """Both get the finding, each with the other; the analyses that tell it stand beside the odds."""
    fresh = [*bag(BANK, "river-flat", 2027), *bag(FLAT, "bank", 2027)]
    first, second = found(fresh, history())
    assert (first.key.zone, first.facts["other"]) == ("river-flat", "home/bank")
    assert (second.key.zone, second.facts["other"]) == ("bank", "home/river-flat")
    assert first.rule is second.rule is ResultRule.SWAPPED
    assert first.grade is second.grade is Grade.SET_ASIDE
    assert first.analyses == first.facts["analyses"] == tuple(FLAT)
    assert first.facts["odds"] == second.facts["odds"]
    odds = float(str(first.facts["odds"]))
    assert odds == float(f"{odds:.2g}")


def test_no_swap() -> None:
    """The right bags, and bags of which one alone is odd, are not swapped."""
    assert found([*bag(FLAT, "river-flat", 2027), *bag(BANK, "bank", 2027)], history()) == []
    assert found([*bag(BANK, "river-flat", 2027), *bag(BANK, "bank", 2027)], history()) == []


@pytest.mark.parametrize(
    "changes",
    [
        {"report": "other"},
        {"laboratory": "other"},
        {"protocol": "subsoil"},
        {"top_cm": 10, "bottom_cm": 20},
    ],
)
def test_bags_that_could_not_be_mistaken(changes: dict[str, object]) -> None:
    """Of another report, laboratory, protocol or layer."""
    apart = {name: value for name, value in changes.items() if name not in {"report", "laboratory"}}
    earlier = [replace(one, **apart) if one.zone == "bank" else one for one in history()]
    fresh = [*bag(BANK, "river-flat", 2027), *bag(FLAT, "bank", 2027, **changes)]
    assert found(fresh, earlier) == []


def test_too_little_to_tell() -> None:
    """One earlier sampling, or two analyses, are not enough."""
    fresh = [*bag(BANK, "river-flat", 2027), *bag(FLAT, "bank", 2027)]
    assert found(fresh, history(years=1)) == []
    two = {"ph.cacl2", "phosphorus.olsen"}
    assert found([one for one in fresh if f"{one.analyte}.{one.method}" in two], history()) == []


def test_values_that_are_not_told_exactly_take_no_part() -> None:
    """They are left out; the others still tell."""
    fresh = [*bag(BANK, "river-flat", 2027), *bag(FLAT, "bank", 2027)]
    fresh = [replace(one, qualifier="<") if one.analyte == "phosphorus" else one for one in fresh]
    assert {finding.analyses for finding in found(fresh, history())} == {
        ("ph.cacl2", "potassium.colwell", "calcium.exchangeable")
    }


def slow_widening(bags: Sequence[BagResults], known: History, code: str) -> float:
    """Return how much larger the variance of an analysis is in this report than expected; at least 1."""
    off = []
    for one in bags:
        usual = known.usual(one.results[code])
        assert usual is not None
        here = usual.on_scale(between(one.results[code]))
        off.append((here.low - usual.middle.low) / usual.sd_of(here))
    middle = median(off)
    return max(1.0, (1.4826 * median([abs(value - middle) for value in off])) ** 2)


def slow_odds(one: BagResults, two: BagResults, known: History, bags: Sequence[BagResults]) -> float:
    """Return the odds of a pair from the densities of scipy, one after the other."""
    figures, logs = swap_figures(), 0.0
    for own, other in ((one, two), (two, one)):
        gain = 0.0
        for code, value in own.results.items():
            at_home, there = known.usual(value), known.usual(other.results[code])
            assert at_home is not None
            assert there is not None
            for usual, sign in ((there, 1), (at_home, -1)):
                here = usual.on_scale(between(value))
                expected = usual.variance + usual.rounding_of(usual.middle)
                variance = usual.rounding_of(here) + expected * slow_widening(bags, known, code)
                density = stats.t(figures.degrees, usual.middle.low, sqrt(variance))
                gain += sign * float(density.logpdf(here.low))
        if gain <= log(figures.least_ratio_each):
            return 0.0
        logs += gain
    return exp(figures.evidence_share * logs) * figures.share_of_bags / (len(bags) - 1)


def test_the_odds_equal_a_slow_reading() -> None:
    """Every pair of simulated reports, against scipy: the best pairs come out with their odds, and no others."""
    seen = 0
    for seed in range(FARMS // 3):
        farm = simulated_farm(seed, zones=6, years=3, analyses=8, swap=True)
        bags, known = bags_of(farm.fresh), History(farm.client)
        pairs = {
            (one, two): slow_odds(bags[one], bags[two], known, bags)
            for one in range(len(bags))
            for two in range(one + 1, len(bags))
        }
        expected, paired = [], set()
        for (one, two), odds in sorted(pairs.items(), key=lambda item: -item[1]):
            if odds > 1 and not paired & {one, two}:
                paired |= {one, two}
                expected.append((one, two, pytest.approx(min(odds, 1e6), rel=1e-6)))
        swaps = swaps_among(bags, known)
        assert [(swap.first, swap.second, swap.odds) for swap in swaps] == expected
        seen += len(expected)
    assert seen > FARMS / 10


def test_most_swaps_are_found_and_few_reports_held_up() -> None:
    """Simulated farms of 12 zones with four years of history: generous bounds; the benchmark has the full table."""
    right = held = 0
    for seed in range(FARMS):
        swapped = simulated_farm(seed, zones=12, years=4, analyses=8, swap=True)
        plain = simulated_farm(-1 - seed, zones=12, years=4, analyses=8, swap=False)
        right += frozenset(swap_grades(swapped)) == swapped.swapped
        held += Grade.SET_ASIDE in swap_grades(plain).values()
    assert right >= 0.5 * FARMS
    assert held <= 0.02 * FARMS


def test_a_large_report_is_quick() -> None:
    """All pairs of 400 bags, with ten analyses each and all other checks, far under the time that a loop takes."""
    farm = simulated_farm(3, zones=400, years=3, analyses=10, swap=True)
    started = perf_counter()
    check_results(farm.client, farm.fresh)
    assert perf_counter() - started < 5
