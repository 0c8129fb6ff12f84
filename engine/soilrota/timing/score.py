"""Which of the open days is best: the one measure of it.

Same time each year comes first, because a trend mixes seasons otherwise: the day nearest to the one aimed at. Of two
days equally far the earlier is preferred, because what is put off can still fail.
"""

from __future__ import annotations

from calendar import isleap
from datetime import date
from functools import lru_cache, partial

from soilrota.model.moisture import Likelihood, MoistureOutlook
from soilrota.model.windows import Span
from soilrota.timing.day_sets import DaySet

#: Bits of the days before 29 February, and of those up to it, in a calendar that has one.
_BEFORE_LEAP_DAY = (1 << 59) - 1
#: Of each likelihood, the best first, what makes a set of a byte: `1` where it is that likelihood, `0` elsewhere.
_DIGITS = tuple(
    bytes(ord("1") if byte == likelihood else ord("0") for byte in range(256))
    for likelihood in sorted(Likelihood, reverse=True)
)
#: The calendar days of each likelihood, the best first, from 1 January on, 29 February included.
Bands = tuple[int, ...]


def best_day(days: DaySet, target: date, bands: Bands | None = None, comparable: Span | None = None) -> date | None:
    """Return the best of the days; None where there is no day.

    Where moisture ranks them, days within the tolerance of the anniversary come first, so that moisture never moves a
    sampling out of its time of year; among them those that most often find the wanted soil; among those the nearest.

    Args:
        days: the days.
        target: the day aimed at.
        bands: how likely each day finds the wanted soil, from `bands_of`; None without weather.
        comparable: the days within the tolerance of the anniversary; None for a task never sampled.
    """
    if bands is None or not days.bits:
        return days.nearest(target)
    near = days if comparable is None else days.since(comparable.first).until(comparable.last)
    near = near if near.bits else days
    for band in bands:
        ranked = near.among(partial(_in_year, band))
        if ranked.bits:
            return ranked.nearest(target)
    return None


def bands_of(outlook: MoistureOutlook | None) -> Bands | None:
    """Return the calendar days of each likelihood, the best first; None without an outlook."""
    return None if outlook is None else _bands(outlook.likelihoods)


@lru_cache(maxsize=1024)
def _bands(likelihoods: tuple[Likelihood, ...]) -> Bands:
    """Return the calendar days of each likelihood as bits."""
    backwards = bytes(likelihoods)[::-1]
    return tuple([int(backwards.translate(digits), 2) for digits in _DIGITS])


def _in_year(band: int, year: int) -> int:
    """Return the calendar days of a band that a year has: a common year has no 29 February."""
    return band if isleap(year) else (band & _BEFORE_LEAP_DAY) | (band >> 1 & ~_BEFORE_LEAP_DAY)
