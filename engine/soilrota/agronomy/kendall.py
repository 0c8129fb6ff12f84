"""Slope and test of a series of values in time, free of any distribution, for uneven spacing.

Slope: the median of the slopes of all pairs that differ in time (Sen 1968, Journal of the American Statistical
Association 63, 1379-1389: Estimates of the regression coefficient based on Kendall's tau). Its interval: the slopes of
the ranks M1 and M2 + 1 of N, M = (N ∓ z sqrt(Var S)) / 2, rounded to the nearest rank (Gilbert 1987, Statistical
Methods for Environmental Pollution Monitoring, chapter 16; unverified: neither was read in print for this module, both
are held against an independent library in the tests). Where the first rank lies before the first slope, so few values
give no interval of that confidence.

Test: Kendall's score S, the pairs that rise less the pairs that fall, with the variance for ties in value and in time
(Kendall, Rank Correlation Methods; unverified, held likewise). Without ties the exact distribution of S is used for few
values: it is that of the inversions of a random order.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from math import factorial, sqrt
from statistics import NormalDist, median

_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class Score:
    """Kendall's score of a series.

    Attributes:
        s: pairs that rise less pairs that fall [-].
        variance: of the score, where nothing changes [-].
        values: how many there are [-].
        is_tied: whether any two are equal, or of one time.
    """

    s: int
    variance: float
    values: int
    is_tied: bool


@dataclass(frozen=True, slots=True)
class Slope:
    """A slope with its interval [unit a unit of time]; None where so few values give no interval."""

    slope: float
    low: float | None
    high: float | None


def kendall_score(times: Sequence[float], values: Sequence[float]) -> Score:
    """Return Kendall's score of values in time, in any order.

    >>> kendall_score([1, 2, 3, 4], [5.0, 6.0, 6.0, 8.0]).s
    5
    """
    s = sum(_sign(later - before) * _sign(value - first) for before, first, later, value in _pairs(times, values))
    by_time, by_value = _tie_sizes(times), _tie_sizes(values)
    variance = _variance(len(values), by_time, by_value)
    return Score(s, variance, len(values), bool(by_time or by_value))


def two_sided_p(score: Score, exact_up_to: int) -> float:
    """Return the two-sided probability of such a score, or a farther one, where nothing changes [-].

    Args:
        score: the score.
        exact_up_to: most values for which the exact distribution is used; ties never have one.
    """
    return exact_p(score) if score.values <= exact_up_to and not score.is_tied else normal_p(score)


def normal_p(score: Score) -> float:
    """Return the two-sided probability by the normal distribution, with the correction for continuity [-].

    >>> round(normal_p(Score(-14, 130 / 3, 7, True)), 5)
    0.04829
    """
    if score.s == 0 or score.variance <= 0:
        return 1.0
    return 2 * _NORMAL.cdf(-(abs(score.s) - 1) / sqrt(score.variance))


def exact_p(score: Score) -> float:
    """Return the two-sided probability of a score without ties by its exact distribution [-].

    >>> round(exact_p(Score(6, 26 / 3, 4, False)), 4)
    0.0833
    """
    pairs = score.values * (score.values - 1) // 2
    most_falls = (pairs - abs(score.s)) // 2
    few = sum(_inversions(score.values)[: most_falls + 1])
    return min(1.0, 2 * few / factorial(score.values))


def sen_slope(times: Sequence[float], values: Sequence[float], confidence: float) -> Slope | None:
    """Return the median slope of all pairs with its interval; None where no two values differ in time."""
    slopes = sorted(
        (value - first) / (later - before) for before, first, later, value in _pairs(times, values) if later != before
    )
    if not slopes:
        return None
    reach = _NORMAL.inv_cdf(0.5 + confidence / 2) * sqrt(kendall_score(times, values).variance)
    lower, upper = round((len(slopes) - reach) / 2), round((len(slopes) + reach) / 2)
    # Ranks count from 1: the interval goes from slope `lower` to slope `upper + 1`.
    has_interval = lower >= 1 and upper < len(slopes)
    low, high = (slopes[lower - 1], slopes[upper]) if has_interval else (None, None)
    return Slope(median(slopes), low, high)


def _pairs(times: Sequence[float], values: Sequence[float]) -> Iterator[tuple[float, float, float, float]]:
    """Yield time and value of the one and of the other for every pair."""
    for number, (before, first) in enumerate(zip(times, values, strict=True)):
        for later, value in zip(times[number + 1 :], values[number + 1 :], strict=True):
            yield before, first, later, value


def _sign(difference: float) -> int:
    """Return 1, 0 or -1."""
    return (difference > 0) - (difference < 0)


def _tie_sizes(numbers: Sequence[float]) -> list[int]:
    """Return how many are equal, for every number that comes more than once."""
    return [count for count in Counter(numbers).values() if count > 1]


def _variance(n: int, by_time: Sequence[int], by_value: Sequence[int]) -> float:
    """Return the variance of Kendall's score with ties in time and in value."""
    plain = n * (n - 1) * (2 * n + 5)
    for ties in (by_time, by_value):
        plain -= sum(t * (t - 1) * (2 * t + 5) for t in ties)
    variance = plain / 18
    if by_time and by_value:
        pairs = [sum(t * (t - 1) for t in ties) for ties in (by_time, by_value)]
        variance += pairs[0] * pairs[1] / (2 * n * (n - 1))
        triples = [sum(t * (t - 1) * (t - 2) for t in ties) for ties in (by_time, by_value)]
        variance += triples[0] * triples[1] / (9 * n * (n - 1) * (n - 2)) if n > 2 else 0.0  # noqa: PLR2004
    return variance


@cache
def _inversions(n: int) -> tuple[int, ...]:
    """Return how many orders of n values have 0, 1, 2 ... falling pairs."""
    counts: tuple[int, ...] = (1,)
    for size in range(2, n + 1):
        longer = [0] * (len(counts) + size - 1)
        for falls, orders in enumerate(counts):
            for more in range(size):
                longer[falls + more] += orders
        counts = tuple(longer)
    return counts
