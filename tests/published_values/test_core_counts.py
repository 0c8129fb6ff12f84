"""Published worked examples of sample sizes, and tables reckoned by hand from the published formulas.

Sources, each with the tolerance that its printed digits allow:

1.  Modern Analytical Chemistry (open textbook), example 7.8, page 191: s 2.0 %, error 0.80 %, 95 %: 27 samples. Exact.
2.  Sampling of soil aliquots, table 3 of page 107 (rminucleardocs.icaad.ngo, exw3ikgufub): n = (z c / d)², rounded up.
    A hundredth of a core.
3.  Adequacy of a sample, Colorado, doc 1250747 page 52: n = (t s / (0.1 mean))², one-tailed 90 %. Two decimals.
4.  The same, doc 1139341 page 82. Two decimals; the first is printed as 10.87 and reckons to 10.86.
5.  USDA Forest Service handbook 2409.12, stratified sample of four stands: 86 plots, 21.3 of them in the first. One
    decimal.
6.  Soil water by the range form n = 4 t² s² / L² (manualshelf, cs620, page 26): 2.35, so 3. Two decimals. Its text says
    90 %, its t of 2.201 is the two-sided 95 % at 11 degrees of freedom; the arithmetic is held here.
8.  Kansas State University, extension update 480: 21 cores for a mean within 15 %. It implies a spread of 33, 40 or
    52 % for 95, 90 or 80 % confidence. A fifth of a per cent.
10. Modern Analytical Chemistry, page 192: relative variance 50, error 5 %, 95 %: the formula says 10, and 10 met it in
    57 % of its simulated cases, 17 in 95 %. Five points of a hundred: the simulation's own size is not printed.

The tables of half-widths and of needed cores were reckoned from the formulas (reference of this project, section d).
Example 7 cannot be reckoned from its abstract, example 9 prints no spreads.
"""

from __future__ import annotations

from math import ceil, sqrt
from statistics import NormalDist

import pytest
from scipy.stats import chi2, t

from soilrota.layout.core_counts import cores_needed, half_width_percent, least_change_percent, standard_error_percent
from soilrota.model.cores import Precision, Spread

#: So many that Student's t is the normal distribution to nine digits.
MANY = 10**9


def _spread(cv: float, laboratory: float = 0, degrees: int | None = None) -> Spread:
    """Return a spread [%]."""
    return Spread("phosphorus", cv, laboratory, degrees, "a published example")


def _confidence(quantile: float) -> float:
    """Return the two-sided confidence of a quantile of the normal distribution."""
    return 2 * NormalDist().cdf(quantile) - 1


def _unrounded(spread: Spread, within: float, confidence: float) -> float:
    """Return the number of cores before it is rounded up, (t cv / E)², where t does not depend on it."""
    return (half_width_percent(spread, 1, confidence) / within) ** 2


def test_1_iterated_with_t() -> None:
    """27, and not the 24 that z gives."""
    assert cores_needed(_spread(2.0), Precision(0.80, 0.95)) == 27
    assert _unrounded(_spread(2.0, degrees=MANY), 0.80, 0.95) == pytest.approx(24, abs=0.05)


@pytest.mark.parametrize(
    ("cv", "within", "at_95", "at_99"),
    [
        (79, 50, 10, 17),
        (79, 25, 39, 66),
        (79, 10, 240, 413),
        (30, 10, 35, 60),
        (27, 10, 28, 49),
        (12, 10, 6, 10),
        (9, 10, 4, 6),
    ],
)
def test_2_soil_aliquots(cv: float, within: float, at_95: int, at_99: int) -> None:
    """With z of 1.96 and 2.57; 28.005 is printed as 28, so a hundredth of a core is let off."""
    spread, levels = _spread(cv, degrees=MANY), (_confidence(1.96), _confidence(2.57))
    exact = [_unrounded(spread, within, level) for level in levels]
    assert [ceil(number - 0.01) for number in exact] == [at_95, at_99]
    assert [cores_needed(spread, Precision(within, level)) for level in levels] == [ceil(number) for number in exact]


@pytest.mark.parametrize(
    ("mean", "variance", "taken", "printed", "off"),
    [
        (48.83, 188.06, 72, 13.20, 0.006),
        (64.40, 134.67, 20, 5.72, 0.006),
        (51.95, 204.58, 20, 13.36, 0.006),
        (35.4, 79.1, 30, 10.87, 0.02),
        (30.0, 73.6, 30, 14.06, 0.006),
    ],
)
def test_3_and_4_adequacy(mean: float, variance: float, taken: int, printed: float, off: float) -> None:
    """A one-tailed 90 % is a two-sided 80 %; the spread has the degrees of freedom of the sample taken."""
    spread = _spread(100 * sqrt(variance) / mean, degrees=taken - 1)
    assert _unrounded(spread, 10, 0.8) == pytest.approx(printed, abs=off)
    assert cores_needed(spread, Precision(10, 0.8)) == ceil(printed)


def test_5_stratified_sample() -> None:
    """The weighted spread, t of 2, and the correction for 1,000 plots; then shares by weight and spread."""
    weights, spreads = (0.3, 0.1, 0.2, 0.4), (40, 65, 80, 35)
    parts = [weight * spread for weight, spread in zip(weights, spreads, strict=True)]
    assert sum(parts) == pytest.approx(48.5)
    without_end = _unrounded(_spread(sum(parts), degrees=MANY), 10, _confidence(2))
    plots = ceil(1 / (1 / 1000 + 1 / without_end) - 1e-6)
    assert plots == 86
    assert [plots * part / sum(parts) for part in parts] == pytest.approx([21.3, 11.5, 28.4, 24.8], abs=0.05)


def test_6_range_form() -> None:
    """The whole range of 5.0 is twice the half-width."""
    spread = _spread(1.74, degrees=11)
    assert _unrounded(spread, 5.0 / 2, 0.95) == pytest.approx(2.35, abs=0.005)
    assert cores_needed(spread, Precision(5.0 / 2, 0.95)) == 3


@pytest.mark.parametrize(("cv", "confidence"), [(33, 0.95), (40, 0.9), (52, 0.8)])
def test_8_within_fifteen_per_cent(cv: float, confidence: float) -> None:
    """21 cores reach 15 % for each of the three readings."""
    assert half_width_percent(_spread(cv), 21, confidence) == pytest.approx(15, abs=0.2)


def _assurance(cores: int) -> float:
    """Return how often the interval reckoned from so many cores themselves is no wider than 5 %, variance 50."""
    widest = 5 * sqrt(cores) / t.ppf(0.975, cores - 1)
    return float(chi2.cdf((cores - 1) * widest**2 / 50, cores - 1))


def test_10_a_planned_number_is_a_coin_toss() -> None:
    """The iteration swings between 10 and 11; 11 satisfies it; 10 keep the promise about every other time."""
    spread, wanted = _spread(sqrt(50)), Precision(5, 0.95)
    assert [ceil((half_width_percent(spread, n, 0.95) * sqrt(n) / 5) ** 2) for n in (10, 11)] == [11, 10]
    assert cores_needed(spread, wanted) == 11
    assert _assurance(10) == pytest.approx(0.57, abs=0.05)
    assert _assurance(17) == pytest.approx(0.95, abs=0.05)


HALF_WIDTHS = {
    5: (9.5, 19.1, 28.6, 38.1, 47.7, 57.2),
    10: (5.8, 11.6, 17.4, 23.2, 29.0, 34.8),
    15: (4.5, 9.1, 13.6, 18.2, 22.7, 27.3),
    20: (3.9, 7.7, 11.6, 15.5, 19.3, 23.2),
    25: (3.4, 6.8, 10.3, 13.7, 17.1, 20.5),
    30: (3.1, 6.2, 9.3, 12.4, 15.5, 18.6),
    40: (2.7, 5.3, 8.0, 10.7, 13.3, 16.0),
}


@pytest.mark.parametrize("cores", HALF_WIDTHS)
def test_table_of_half_widths(cores: int) -> None:
    """90 %, spreads of 10 to 60 %, to the printed decimal."""
    found = [half_width_percent(_spread(cv), cores, 0.9) for cv in range(10, 70, 10)]
    assert found == pytest.approx(HALF_WIDTHS[cores], abs=0.0501)


@pytest.mark.parametrize(
    ("cv", "needed"), [(20, (13, 7, 5)), (30, (27, 13, 9)), (40, (46, 22, 13)), (50, (70, 32, 19))]
)
def test_table_of_needed_cores(cv: float, needed: tuple[int, ...]) -> None:
    """90 %, within 10, 15 and 20 %."""
    assert tuple(cores_needed(_spread(cv), Precision(within, 0.9)) for within in (10, 15, 20)) == needed


def test_composites_with_the_laboratory() -> None:
    """Standard error and least change of two composites, to their printed digits."""
    topsoil, deep = _spread(40, 8), _spread(50, 8)
    assert standard_error_percent(topsoil, 20) == pytest.approx(12.0, abs=0.05)
    assert [least_change_percent(topsoil, 20, level) for level in (0.9, 0.95)] == pytest.approx((27.9, 33.3), abs=0.05)
    assert standard_error_percent(deep, 6) == pytest.approx(21.9, abs=0.05)
    assert [least_change_percent(deep, 6, level) for level in (0.9, 0.95)] == pytest.approx((51, 61), abs=0.5)


def test_changes_from_sampling_and_analysis_together() -> None:
    """10 % (njas 17805): 23 and 28 %; 0.1 pH units: 0.28 units at 95 %. Six deep cores at 50 %: 41 %, t 2.015."""
    both = _spread(0, 10)
    assert [least_change_percent(both, 20, level) for level in (0.9, 0.95)] == pytest.approx((23, 28), abs=0.5)
    assert least_change_percent(_spread(0, 0.1), 20, 0.95) == pytest.approx(0.28, abs=0.005)
    assert half_width_percent(_spread(50), 6, 0.9) == pytest.approx(41, abs=0.5)
