"""Spans of days as the client reads them; and days, numbers and lists, for whoever writes documents."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from soilrota.language import say_as
from soilrota.language.days import long_day, month_comes_first, month_letters, short_day
from soilrota.language.figures import counted, digits, joined, locale_of, money, number, with_unit
from soilrota.model.windows import Span

__all__ = [
    "counted",
    "days_words",
    "digits",
    "joined",
    "locale_of",
    "long_day",
    "money",
    "month_letters",
    "number",
    "short_day",
    "span_words",
    "spans_words",
    "with_unit",
]


def span_words(span: Span, language: str) -> str:
    """Return a span of days in words, the year once where it is the same.

    >>> from datetime import date
    >>> span_words(Span(date(2027, 1, 20), date(2027, 3, 31)), "en-AU")
    '20 January to 31 March 2027'
    >>> span_words(Span(date(2027, 1, 20), date(2027, 1, 20)), "en-AU")
    '20 January 2027'
    """
    if span.first == span.last:
        return long_day(span.first, language)
    same_year = span.first.year == span.last.year and not month_comes_first(language)
    first = short_day(span.first, language) if same_year else long_day(span.first, language)
    return say_as("days", "{first} to {last}", first=first, last=long_day(span.last, language))


def spans_words(spans: tuple[Span, ...], language: str) -> str:
    """Return several spans in words."""
    return joined([span_words(span, language) for span in spans])


def days_words(days: Sequence[date], language: str) -> str:
    """Return days as a list in a sentence, the last of each year with its year, so that none seems named twice.

    >>> days_words([date(2027, 1, 26), date(2027, 3, 8), date(2028, 1, 26)], "en-AU")
    '26 January, 8 March 2027 and 26 January 2028'
    """
    ends = {day.year: day for day in days}
    return joined([long_day(day, language) if ends[day.year] == day else short_day(day, language) for day in days])
