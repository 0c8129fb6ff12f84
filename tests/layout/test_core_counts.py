"""Numbers of cores: against other libraries, against the plain iteration, and by simulation."""

from __future__ import annotations

import subprocess
import sys
from itertools import pairwise
from math import ceil, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats
from statsmodels.stats.weightstats import DescrStatsW

from soilrota.guidelines.core_spread import cited_spread, wanted_precision
from soilrota.layout.core_counts import (
    core_count,
    core_counts,
    cores_needed,
    half_width_percent,
    least_change_percent,
    standard_error_percent,
)
from soilrota.model.cores import Precision, Spread

WANTED = Precision(20, 0.9)
TRIALS = 4000


def _spread(cv: float, laboratory: float = 0, degrees: int | None = None) -> Spread:
    """Return a spread [%]."""
    return Spread("phosphorus", cv, laboratory, degrees, "made")


@pytest.mark.parametrize("cores", [2, 5, 20, 30])
@pytest.mark.parametrize("confidence", [0.8, 0.9, 0.95])
def test_half_widths_of_statsmodels_and_scipy(cores: int, confidence: float) -> None:
    """Cores with a mean of 100 and a known spread have the interval that both libraries give."""
    values = np.random.default_rng(cores).normal(size=cores)
    values = 100 + 40 * (values - values.mean()) / values.std(ddof=1)
    low, high = DescrStatsW(values).tconfint_mean(alpha=1 - confidence)
    mine = half_width_percent(_spread(40), cores, confidence)
    assert mine == pytest.approx((high - low) / 2, rel=1e-9)
    assert stats.t.interval(confidence, cores - 1, 100, stats.sem(values)) == pytest.approx((100 - mine, 100 + mine))


def test_least_change_of_scipy() -> None:
    """The difference of two independent samplings is normal with twice the variance."""
    error = standard_error_percent(_spread(40, 8), 20)
    expected = stats.norm(scale=sqrt(2) * error).ppf(0.95)
    assert least_change_percent(_spread(40, 8), 20, 0.9) == pytest.approx(expected)


@given(
    cv=st.floats(1, 150),
    within=st.floats(5, 50),
    confidence=st.sampled_from([0.8, 0.9, 0.95, 0.99]),
    laboratory=st.floats(0, 12),
    degrees=st.one_of(st.none(), st.integers(3, 60)),
)
def test_needed_is_the_smallest_number_that_is_enough(
    cv: float, within: float, confidence: float, laboratory: float, degrees: int | None
) -> None:
    """That number is enough, one fewer is not; where the plain iteration settles it settles there."""
    spread, wanted = _spread(cv, laboratory, degrees), Precision(within, confidence)
    needed = cores_needed(spread, wanted, 2)
    if needed is None:
        assert half_width_percent(spread, 1_000_000, confidence) > within
        return
    assert half_width_percent(spread, needed, confidence) <= within
    assert needed == 2 or half_width_percent(spread, needed - 1, confidence) > within
    if not laboratory:
        settled = _iterated(spread, wanted)
        assert settled is None or max(settled, 2) == needed


def _iterated(spread: Spread, wanted: Precision) -> int | None:
    """Return where the plain iteration settles; None where it swings."""
    cores = 30
    for _ in range(100):
        after = max(
            ceil((half_width_percent(spread, cores, wanted.confidence) / wanted.within_percent) ** 2 * cores), 2
        )
        if after == cores:
            return cores
        cores = after
    return None


def test_never_under_the_least_and_no_number_where_the_laboratory_is_too_wide() -> None:
    """The protocol's least number stands; 13 % of laboratory at 90 % is wider than 20 % whatever the cores."""
    assert cores_needed(_spread(5), WANTED, 25) == 25
    assert cores_needed(_spread(5, 13), WANTED, 25) is None
    assert cores_needed(_spread(5, 12), WANTED, 1) is not None
    assert cores_needed(_spread(40, 20 / stats.norm.ppf(0.95) * (1 - 1e-12)), WANTED, 1) is None
    assert half_width_percent(_spread(40), 1, 0.9) == pytest.approx(40 * stats.t.ppf(0.95, 1))


def test_a_count_says_everything() -> None:
    """25 cores of a usual zone: what they reach, what ten more buy, what change can be told."""
    count = core_count(_spread(40, 8), WANTED, planned=25, least=20)
    assert count.needed == 23
    assert count.reached_percent == pytest.approx(stats.t.ppf(0.95, 24) * sqrt(1600 / 25 + 64))
    assert count.ten_more_percent == pytest.approx(stats.t.ppf(0.95, 34) * sqrt(1600 / 35 + 64))
    assert count.change_percent == pytest.approx(stats.norm.ppf(0.95) * sqrt(2 * (64 + 64)))
    assert count.reached_percent > count.ten_more_percent
    assert (count.planned, count.least, count.wanted) == (25, 20, WANTED)


def test_the_most_demanding_comes_first() -> None:
    """Every analyte once; cited figures without earlier results."""
    counts = core_counts(("ph", "potassium", "nitrate-nitrogen", "potassium", "phosphorus"), 25, 1)
    assert counts[0].spread.analyte == "nitrate-nitrogen"
    assert sorted(one.spread.analyte for one in counts) == ["nitrate-nitrogen", "ph", "phosphorus", "potassium"]
    assert all(
        (one.spread, one.wanted) == (cited_spread(one.spread.analyte), wanted_precision(one.spread.analyte))
        for one in counts
    )
    needed = [one.needed or 0 for one in counts]
    assert all(before >= after for before, after in pairwise(needed))


def test_the_interval_covers_the_mean_as_often_as_it_says() -> None:
    """Single cores drawn from a zone, the spread told by these cores: 90 of 100 intervals hold the mean."""
    draws = np.random.default_rng(20270215).normal(100, 40, size=(TRIALS, 20))
    means, spreads = draws.mean(axis=1), draws.std(axis=1, ddof=1)
    held = [
        abs(mean - 100) <= mean * half_width_percent(_spread(100 * spread / mean), 20, 0.9) / 100
        for mean, spread in zip(means, spreads, strict=True)
    ]
    assert np.mean(held) == pytest.approx(0.9, abs=0.015)


def test_a_spread_told_by_others_covers_too() -> None:
    """The spread comes from 12 degrees of freedom elsewhere, the laboratory adds its part: never under 90 of 100."""
    random = np.random.default_rng(7)
    told = 40 * np.sqrt(random.chisquare(12, TRIALS) / 12)
    results = 100 * (1 + random.normal(0, 0.4, size=(TRIALS, 20)).mean(axis=1) + random.normal(0, 0.08, TRIALS))
    held = [
        abs(result - 100) <= half_width_percent(_spread(float(cv), 8, 12), 20, 0.9)
        for cv, result in zip(told, results, strict=True)
    ]
    assert 0.885 <= np.mean(held) <= 0.935


def test_chance_alone_seldom_looks_like_a_change() -> None:
    """Two samplings of an unchanged zone differ by more than the least change in one case of ten."""
    random = np.random.default_rng(11)
    cores = random.normal(0, 40, size=(2, TRIALS, 20)).mean(axis=2)
    differences = np.diff(100 + cores + random.normal(0, 8, size=(2, TRIALS)), axis=0)
    beyond = np.abs(differences) > least_change_percent(_spread(40, 8), 20, 0.9)
    assert beyond.mean() == pytest.approx(0.1, abs=0.015)


def test_the_statistics_library_is_loaded_only_where_it_is_used() -> None:
    """Importing the module, as every command does, does not load it."""
    code = "import sys, soilrota.layout.core_counts; sys.exit('scipy' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
