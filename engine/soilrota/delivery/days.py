"""Days, counts and lists as a reader of mail expects them: with the weekday, and the year only where it is needed."""

from __future__ import annotations

from datetime import date

from babel.dates import format_date

from soilrota.language import say, say_as
from soilrota.language.days import long_day, month_comes_first, short_day
from soilrota.language.figures import counted, joined, locale_of

__all__ = ["away_words", "counted", "date_words", "day_words", "joined", "time_words"]

#: A day of another year is written with its year where it is further away than this [d].
_NEAR = 60

date_words = long_day


def day_words(day: date, language: str, as_of: date) -> str:
    """Return a day with its weekday, and its year where that is not the as-of date's.

    >>> day_words(date(2027, 2, 10), "en-AU", date(2027, 2, 1)), day_words(date(2027, 2, 10), "en-US", date(2026, 2, 1))
    ('Wednesday 10 February', 'Wednesday, February 10, 2027')
    """
    locale = locale_of(language)
    near = day.year == as_of.year or abs((day - as_of).days) <= _NEAR
    weekday = format_date(day, "EEEE", locale=locale)
    said = short_day(day, language) if near else long_day(day, language)
    comma = month_comes_first(language)
    return f"{weekday}, {said}" if comma else say_as("day", "{weekday} {day}", weekday=weekday, day=said)


def away_words(day: date, as_of: date) -> str:
    """Return how far ahead a day is.

    >>> [away_words(date(2027, 2, day), date(2027, 2, 1)) for day in (1, 2, 3)]
    ['today', 'tomorrow', 'in 2 days']
    """
    days = (day - as_of).days
    if days in (0, 1):
        return say("tomorrow") if days else say("today")
    return say("in {days}", days=counted(days, "day", "days"))


def time_words(minutes: int) -> str:
    """Return a time of work, to the quarter of an hour.

    >>> time_words(20), time_words(60), time_words(200)
    ('half an hour', '1 hour', '3 hours and 15 minutes')
    """
    quarters = max(2, round(minutes / 15))
    hours, rest = divmod(quarters, 4)
    if not hours and quarters == 2:  # noqa: PLR2004 - two quarters
        return say("half an hour")
    whole = [counted(hours, "hour", "hours")] if hours else []
    return joined([*whole, *([counted(rest * 15, "minute", "minutes")] if rest else [])])
