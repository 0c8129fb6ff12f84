"""Days as a reader's language and country write them."""

from __future__ import annotations

from datetime import date

from babel.dates import format_date, format_skeleton

from soilrota.language.figures import locale_of

_MONTH_FIRST = frozenset({"US"})


def month_comes_first(language: str) -> bool:
    """Return whether a day is written after its month, so that its year follows a comma.

    >>> month_comes_first("en-US"), month_comes_first("en-AU")
    (True, False)
    """
    return locale_of(language).territory in _MONTH_FIRST


def long_day(day: date, language: str) -> str:
    """Return a day in full.

    >>> [long_day(date(2027, 2, 10), language) for language in ("en-AU", "en-US", "es-ES")]
    ['10 February 2027', 'February 10, 2027', '10 de febrero de 2027']
    """
    return format_date(day, "long", locale=locale_of(language))


def short_day(day: date, language: str) -> str:
    """Return a day without its year.

    >>> [short_day(date(2027, 2, 10), language) for language in ("en-AU", "en-US", "es-ES")]
    ['10 February', 'February 10', '10 de febrero']
    """
    return str(format_skeleton("MMMMd", day, locale=locale_of(language)))


def month_letters(day: date, language: str) -> str:
    """Return the short name of a month.

    >>> month_letters(date(2027, 2, 10), "en-AU"), month_letters(date(2027, 2, 10), "es-ES")
    ('Feb', 'feb')
    """
    return str(format_skeleton("MMM", day, locale=locale_of(language)))
