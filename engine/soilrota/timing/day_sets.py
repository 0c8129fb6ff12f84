"""Sets of days as one whole number: bit n stands for the day n days after a first one.

A season of worked weekdays is dozens of spans but one number of a few hundred bits. Days that two rules allow are then
one `&`, and the nearest day to another is a shift, so that the window engine asks as often as it likes and makes spans
only of what it hands out.
"""

from __future__ import annotations

from calendar import isleap
from collections.abc import Callable, Iterable, Sequence
from datetime import MAXYEAR, date
from functools import lru_cache
from typing import NamedTuple

from soilrota.model.windows import Span

_WEEK = 7
#: One bit a week for a year and a bit.
_EVERY_WEEK = sum(1 << _WEEK * week for week in range(54))
_TEN_WEEKS = (1 << 10 * _WEEK) - 1
#: Days of a year that is no leap year.
_COMMON = 365


class DaySet(NamedTuple):
    """A set of days.

    Attributes:
        year: the year of which 1 January is bit 0.
        first: that day, as an ordinal.
        bits: the days; 0 for none.
    """

    year: int
    first: int
    bits: int

    def among(self, allowed: Callable[[int], int]) -> DaySet:
        """Return the days that `allowed`, which gives the bits of a year, has too."""
        year, first, bits = self
        if not bits:
            return self
        length = bits.bit_length()
        return DaySet(year, first, bits & (allowed(year) if length <= _COMMON else over_years(allowed, year, length)))

    def since(self, day: date) -> DaySet:
        """Return the days from `day` on."""
        year, first, bits = self
        before = day.toordinal() - first
        return self if before <= 0 else DaySet(year, first, bits >> before << before)

    def until(self, day: date) -> DaySet:
        """Return the days up to `day`."""
        year, first, bits = self
        days = day.toordinal() - first + 1
        if days >= bits.bit_length():
            return self
        return DaySet(year, first, bits & ((1 << days) - 1) if days > 0 else 0)

    def between(self, first_day: date, last_day: date) -> DaySet:
        """Return the days from the first to the last one, both included; none where that is before the first."""
        year, first, bits = self
        before = max(first_day.toordinal() - first, 0)
        days = last_day.toordinal() - first + 1
        return DaySet(year, first, (bits & ((1 << days) - 1)) >> before << before if days > before else 0)

    def nearest(self, target: date) -> date | None:
        """Return the day nearest to `target`, the earlier of two; None of an empty set."""
        bits = self.bits
        if not bits:
            return None
        offset = target.toordinal() - self.first
        if offset <= 0:
            return date.fromordinal(self.first + lowest(bits))
        before = (bits & ((2 << offset) - 1)).bit_length() - 1
        later = bits >> offset
        if not later or (before >= 0 and offset - before <= lowest(later)):
            return date.fromordinal(self.first + before)
        return date.fromordinal(self.first + offset + lowest(later))

    def weekdays(self) -> set[int]:
        """Return the ISO weekdays that occur."""
        bits = self.bits
        folded = 0
        while bits:
            folded |= bits & _TEN_WEEKS
            bits >>= _TEN_WEEKS.bit_length()
        return {(self.first + shift - 1) % _WEEK + 1 for shift in range(_WEEK) if folded & (_EVERY_WEEK << shift)}

    def spans(self) -> tuple[Span, ...]:
        """Return the days as sorted, disjoint, maximal spans."""
        # The digits are searched, because that is one call a border; reversed, so that bit n stands at n.
        digits, origin = bin(self.bits)[:1:-1], self.first
        find, found = digits.find, []
        start = find("1")
        while start >= 0:
            end = find("0", start)
            if end < 0:
                found.append(_span(origin + start, origin + len(digits) - 1))
                break
            found.append(_span(origin + start, origin + end - 1))
            start = find("1", end)
        return tuple(found)


NO_DAYS = DaySet(1, 1, 0)


def day_set(spans: Sequence[Span]) -> DaySet:
    """Return the days of spans, given in any order."""
    if not spans:
        return NO_DAYS
    year = spans[0].first.year if len(spans) == 1 else min([span.first.year for span in spans])
    origin = date(year, 1, 1).toordinal()
    bits = 0
    for span in spans:
        bits |= (2 << span.last.toordinal() - origin) - (1 << span.first.toordinal() - origin)
    return DaySet(year, origin, bits)


def over_years(of_year: Callable[[int], int], year: int, days: int) -> int:
    """Return the bits of at least so many days from 1 January of `year` on, out of those of each year.

    The calendar ends with its last year: there are no days after it.
    """
    bits, length = of_year(year), _COMMON + isleap(year)
    while length < days and year < MAXYEAR:
        year += 1
        bits |= of_year(year) << length
        length += _COMMON + isleap(year)
    return bits


def days_of_year(year: int) -> int:
    """Return the number of days of a year [d]."""
    return _COMMON + isleap(year)


def weekdays_in(year: int, weekdays: Iterable[int]) -> int:
    """Return the bits of the ISO weekdays in a year."""
    first = date(year, 1, 1).isoweekday()
    bits = 0
    for weekday in weekdays:
        bits |= _EVERY_WEEK << (weekday - first) % _WEEK
    return bits & ((1 << days_of_year(year)) - 1)


@lru_cache(maxsize=16384)
def _span(first: int, last: int) -> Span:
    """Return a span between two ordinals; weeks of a few years are asked for again and again."""
    return Span(date.fromordinal(first), date.fromordinal(last))


def lowest(bits: int) -> int:
    """Return the place of the lowest bit that is set; there must be one."""
    return (bits & -bits).bit_length() - 1
