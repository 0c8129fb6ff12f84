"""Which class of a row a value falls into, and whether a covariate or a layer lies where the row speaks.

A class and a range hold their lower edge and not their upper one. Where the row says so, a value is first rounded to
the decimals in which its source prints, halves up, as it is written: 0.285 to two decimals is 0.29.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from math import isfinite

from soilrota.model.guideline import GuidelineRow, PowerLine, Range, RatingClass


def rounded(value: float, decimals: int | None) -> float:
    """Return a value rounded to so many decimals, halves up; as it is where `decimals` is None.

    >>> rounded(15.5, 0), rounded(0.285, 2), rounded(15.5, None)
    (16.0, 0.29, 15.5)
    """
    if decimals is None or not isfinite(value):
        return value
    shortest = Decimal(repr(value))
    exponent: int = shortest.as_tuple().exponent  # type: ignore[assignment]  # a finite number has a whole exponent
    if -exponent <= decimals:
        return value  # nothing to round, and a huge value could not be written out in so many decimals
    return float(shortest.quantize(Decimal(1).scaleb(-decimals), rounding=ROUND_HALF_UP))


def class_of(row: GuidelineRow, value: float) -> RatingClass | None:
    """Return the one class of a row that holds a value [unit of the row]; None for a row without classes."""
    compared = rounded(value, row.decimals)
    return next((one for one in row.classes if _between(compared, one.low, one.high)), None)


def holds(one: Range, value: float) -> bool:
    """Return whether a covariate [its own unit] lies within a range."""
    return _between(rounded(value, one.decimals), one.low, one.high)


def speaks_of_layer(row: GuidelineRow, top_cm: float, bottom_cm: float) -> bool:
    """Return whether a row speaks of a layer [cm]: of its own alone, or of each that lies within it."""
    if row.any_layer_within:
        return row.top_cm <= top_cm and bottom_cm <= row.bottom_cm
    return (top_cm, bottom_cm) == (row.top_cm, row.bottom_cm)


def on_line(line: PowerLine, covariate: float) -> float:
    """Return the critical value at a covariate [unit of the row].

    >>> round(on_line(PowerLine("exchange-capacity", 75, 2.5, 1), 10), 3)
    100.0
    """
    return float(line.constant + line.factor * covariate**line.exponent)


def _between(value: float, low: float | None, high: float | None) -> bool:
    """Return whether a value lies from `low` on, below `high`; an open end is None."""
    return (low is None or low <= value) and (high is None or value < high)
