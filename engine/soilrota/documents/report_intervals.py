"""What a value may be once its doubt is taken in: the middle 95 of 100, in the unit of the value."""

from __future__ import annotations

from math import exp

from soilrota.documents.judgement_sentences import value_words
from soilrota.language import say_as
from soilrota.model.judgement import Doubt
from soilrota.model.results import Result

#: Normal deviate that leaves 95 of 100 between it and its mirror [-]: tables of the standard normal distribution.
_Z = 1.96


def interval_of(result: Result, doubt: Doubt | None) -> tuple[float, float] | None:
    """Return the ends of the interval of a value [unit]; None where it is censored or its doubt is not known.

    The doubt of a zone's last value is taken for its earlier ones too, on the scale on which it is told.
    """
    if doubt is None or result.qualifier:
        return None
    if doubt.on_log_scale:
        return result.value * exp(-_Z * doubt.sd), result.value * exp(_Z * doubt.sd)
    low = result.value - _Z * doubt.sd
    return (low if result.unit == "pH" else max(low, 0.0)), result.value + _Z * doubt.sd


def interval_words(result: Result, doubt: Doubt | None) -> str:
    """Return the interval in words, its unit once; empty where there is none."""
    ends = interval_ends(result, doubt)
    return say_as("range", "{low} to {high}", low=ends[0], high=ends[1]) if ends else ""


def interval_ends(result: Result, doubt: Doubt | None) -> tuple[str, str] | None:
    """Return the ends of the interval in words, the unit with the upper one alone; None where there is none."""
    ends = interval_of(result, doubt)
    if ends is None:
        return None
    low, high = (value_words(result.analyte, result.method, end, result.unit) for end in ends)
    return low.removesuffix(high.lstrip("0123456789.,-")), high
