"""The line of a guideline row for one zone, and the class of a value.

A class holds its lower edge and not its upper one. Values come out of unit conversions with a last digit more or less,
so they are first cut to twelve significant digits: 30.999999999999996 mg/kg are 31. Where a source prints whole bounds
(0-9, 10-15), values are rounded to the row's decimals, halves up, before they are classed.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from math import isfinite

from soilrota.model.guideline import GuidelineRow, PowerLine, RatingClass

#: Significant digits that a value keeps; more are noise of binary fractions.
_DIGITS = 12
_STEP = Decimal(1).scaleb(-_DIGITS)


@dataclass(frozen=True, slots=True)
class Line:
    """A line for one zone, with its published interval [unit of the row]; None where none is printed."""

    critical: float
    low: float | None
    high: float | None


def line_of(row: GuidelineRow, covariate: float | None = None) -> Line | None:
    """Return the line of a row for a zone; None where the row has classes alone, or its line has no value there.

    Args:
        row: the row.
        covariate: value that its line follows; not asked where the line follows none.
    """
    if row.line is None:
        return None if row.critical is None else Line(row.critical, row.critical_low, row.critical_high)
    value = None if covariate is None else value_on(row.line, covariate)
    return None if value is None else Line(value, row.critical_low, row.critical_high)


def value_on(line: PowerLine, covariate: float) -> float | None:
    """Return the value of a line at a covariate; None where it has none, as at nought or far out.

    >>> value_on(PowerLine("phosphorus-buffering-index.colwell-adjusted", 20.0, 0.5, 1.0), 40.0)
    40.0
    """
    try:
        value = line.constant + line.factor * covariate**line.exponent
    except (ZeroDivisionError, OverflowError):
        return None
    # A negative base with a broken exponent is a complex number.
    return value if isinstance(value, float | int) and isfinite(value) else None


def clean(value: float) -> Decimal:
    """Return a value without the noise of its last digits.

    >>> clean(30.999999999999996)
    Decimal('31.0000000000')
    """
    return Decimal(f"{value:.{_DIGITS}g}") if value == 0 else Decimal(f"{value:#.{_DIGITS}g}")


def is_under(value: float, line: float) -> bool:
    """Return whether a value lies under a line; one on it does not."""
    return clean(value) < clean(line)


def class_of(row: GuidelineRow, qualifier: str, value: float) -> RatingClass | None:
    """Return the class of a value; None where the row has none, or a censored value may lie in several.

    Args:
        row: the row.
        qualifier: empty, `<` or `>`.
        value: the value, or the limit [unit of the row].
    """
    exact = clean(value)
    if not row.classes:
        return None
    if qualifier == "<":
        return _one_of(row.classes[0], _class_at(row, exact - _STEP))
    if qualifier == ">":
        return _one_of(row.classes[-1], _class_at(row, exact + _STEP))
    return _class_at(row, exact)


def _one_of(outermost: RatingClass, at_limit: RatingClass | None) -> RatingClass | None:
    """Return the class of everything from a limit outwards; None where it reaches into several."""
    return at_limit if at_limit == outermost else None


def _class_at(row: GuidelineRow, value: Decimal) -> RatingClass | None:
    """Return the class of an exact value; None where the row's classes leave it out."""
    if row.decimals is not None:
        value = value.quantize(Decimal(1).scaleb(-row.decimals), rounding=ROUND_HALF_UP)
    for one in row.classes:
        if (one.low is None or clean(one.low) <= value) and (one.high is None or value < clean(one.high)):
            return one
    return None
