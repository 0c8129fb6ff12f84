"""How values moved: slope a year, test, least detectable change, verdict; and what never is a trend."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

from soilrota.agronomy.comparable import Run
from soilrota.agronomy.doubt import Between, Evidence, doubt_of, standard_error
from soilrota.agronomy.trend import recensored, trend_of, trends_of
from soilrota.model.judgement import Trend, TrendVerdict
from soilrota.model.results import Result
from soilrota.results.history import comparability_key
from tests.agronomy.counts import RANDOM_CLIENTS
from tests.results.making import result
from tests.results.test_series import client as changing_client

P = "phosphorus.colwell"
FIRST = date(2027, 2, 10)
SURE = Evidence(cores={(f"b{year}", 0, 10): 30 for year in range(2027, 2050)})


def points(*values: str | float, code: str = P, every: int = 365, **changes: object) -> tuple[Result, ...]:
    """Return results, one after so many days."""
    return tuple(
        result(code, value, FIRST + timedelta(number * every), **changes) for number, value in enumerate(values)
    )


def trend(*held: Result, evidence: Evidence = SURE) -> Trend:
    """Return the trend of a series."""
    return trend_of(Run(held, (), 0), evidence)


def test_a_fall_is_shown() -> None:
    """Eight yearly values that fall: slope a year, interval under nought, p by the exact distribution."""
    found = trend(*points(30, 28, 29, 25, 24, 22, 21, 20))
    assert found.verdict is TrendVerdict.FALLING
    assert found.slope == pytest.approx(-1.5 / (365 / 365.2425))
    assert found.slope_low is not None
    assert found.slope_high is not None
    assert found.slope_low < found.slope < found.slope_high < 0
    assert found.p is not None
    assert found.p < 0.002
    assert found.change == -10


def test_spacing_counts_in_years() -> None:
    """Two units in half a year are four a year, though the values are the same."""
    slow, fast = (trend(*points(10, 12, 14, 16, 18, every=days)) for days in (730, 365))
    assert slow.slope is not None
    assert fast.slope == pytest.approx(2 * slow.slope)
    assert fast.p == slow.p == pytest.approx(2 / 120)


def test_no_change_is_shown() -> None:
    """Values up and down say nothing; equal ones neither."""
    assert trend(*points(30, 27, 33, 29, 31, 28)).verdict is TrendVerdict.NO_CHANGE_SHOWN
    same = trend(*points(30, 30, 30, 30, 30))
    assert (same.verdict, same.slope, same.p) == (TrendVerdict.NO_CHANGE_SHOWN, 0, 1)


def test_three_and_four_values_are_held_against_the_least_change() -> None:
    """No order of so few can be significant."""
    small, large = trend(*points(30, 32, 34)), trend(*points(30, 90, 120))
    assert small.change is not None
    assert small.change < small.detectable
    assert small.verdict is TrendVerdict.NO_CHANGE_SHOWN
    assert large.verdict is TrendVerdict.RISING
    assert trend(*points(120, 90, 30, 25)).verdict is TrendVerdict.FALLING
    assert (large.slope_low, large.slope_high) == (None, None)


def test_too_short() -> None:
    """One and two values, or three of two days: the least change alone."""
    one, two = trend(*points(30)), trend(*points(30, 80))
    assert (one.verdict, one.change, one.slope, one.p) == (TrendVerdict.TOO_SHORT, None, None, None)
    assert one.detectable > 0
    assert (two.verdict, two.change, two.slope) == (TrendVerdict.TOO_SHORT, 50, None)
    first, second = points(30, 80)
    assert trend(first, replace(first, bag="other", value=31), second).verdict is TrendVerdict.TOO_SHORT


def test_the_least_detectable_change() -> None:
    """1.96 times the root of both variances: within one laboratory, or between where it changed."""
    first, second = points(30, 38)
    moved = replace(second, laboratory="south-bench")
    for later, between in ((second, Between.ONE_LABORATORY), (moved, Between.LABORATORIES)):
        errors = [standard_error(one.value, doubt_of(one, SURE, between)) for one in (first, later)]
        expected = 1.959964 * sum(one * one for one in errors) ** 0.5
        assert trend(first, later).detectable == pytest.approx(expected, rel=1e-6)
    assert trend(first, moved).detectable > trend(first, second).detectable


def test_censored_values_are_ties_at_their_limit() -> None:
    """Measured or not, nothing at or below the greatest limit is told apart; at or above the least one likewise."""
    assert recensored(points("<5", 3, 8, "<2", 5, 6)) == ([5, 5, 8, 5, 5, 6], 2)
    assert recensored(points(">40", 45, 38, ">50")) == ([40, 40, 38, 40], 1)
    assert recensored(points(1, 2)) == ([1, 2], 2)
    found = trend(*points("<5", "<5", 8, 11, 14, 17, 20))
    assert found.verdict is TrendVerdict.RISING
    assert found.change is None
    assert [one.qualifier for one in found.points[:2]] == ["<", "<"]
    assert trend(*points("<5", "<5", "<5", 6, 7)).verdict is TrendVerdict.TOO_SHORT


def test_units_change_no_verdict() -> None:
    """Values, slope and change scale; p and verdict stay."""
    plain = trend(*points(30, 28, 29, 25, 24, 22))
    scaled = trend(*points(*(one / 1000 for one in (30, 28, 29, 25, 24, 22)), code="organic-carbon.dry-combustion"))
    assert scaled.p == plain.p
    assert plain.slope is not None
    assert scaled.slope == pytest.approx(plain.slope / 1000)
    assert scaled.verdict is plain.verdict


def random_results(seed: int) -> Iterator[Result]:
    """Yield results of the bank and of what it was, where every change brings a leap of the value."""
    random = Random(seed)
    for year in range(2023, 2036):
        day = date(year, random.choice((2, 2, 2, 7)), 10)
        way, bottom = random.choice((("colwell", 10), ("colwell", 10), ("olsen", 10), ("colwell", 15)))
        ground = "bank" if year > 2024 else "river-flat"
        leap = {"colwell": 0, "olsen": 400}[way] + {10: 0, 15: 800}[bottom] + {2: 0, 7: 1600}[day.month]
        since = 3200 * (day < date(2026, 7, 1)) + 6400 * (day < date(2025, 7, 1))
        yield result(
            P, 30 + leap + since, day, method=way, bottom_cm=bottom, zone=ground, bag=f"B{year}",
        )  # fmt: skip


def test_a_change_of_method_depth_season_or_zone_is_no_trend() -> None:
    """Values that are the same but for what changed: every slope is nought, and all that is left out is counted."""
    plain = changing_client()
    shown = 0
    for seed in range(RANDOM_CLIENTS):
        client = replace(plain, results=tuple(random_results(seed)))
        found = trends_of(client, client.farms[0].zones[1], "topsoil", comparability_key)
        assert found
        for one in found:
            assert one.slope in {None, 0}
            assert one.change in {None, 0}
            assert one.verdict in {TrendVerdict.NO_CHANGE_SHOWN, TrendVerdict.TOO_SHORT}
            assert bool(one.broken_by) == (one.left_out > 0)
            assert len({comparability_key(client, point) for point in one.points}) == 1
            shown += one.slope == 0
    assert shown > RANDOM_CLIENTS / 4
