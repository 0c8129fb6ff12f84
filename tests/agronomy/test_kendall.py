"""Slope and test against independent libraries and a slow reading of the definitions."""

from __future__ import annotations

from itertools import permutations
from random import Random

import numpy as np
import pymannkendall
import pytest
from scipy.stats import kendalltau, theilslopes

from soilrota.agronomy.kendall import Score, exact_p, kendall_score, normal_p, sen_slope, two_sided_p
from tests.agronomy.counts import RANDOM_SERIES


@pytest.mark.parametrize(
    ("values", "s", "variance", "p", "slope"),
    [
        ((5.1, 5.0, 5.2, 4.9, 4.8, 4.9, 4.7), -14, 43.3333, 0.04829, -0.06667),
        ((30, 28, 29, 25, 24, 22, 21, 20), -26, None, 0.00198, -1.5),
        ((18, 17, 19, 16, 15, 15, 13, 12), -23, 64.3333, 0.00609, -0.92857),
    ],
)
def test_figures_of_an_independent_library(
    values: tuple[float, ...], s: int, variance: float | None, p: float, slope: float
) -> None:
    """Of pymannkendall 1.4.3, read to its printed digits; it spaces evenly, so a step is a unit of time."""
    times = list(range(len(values)))
    score, found = kendall_score(times, values), sen_slope(times, values, 0.95)
    assert found is not None
    assert score.s == s
    assert normal_p(score) == pytest.approx(p, abs=5e-6)
    assert found.slope == pytest.approx(slope, abs=5e-6)
    if variance is not None:
        assert score.variance == pytest.approx(variance, abs=5e-5)


def series(seed: int, *, tied: bool) -> tuple[list[float], list[float]]:
    """Return times, unevenly spaced and different, and values in that order."""
    random = Random(seed)
    number = random.randint(3, 14)
    times = sorted(random.sample(range(4000), number))
    drift = random.choice((-0.01, 0, 0.01))
    values = [drift * time + random.gauss(50, 8) for time in times]
    return [float(one) for one in times], [float(round(one, -1)) if tied else one for one in values]


@pytest.mark.parametrize("tied", [False, True])
def test_slopes_against_scipy(tied: bool) -> None:
    """The same slope and, where there is one, the same interval, for uneven spacing."""
    with_interval = 0
    for seed in range(RANDOM_SERIES):
        times, values = series(seed, tied=tied)
        found, theirs = sen_slope(times, values, 0.95), theilslopes(values, times, 0.95)
        assert found is not None
        assert found.slope == pytest.approx(theirs.slope)
        if found.low is not None and found.high is not None:
            with_interval += 1
            assert (found.low, found.high) == pytest.approx((theirs.low_slope, theirs.high_slope))
            assert found.low <= found.slope <= found.high
    assert with_interval > RANDOM_SERIES / 2


def test_scores_against_pymannkendall() -> None:
    """Score, variance and probability, with ties and without."""
    for seed in range(RANDOM_SERIES):
        times, values = series(seed, tied=seed % 2 == 0)
        theirs = pymannkendall.original_test(np.array(values))
        score = kendall_score(times, values)
        assert (score.s, score.variance) == (theirs.s, pytest.approx(theirs.var_s))
        assert normal_p(score) == pytest.approx(theirs.p, abs=1e-12)


def test_exact_p_against_scipy() -> None:
    """The exact distribution of Kendall's tau is that of the score."""
    for seed in range(RANDOM_SERIES):
        times, values = series(seed, tied=False)
        assert exact_p(kendall_score(times, values)) == pytest.approx(kendalltau(times, values, method="exact").pvalue)


@pytest.mark.parametrize("number", [2, 3, 4, 5, 6])
def test_exact_p_against_every_order(number: int) -> None:
    """Counted over all orders of so many values."""
    times = list(range(number))
    scores = [kendall_score(times, order).s for order in permutations(times)]
    for s in set(scores):
        share = sum(abs(one) >= abs(s) for one in scores) / len(scores)
        assert exact_p(Score(s, 1.0, number, is_tied=False)) == pytest.approx(share)


def test_variance_with_ties_in_time_and_value() -> None:
    """The variance over all orders of the values, for every pattern of ties tried."""
    for times, values in (
        ((1, 1, 2, 3, 3), (4, 4, 4, 5, 6)),
        ((1, 1, 1, 2, 4, 5), (1, 2, 2, 3, 3, 3)),
        ((1, 1), (2, 2)),
    ):
        scores = [kendall_score(times, order).s for order in permutations(values)]
        assert kendall_score(times, values).variance == pytest.approx(sum(s * s for s in scores) / len(scores))


def test_which_distribution() -> None:
    """Exact for few values without ties, normal for ties and for many."""
    plain, tied = kendall_score([1, 2, 3, 4], [1, 2, 3, 4]), kendall_score([1, 2, 3, 4], [1, 2, 3, 3])
    assert two_sided_p(plain, 10) == exact_p(plain) == pytest.approx(2 / 24)
    assert two_sided_p(plain, 3) == normal_p(plain)
    assert two_sided_p(tied, 10) == normal_p(tied)
    assert normal_p(kendall_score([1, 2], [3, 3])) == 1.0


def test_too_few_for_an_interval() -> None:
    """Three and four values have no 95 % interval; five have their outermost slopes; one time has no slope."""
    for number, has in ((3, False), (4, False), (5, True)):
        found = sen_slope(list(range(number)), [float(one * one) for one in range(number)], 0.95)
        assert found is not None
        assert (found.low is not None) is has
    assert sen_slope([1, 1, 1], [1, 2, 3], 0.95) is None


def test_spacing_is_taken_as_it_is() -> None:
    """A straight line has its own slope, however its points are spaced, and in whatever order they come."""
    times = [0.0, 0.1, 3.0, 3.5, 11.0]
    found = sen_slope(times[::-1], [2 * one + 7 for one in times[::-1]], 0.95)
    assert found is not None
    assert (found.slope, found.low, found.high) == pytest.approx((2, 2, 2))
