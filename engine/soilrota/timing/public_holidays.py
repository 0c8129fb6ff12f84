"""Public holidays of a country or one of its subdivisions, from the `holidays` library.

The library's tables differ from release to release; the release is pinned with the project, so that the same book
gives the same answer. A country that the library does not know has no public holidays here; the book says so.
"""

from __future__ import annotations

from datetime import date
from functools import lru_cache


@lru_cache(maxsize=256)
def public_holidays(country: str, subdivision: str, year: int) -> frozenset[date]:
    """Return the public holidays of one year.

    Args:
        country: ISO 3166-1 alpha-2 code; empty for none.
        subdivision: ISO 3166-2 subdivision without the country; may be empty.
        year: calendar year [year].

    Returns:
        The days; empty where the country is empty or not known to the library.
    """
    if not country:
        return frozenset()
    import holidays  # noqa: PLC0415  # loads only where a calendar is asked for

    try:
        return frozenset(holidays.country_holidays(country, subdiv=subdivision or None, years=year))
    except NotImplementedError:
        return frozenset()


def is_public_holiday(country: str, subdivision: str, day: date) -> bool:
    """Return whether a day is a public holiday there; the arguments are those of `public_holidays`."""
    return day in public_holidays(country, subdivision, day.year)


def is_known(country: str, subdivision: str) -> bool:
    """Return whether the library knows the country and, where one is given, the subdivision."""
    import holidays  # noqa: PLC0415  # loads only where a calendar is asked for

    known = holidays.list_supported_countries(include_aliases=True)
    return country in known and (not subdivision or subdivision in known[country])
