"""Sets of days as one whole number: bit n stands for the day n days after a first one.

A season of worked weekdays is dozens of spans but one number of a few hundred bits. Days that two rules allow are then
one `&`, and the nearest day to another is a shift, so that the window engine asks as often as it likes and makes spans
only of what it hands out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import MAXYEAR, date

from soilrota.model.windows import Span

_WEEK = 7
#: One bit a week for a year and a bit.
_EVERY_WEEK = sum(1 << _WEEK * week for week in range(54))
_TEN_WEEKS = (1 << 10 * _WEEK) - 1


@dataclass(frozen=True, slots=True)
class DaySet:
    """A set of days.

    Attributes:
        first: the day of bit 0, as an ordinal.
        bits: the days; 0 for none.
    """

    first: int
    bits: int

    def among(self, allowed: Callable[[int], int]) -> DaySet:
        """Return the days that `allowed`, which gives the bits of a year from its 1 January on, has too."""
        bits = self.bits
        if bits:
            bits &= over_years(allowed, self.first, self.first + bits.bit_length() - 1)
        return DaySet(self.first, bits)

    def since(self, day: date) -> DaySet:
        """Return the days from `day` on."""
        before = day.toordinal() - self.first
        return self if before <= 0 else DaySet(self.first, self.bits >> before << before)

    def until(self, day: date) -> DaySet:
        """Return the days up to `day`."""
        days = day.toordinal() - self.first + 1
        if days >= self.bits.bit_length():
            return self
        return DaySet(self.first, self.bits & ((1 << days) - 1) if days > 0 else 0)

    def nearest(self, target: date) -> date | None:
        """Return the day nearest to `target`, the earlier of two; None of an empty set."""
        bits = self.bits
        if not bits:
            return None
        offset = target.toordinal() - self.first
        if offset <= 0:
            return date.fromordinal(self.first + _lowest(bits))
        before = (bits & ((2 << offset) - 1)).bit_length() - 1
        later = bits >> offset
        if not later or (before >= 0 and offset - before <= _lowest(later)):
            return date.fromordinal(self.first + before)
        return date.fromordinal(self.first + offset + _lowest(later))

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
        digits, from_ordinal, origin = bin(self.bits)[:1:-1], date.fromordinal, self.first
        found = []
        start = digits.find("1")
        while start >= 0:
            end = digits.find("0", start)
            if end < 0:
                end = len(digits)
            found.append(Span(from_ordinal(origin + start), from_ordinal(origin + end - 1)))
            start = digits.find("1", end)
        return tuple(found)


def day_set(spans: Iterable[Span]) -> DaySet:
    """Return the days of spans, given in any order."""
    ends = [(span.first.toordinal(), span.last.toordinal() + 1) for span in spans]
    if not ends:
        return DaySet(1, 0)
    origin = min(ends)[0]
    bits = 0
    for first, end in ends:
        bits |= (1 << end - origin) - (1 << first - origin)
    return DaySet(origin, bits)


def over_years(of_year: Callable[[int], int], first: int, last: int) -> int:
    """Return the bits of the days from ordinal `first` to at least ordinal `last`, out of those of each year.

    Args:
        of_year: year → bits, bit 0 for its 1 January.
        first: the day of bit 0 of the answer.
        last: the last day that matters; days after it may be there.
    """
    bits = 0
    for year in range(date.fromordinal(first).year, year_of(last) + 1):
        shift = first - date(year, 1, 1).toordinal()
        bits |= of_year(year) >> shift if shift >= 0 else of_year(year) << -shift
    return bits


def year_of(ordinal: int) -> int:
    """Return the year of a day; the last year of the calendar for all days after it."""
    return date.fromordinal(min(ordinal, date.max.toordinal())).year


def weekdays_in(year: int, weekdays: Iterable[int]) -> int:
    """Return the bits of the ISO weekdays in a year."""
    first = date(year, 1, 1)
    after = date(year + 1, 1, 1).toordinal() if year < MAXYEAR else date.max.toordinal() + 1
    bits = 0
    for weekday in weekdays:
        bits |= _EVERY_WEEK << (weekday - first.isoweekday()) % _WEEK
    return bits & ((1 << after - first.toordinal()) - 1)


def _lowest(bits: int) -> int:
    """Return the place of the lowest bit that is set."""
    return (bits & -bits).bit_length() - 1
