"""The line of a guideline row for one zone, and the class of a value that may be censored.

Values come out of unit conversions with a last digit more or less, so they are first cut to twelve significant digits:
30.999999999999996 mg/kg are 31, whatever unit the laboratory wrote them in.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, isfinite, nextafter

from soilrota.guidelines.classes import class_of, on_line
from soilrota.model.guideline import GuidelineRow, PowerLine, RatingClass

#: Significant digits that a value keeps; more are noise of binary fractions.
_DIGITS = 12


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
    """Return the value of a line at a covariate; None where it has none, as at nought or far out."""
    try:
        value = on_line(line, covariate)
    except (ZeroDivisionError, OverflowError, TypeError):  # a negative number to a broken power is no real one
        return None
    return value if isfinite(value) else None


def clean(value: float) -> float:
    """Return a value without the noise of its last digits.

    >>> clean(30.999999999999996)
    31.0
    """
    return float(f"{value:.{_DIGITS}g}")


def is_under(value: float, line: float) -> bool:
    """Return whether a value lies under a line; one on it does not."""
    return clean(value) < clean(line)


def settled_class(row: GuidelineRow, qualifier: str, value: float) -> RatingClass | None:
    """Return the class of a value; None where the row has none, or a censored value may lie in several.

    Args:
        row: the row.
        qualifier: empty, `<` or `>`.
        value: the value, or the limit [unit of the row].
    """
    exact = clean(value)
    if qualifier and row.classes:
        outermost, towards = (row.classes[0], -inf) if qualifier == "<" else (row.classes[-1], inf)
        at_limit = class_of(row, nextafter(exact, towards))
        return at_limit if at_limit == outermost else None
    return class_of(row, exact)
