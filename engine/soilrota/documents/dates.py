"""Days and numbers as the client reads them."""

from __future__ import annotations

from datetime import date
from functools import cache

from babel import Locale
from babel.dates import format_date, format_skeleton
from babel.numbers import format_decimal

from soilrota.model.windows import Span

_MONTH_FIRST = frozenset({"US"})


@cache
def locale_of(language: str) -> Locale:
    """Return the locale of a language tag such as `en-AU`."""
    return Locale.parse(language, sep="-")


def long_day(day: date, language: str) -> str:
    """Return a day in full.

    >>> long_day(date(2027, 2, 10), "en-AU"), long_day(date(2027, 2, 10), "en-US")
    ('10 February 2027', 'February 10, 2027')
    """
    return format_date(day, _pattern(language, year=True), locale=locale_of(language))


def short_day(day: date, language: str) -> str:
    """Return a day without its year.

    >>> short_day(date(2027, 2, 10), "en-AU"), short_day(date(2027, 2, 10), "en-US")
    ('10 February', 'February 10')
    """
    return format_date(day, _pattern(language, year=False), locale=locale_of(language))


def _pattern(language: str, *, year: bool) -> str:
    """Return the pattern of a day in the order that the country writes it."""
    if locale_of(language).territory in _MONTH_FIRST:
        return "MMMM d, y" if year else "MMMM d"
    return "d MMMM y" if year else "d MMMM"


def month_letters(day: date, language: str) -> str:
    """Return the short name of a month.

    >>> month_letters(date(2027, 2, 10), "en-AU")
    'Feb'
    """
    return str(format_skeleton("MMM", day, locale=locale_of(language)))


def span_words(span: Span, language: str) -> str:
    """Return a span of days in words, the year once where it is the same.

    >>> span_words(Span(date(2027, 1, 20), date(2027, 3, 31)), "en-AU")
    '20 January to 31 March 2027'
    >>> span_words(Span(date(2027, 1, 20), date(2027, 1, 20)), "en-AU")
    '20 January 2027'
    """
    if span.first == span.last:
        return long_day(span.first, language)
    same_year = span.first.year == span.last.year and locale_of(language).territory not in _MONTH_FIRST
    first = short_day(span.first, language) if same_year else long_day(span.first, language)
    return f"{first} to {long_day(span.last, language)}"


def spans_words(spans: tuple[Span, ...], language: str) -> str:
    """Return several spans in words."""
    return joined([span_words(span, language) for span in spans])


def joined(parts: list[str]) -> str:
    """Return parts as a list in a sentence.

    >>> joined(["a"]), joined(["a", "b"]), joined(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    if len(parts) < 2:  # noqa: PLR2004  # one part needs no 'and'
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def counted(count: int, one: str, many: str = "") -> str:
    """Return a count with its noun.

    >>> counted(1, "month"), counted(3, "month"), counted(2, "entry", "entries")
    ('1 month', '3 months', '2 entries')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def number(value: float, language: str, decimals: int = 1) -> str:
    """Return a number with at most so many decimals.

    >>> number(12.0, "en-AU"), number(11.86, "en-AU"), number(2500, "en-AU", 0)
    ('12', '11.9', '2,500')
    """
    pattern = "#,##0." + "#" * decimals if decimals else "#,##0"
    return str(format_decimal(value, format=pattern, locale=locale_of(language)))
