"""Days, counts and lists as a reader of mail expects them: with the weekday, and the year only where it is needed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cache

from babel import Locale
from babel.dates import format_date

_MONTH_FIRST = frozenset({"US"})
#: A day of another year is written with its year where it is further away than this [d].
_NEAR = 60


@cache
def _locale(language: str) -> Locale:
    """Return the locale of a language tag such as `en-AU`."""
    return Locale.parse(language, sep="-")


def day_words(day: date, language: str, as_of: date) -> str:
    """Return a day with its weekday, and its year where that is not the as-of date's.

    >>> day_words(date(2027, 2, 10), "en-AU", date(2027, 2, 1)), day_words(date(2027, 2, 10), "en-US", date(2026, 2, 1))
    ('Wednesday 10 February', 'Wednesday, February 10, 2027')
    """
    locale = _locale(language)
    near = day.year == as_of.year or abs((day - as_of).days) <= _NEAR
    if locale.territory in _MONTH_FIRST:
        pattern = "EEEE, MMMM d" if near else "EEEE, MMMM d, y"
    else:
        pattern = "EEEE d MMMM" if near else "EEEE d MMMM y"
    return format_date(day, pattern, locale=locale)


def date_words(day: date, language: str) -> str:
    """Return a day in full, without its weekday.

    >>> date_words(date(2027, 2, 10), "en-AU"), date_words(date(2027, 2, 10), "en-US")
    ('10 February 2027', 'February 10, 2027')
    """
    locale = _locale(language)
    return format_date(day, "MMMM d, y" if locale.territory in _MONTH_FIRST else "d MMMM y", locale=locale)


def away_words(day: date, as_of: date) -> str:
    """Return how far ahead a day is.

    >>> [away_words(date(2027, 2, day), date(2027, 2, 1)) for day in (1, 2, 3)]
    ['today', 'tomorrow', 'in 2 days']
    """
    days = (day - as_of).days
    return {0: "today", 1: "tomorrow"}.get(days, f"in {counted(days, 'day')}")


def joined(parts: Iterable[str]) -> str:
    """Return parts as a list in a sentence.

    >>> joined(["a"]), joined(["a", "b"]), joined(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    found = list(parts)
    return " and ".join([", ".join(found[:-1]), found[-1]]) if len(found) > 1 else "".join(found)


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun.

    >>> counted(1, "bag"), counted(3, "bag"), counted(2, "entry", "entries")
    ('1 bag', '3 bags', '2 entries')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def time_words(minutes: int) -> str:
    """Return a time of work, to the quarter of an hour.

    >>> time_words(20), time_words(60), time_words(200)
    ('half an hour', '1 hour', '3 hours and 15 minutes')
    """
    quarters = max(2, round(minutes / 15))
    hours, rest = divmod(quarters, 4)
    if not hours:
        return "half an hour" if quarters == 2 else "45 minutes"  # noqa: PLR2004 - two quarters
    return joined([counted(hours, "hour"), *([f"{rest * 15} minutes"] if rest else [])])
