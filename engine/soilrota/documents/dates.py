"""Spans of days as the client reads them; and days, numbers and lists, for whoever writes documents."""

from __future__ import annotations

from soilrota.language import say_as
from soilrota.language.days import long_day, month_letters, short_day
from soilrota.language.figures import counted, digits, joined, locale_of, money, number, with_unit
from soilrota.model.windows import Span

__all__ = [
    "counted",
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

_MONTH_FIRST = frozenset({"US"})


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
    same_year = span.first.year == span.last.year and locale_of(language).territory not in _MONTH_FIRST
    first = short_day(span.first, language) if same_year else long_day(span.first, language)
    return say_as("days", "{first} to {last}", first=first, last=long_day(span.last, language))


def spans_words(spans: tuple[Span, ...], language: str) -> str:
    """Return several spans in words."""
    return joined([span_words(span, language) for span in spans])
