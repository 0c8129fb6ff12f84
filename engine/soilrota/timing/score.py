"""Which of the open days is best: the one measure of it.

Same time each year comes first, because a trend mixes seasons otherwise: the day nearest to the one aimed at. Of two
days equally far the earlier is preferred, because what is put off can still fail.
"""

from __future__ import annotations

from calendar import isleap
from datetime import date

from soilrota.model.moisture import Likelihood, MoistureOutlook
from soilrota.model.windows import Span
from soilrota.timing.day_sets import DaySet, days_of_year, lowest

#: Where 29 February stands in a calendar that has one, from 0 on 1 January.
_LEAP_DAY = 59
#: Of each likelihood, the best first, what makes a set of a byte: `1` where it is that likelihood, `0` elsewhere.
_DIGITS = tuple(
    bytes(ord("1") if byte == likelihood else ord("0") for byte in range(256))
    for likelihood in sorted(Likelihood, reverse=True)
)


def best_day(
    days: DaySet, target: date, outlook: MoistureOutlook | None = None, comparable: Span | None = None
) -> date | None:
    """Return the best of the days; None where there is no day.

    Where moisture ranks them, days within the tolerance of the anniversary come first, so that moisture never moves a
    sampling out of its time of year; among them those that most often find the wanted soil; among those the nearest.

    Args:
        days: the days.
        target: the day aimed at.
        outlook: how likely each day finds the wanted soil; None without weather.
        comparable: the days within the tolerance of the anniversary; None for a task never sampled.
    """
    if outlook is None or not days.bits:
        return days.nearest(target)
    near = days if comparable is None else days.between(comparable.first, comparable.last)
    year, first, bits = near if near.bits else days
    begin = lowest(bits)
    # Backwards, because the first digit of a number is its highest.
    backwards = bytes(_of_run(outlook.likelihoods, year, begin, bits.bit_length()))[::-1]
    for digits in _DIGITS:
        ranked = bits & int(backwards.translate(digits), 2) << begin
        if ranked:
            return DaySet(year, first, ranked).nearest(target)
    return None


def _of_run(likelihoods: tuple[Likelihood, ...], year: int, begin: int, end: int) -> tuple[Likelihood, ...]:
    """Return the likelihoods of a run of days: numbers `begin` to `end`, not included; 0 is 1 January of `year`."""
    found: tuple[Likelihood, ...] = ()
    while end > 0:
        if isleap(year):
            found += likelihoods[begin:end]
        else:
            found += likelihoods[begin : min(end, _LEAP_DAY)] + likelihoods[max(begin, _LEAP_DAY) + 1 : end + 1]
        length = days_of_year(year)
        begin, end, year = max(begin - length, 0), end - length, year + 1
    return found
