"""Numbers with their doubt, and what it makes of a formula's doubt: closed, without a draw.

A formula is asked at its inputs, and once more with each input alone at each of its ends; what the ends move is added
in quadrature, on the scale on which it adds best: as it is for sums, as logarithms for products and ratios (exact where
the inputs are log-normal), as logit for shares, which so stay between 0 and 100. A censored input is no spread about a
middle but all that the value may be, so the formula's interval is taken at both of its ends and the whole is kept.

It holds for formulas that rise or fall in each input, of inputs that err on their own.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import product
from math import exp, inf, isfinite, log, log1p, sqrt
from statistics import NormalDist

#: Standard deviations that hold 95 of 100.
WIDTH = NormalDist().inv_cdf(0.975)


@dataclass(frozen=True, slots=True)
class Doubtful:
    """A number with its doubt.

    Attributes:
        value: the number; of a censored one the middle of what it may be.
        low, high: what holds the true value 95 times of 100; of a censored one all that it may be.
        is_censored: whether it is known only as below a limit.
    """

    value: float
    low: float
    high: float
    is_censored: bool = False

    def times(self, factor: float) -> Doubtful:
        """Return the number times a factor above nought that is known."""
        return Doubtful(self.value * factor, self.low * factor, self.high * factor, self.is_censored)


Formula = Callable[..., float]


class Scale(Enum):
    """On which scale the doubt of a formula adds up."""

    PLAIN = "plain"
    LOG = "log"
    LOGIT = "logit"

    @property
    def ends(self) -> tuple[float, float]:
        """Return between what values lie on the scale, both ends left out."""
        return {Scale.PLAIN: (-inf, inf), Scale.LOG: (0.0, inf), Scale.LOGIT: (0.0, 100.0)}[self]

    def to(self, value: float) -> float:
        """Return a value on the scale."""
        return {
            Scale.PLAIN: lambda: value,
            Scale.LOG: lambda: log(value),
            # Two logarithms: the ratio of a share next to nought is nought.
            Scale.LOGIT: lambda: log(value) - log(100 - value),
        }[self]()

    def back(self, scaled: float) -> float:
        """Return what stands on the scale as a value."""
        return {
            Scale.PLAIN: lambda: scaled,
            Scale.LOG: lambda: exp(scaled),
            # Neither branch overflows, and a tiny share keeps its digits.
            Scale.LOGIT: lambda: 100 * (1 / (1 + exp(-scaled)) if scaled > 0 else exp(scaled) / (1 + exp(scaled))),
        }[self]()


def exact(value: float) -> Doubtful:
    """Return a number that is known."""
    return Doubtful(value, value, value)


def with_cv(value: float, cv: float) -> Doubtful:
    """Return a number not below nought as log-normal about it, by a coefficient of variation [-]."""
    spread = exp(WIDTH * sqrt(log1p(cv * cv)))
    return Doubtful(value, value / spread, value * spread)


def propagate(formula: Formula, inputs: Sequence[Doubtful], scale: Scale = Scale.PLAIN) -> Doubtful:
    """Return what a formula makes of its inputs.

    Args:
        formula: takes one number an input, in their order; it rises or falls in each.
        inputs: the numbers with their doubt.
        scale: on which the doubt adds up; where the formula leaves it, the doubt adds up as it is, cut at its ends.

    Returns:
        The value with its interval; infinite where the formula divides by nought.

    >>> found = propagate(lambda a, b: a * b, [exact(2), Doubtful(3, 2, 4)], Scale.LOG)
    >>> round(found.low, 6), found.value, round(found.high, 6)
    (4.0, 6.0, 8.0)
    """
    censored = [at for at, one in enumerate(inputs) if one.is_censored]
    intervals = []
    for ends in product((False, True), repeat=len(censored)):
        held = list(inputs)
        for at, is_high in zip(censored, ends, strict=True):
            held[at] = exact(inputs[at].high if is_high else inputs[at].low)
        intervals.append(_interval(formula, held, scale))
    value = _asked(formula, [one.value for one in inputs])
    return Doubtful(value, min(low for low, _ in intervals), max(high for _, high in intervals), bool(censored))


def _interval(formula: Formula, inputs: Sequence[Doubtful], scale: Scale) -> tuple[float, float]:
    """Return the interval of a formula of inputs that are not censored."""
    middle = [one.value for one in inputs]
    centre = _asked(formula, middle)
    reached = []
    for at, one in enumerate(inputs):
        values = [_asked(formula, [*middle[:at], end, *middle[at + 1 :]]) for end in (one.low, one.high)]
        reached.append((min(*values, centre), max(*values, centre)))
    if not all(isfinite(end) for ends in ((centre, centre), *reached) for end in ends):
        return -inf, inf
    floor, ceiling = scale.ends
    inside = all(floor < end < ceiling for ends in ((centre, centre), *reached) for end in ends)
    used = scale if inside else Scale.PLAIN
    at_centre = used.to(centre)
    down = sqrt(sum((at_centre - used.to(low)) ** 2 for low, _ in reached))
    up = sqrt(sum((used.to(high) - at_centre) ** 2 for _, high in reached))
    low, high = max(floor, used.back(at_centre - down)), min(ceiling, used.back(at_centre + up))
    return min(low, centre), max(high, centre)


def _asked(formula: Formula, values: Sequence[float]) -> float:
    """Return what a formula gives; infinite where it divides by nought."""
    try:
        return float(formula(*values))
    except ZeroDivisionError:
        return inf
