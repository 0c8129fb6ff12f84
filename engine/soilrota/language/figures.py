"""Numbers, counts and lists as a reader's language writes them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from babel import Locale
from babel.numbers import format_currency, format_decimal, get_currency_symbol, get_decimal_symbol

from soilrota.language.speech import say_as, say_count, spoken


@cache
def locale_of(language: str) -> Locale:
    """Return the locale of a language tag such as `en-AU`."""
    return Locale.parse(language, sep="-")


def number(value: float, language: str, decimals: int = 1) -> str:
    """Return a number with at most so many decimals.

    >>> number(12.0, "en-AU"), number(11.86, "en-AU"), number(2500, "en-AU", 0), number(11.86, "es")
    ('12', '11.9', '2,500', '11,9')
    """
    pattern = "#,##0." + "#" * decimals if decimals else "#,##0"
    return str(format_decimal(value, format=pattern, locale=locale_of(language)))


def digits(written: str) -> str:
    """Return a number that is already written, with a point, as the language that is spoken writes it.

    >>> digits("5.25"), digits("<0.10")
    ('5.25', '<0.10')
    """
    return written.replace(".", get_decimal_symbol(locale_of(spoken())))


def with_unit(figure: str, unit: str) -> str:
    """Return a figure that is already written with its unit; how near a per cent stands is the language's.

    >>> with_unit("32", "mg/kg"), with_unit("2.34", "%"), with_unit("5.4", "")
    ('32 mg/kg', '2.34%', '5.4')
    """
    if unit == "%":
        return say_as("share", "{figure}%", figure=figure)
    return f"{figure} {unit}" if unit else figure


def money(amount: float, currency: str, language: str) -> str:
    r"""Return an amount of money in whole units, its sign where the language has it, letters kept off the figure.

    Args:
        amount: in the currency.
        currency: ISO 4217 code; empty for a plain number.
        language: language tag of the reader.

    >>> money(1234.4, "AUD", "en-AU"), money(1234.4, "AUD", "es-MX"), money(-1234.4, "", "en-AU")
    ('$1,234', 'AUD\xa01,234', '-1,234')
    """
    locale, whole = locale_of(language), round(amount)
    if not currency:
        return str(format_decimal(whole, locale=locale))
    pattern = re.sub(r"\.0+", "", locale.currency_formats["standard"].pattern)
    written = str(format_currency(whole, currency, locale=locale, format=pattern, currency_digits=False))
    sign = get_currency_symbol(currency, locale=locale)
    return re.sub(rf"({re.escape(sign)})(?=[-0-9])", "\\1\xa0", written) if sign[-1].isalpha() else written


def counted(count: int, one: str, many: str) -> str:
    """Return a count with its noun; the nouns are gathered for translation where this is called.

    >>> counted(1, "month", "months"), counted(3, "month", "months"), counted(2, "entry", "entries")
    ('1 month', '3 months', '2 entries')
    """
    return f"{count} {say_count(one, many, count)}"


def joined(parts: Iterable[str]) -> str:
    """Return parts as a list in a sentence.

    >>> joined(["a"]), joined(["a", "b"]), joined(["a", "b", "c"])
    ('a', 'a and b', 'a, b and c')
    """
    found = list(parts)
    if len(found) < 2:  # noqa: PLR2004 - one part needs no 'and'
        return "".join(found)
    return say_as("list", "{before} and {last}", before=", ".join(found[:-1]), last=found[-1])
