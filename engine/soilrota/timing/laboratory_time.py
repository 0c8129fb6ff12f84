"""From the day in the field to the day with results, and back from a decision.

The forward rule is the definition; `last_useful_day` is its inverse. Common practice, no source: a sample leaves with
the courier on the day of sampling, spends the courier days (working days of the laboratory's country) on the way, waits
for the next receiving day, and is reported after the laboratory's working days (Mondays to Fridays that are no public
holiday in its country).
"""

from __future__ import annotations

from bisect import bisect_right
from datetime import date, timedelta
from functools import lru_cache

from soilrota.model.practice import Laboratory
from soilrota.timing.public_holidays import is_public_holiday

_DAY = timedelta(days=1)
_FRIDAY = 5
#: No laboratory and no courier is slower than this [d]; a bound for the search back from a decision.
_LONGEST = 400


def is_working_day(country: str, day: date) -> bool:
    """Return whether a country's laboratories and couriers work on a day: Monday to Friday, no public holiday there."""
    return day.isoweekday() <= _FRIDAY and not is_public_holiday(country, "", day)


def _after_working_days(laboratory: Laboratory, day: date, count: int) -> date:
    """Return the day on which `count` further working days are over; `day` itself for 0."""
    if count <= 0:
        return day
    year = day.year
    days = _working_days(laboratory.country, year)
    place = bisect_right(days, day.toordinal()) + count - 1
    while place >= len(days):
        place -= len(days)
        year += 1
        days = _working_days(laboratory.country, year)
    return date.fromordinal(days[place])


@lru_cache(maxsize=512)
def _working_days(country: str, year: int) -> tuple[int, ...]:
    """Return the working days of a country's laboratories and couriers in a year, as ordinals of days."""
    first, last = date(year, 1, 1).toordinal(), date(year, 12, 31).toordinal()
    return tuple(number for number in range(first, last + 1) if is_working_day(country, date.fromordinal(number)))


def receipt_day(laboratory: Laboratory, sampled: date) -> date:
    """Return the day on which a bag sampled on `sampled` is received: after the courier, on a receiving day."""
    day = _after_working_days(laboratory, sampled, laboratory.courier_days)
    while not _receives(laboratory, day):
        day += _DAY
    return day


def results_day(laboratory: Laboratory, sampled: date) -> date:
    """Return the day on which the results of a bag sampled on `sampled` are there."""
    return _after_working_days(laboratory, receipt_day(laboratory, sampled), laboratory.turnaround_working_days)


def last_useful_day(laboratory: Laboratory | None, decision: date) -> date:
    """Return the last day of sampling whose results are there on or before the day of the decision.

    Without a laboratory nothing is known of its time, and the day of the decision itself is returned.
    """
    if laboratory is None:
        return decision
    # Each step of the forward rule turned round: the last day that can still be followed by it in time.
    receipt = _before_working_days(laboratory, decision, laboratory.turnaround_working_days)
    earliest = decision - timedelta(days=_LONGEST)
    while not _receives(laboratory, receipt):
        if receipt <= earliest:
            return earliest
        receipt -= _DAY
    return max(_before_working_days(laboratory, receipt, laboratory.courier_days), earliest)


def _before_working_days(laboratory: Laboratory, day: date, count: int) -> date:
    """Return the last day after which `count` working days are over by `day`; `day` itself for 0."""
    if count <= 0:
        return day
    year = day.year
    days = _working_days(laboratory.country, year)
    place = bisect_right(days, day.toordinal()) - count
    while place < 0:
        year -= 1
        days = _working_days(laboratory.country, year)
        place += len(days)
    return date.fromordinal(days[place] - 1)


def _receives(laboratory: Laboratory, day: date) -> bool:
    """Return whether a laboratory receives on a day: a receiving weekday that is no public holiday there."""
    return day.isoweekday() in laboratory.receiving_weekdays and not is_public_holiday(laboratory.country, "", day)


def keeps(laboratory: Laboratory | None, sampled: date, holding_days: int | None) -> bool:
    """Return whether a bag sampled on `sampled` is received within its holding time [d].

    Without a laboratory or a holding time every day keeps. Holding runs from sampling to receipt, in calendar days.
    """
    if laboratory is None or holding_days is None:
        return True
    return (receipt_day(laboratory, sampled) - sampled).days <= holding_days
