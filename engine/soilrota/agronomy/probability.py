"""How probable it is that the true mean of a zone lies under a line, and how far two values must lie apart.

The value's doubt and the line's own are taken as normal and independent, on the scale of the doubt: natural logarithms
for concentrations, the value itself for pH and shares. Nothing is held of the zone beforehand (a flat prior), so

    P(mean < line) = Φ((line - value) / sqrt(doubt² + line's doubt²))

A published interval of the line is read as one of 95 %: half its width is 1.96 standard deviations round the line
(a house convention, `guidelines/judging.yaml`). A line without an interval is taken as exact.
"""

from __future__ import annotations

from math import hypot, inf, isnan, log
from statistics import NormalDist

from soilrota.guidelines.judging import judging_figures
from soilrota.model.judgement import Doubt

_NORMAL = NormalDist()


def quantile(confidence: float) -> float:
    """Return the two-sided quantile of the normal distribution [-].

    >>> round(quantile(0.95), 2)
    1.96
    """
    return _NORMAL.inv_cdf(0.5 + confidence / 2)


def probability_under(
    value: float, doubt: Doubt, line: float, low: float | None = None, high: float | None = None
) -> float:
    """Return the probability that the true mean of a zone lies under a line [-].

    Args:
        value: what the laboratory found [unit].
        doubt: how sure it is.
        line: the line [unit].
        low: lower end of its published interval [unit]; None where none is printed.
        high: upper end of it [unit].
    """
    spread = hypot(doubt.sd, _line_sd(low, high, is_log=doubt.on_log_scale))
    distance = _scaled(line, is_log=doubt.on_log_scale) - _scaled(value, is_log=doubt.on_log_scale)
    if isnan(distance):  # nought against a line at nought: neither is told from the other
        return 0.5
    if spread == 0:
        return 0.5 if distance == 0 else float(distance > 0)
    return _NORMAL.cdf(distance / spread)


def is_near(probability: float) -> bool:
    """Return whether a zone is neither clearly under nor clearly over its line."""
    figures = judging_figures()
    return figures.near_low < probability < figures.near_high


def least_difference(first: float, second: float) -> float:
    """Return the least change between two values that can be told from chance, from their standard errors [unit].

    >>> round(least_difference(2.72, 3.45), 2)
    8.61
    """
    return quantile(judging_figures().change_confidence) * hypot(first, second)


def chance_of_difference(difference: float, first: float, second: float) -> float:
    """Return the two-sided probability of such a difference, or a larger one, where nothing changed [-].

    Args:
        difference: between two values [unit].
        first: standard error of the one [unit].
        second: standard error of the other [unit].
    """
    spread = hypot(first, second)
    if spread == 0:
        return float(difference == 0)
    return 2 * _NORMAL.cdf(-abs(difference) / spread)


def _scaled(value: float, *, is_log: bool) -> float:
    """Return a value on the scale of its doubt; nought has the logarithm of nothing at all."""
    if not is_log:
        return value
    return log(value) if value > 0 else -inf


def _line_sd(low: float | None, high: float | None, *, is_log: bool) -> float:
    """Return the line's own standard deviation, on the scale of the doubt; 0 where no interval is printed."""
    if low is None or high is None or (is_log and low <= 0):
        return 0.0
    width = _scaled(high, is_log=is_log) - _scaled(low, is_log=is_log)
    return abs(width) / 2 / quantile(judging_figures().interval_confidence)
