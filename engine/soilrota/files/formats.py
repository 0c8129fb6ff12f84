"""Formats that really check: days, months with days, e-mail addresses, time zones, ids."""

from __future__ import annotations

import re
from datetime import date
from functools import cache

ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
LONGEST_ID = 64
_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_SLASH_DAY = re.compile(r"([0-9]{1,2})[/.]([0-9]{1,2})[/.]([0-9]{4})")
_MONTH_DAY = re.compile(r"([0-9]{2})-([0-9]{2})")
_LEAP_YEAR = 2024
# One plain address: no display name, no comments, no quoting, no list (RFC 5322 dot-atom, RFC 1123 host).
_ATOM = r"[A-Za-z0-9!#$%&'*+/=?^_`{|}~\u00a1-\U0010ffff-]+"
_LABEL = r"[A-Za-z0-9\u00a1-\U0010ffff](?:[A-Za-z0-9\u00a1-\U0010ffff-]*[A-Za-z0-9\u00a1-\U0010ffff])?"
_EMAIL = re.compile(rf"{_ATOM}(?:\.{_ATOM})*@{_LABEL}(?:\.{_LABEL})+")
_LONGEST_EMAIL = 254


def fault(name: str, text: str) -> tuple[str, str] | None:
    """Return what is wrong with a text of a format and how to mend it; None where it is right or has no such format.

    Args:
        name: `date`, `month-day`, `email`, `time-zone` or `id`.
        text: the text.
    """
    check = _CHECKS.get(name)
    return check(text) if check else None


def iso_day(text: str) -> date | None:
    """Return the day that an ISO 8601 date names; None where there is no such day."""
    if not _ISO_DAY.fullmatch(text) or not text.isascii():
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _date(text: str) -> tuple[str, str] | None:
    """Check a day."""
    if iso_day(text):
        return None
    if _ISO_DAY.fullmatch(text):
        return f"'{text}': there is no such day", "write a day of the calendar as year-month-day"
    slashed = _SLASH_DAY.fullmatch(text)
    if slashed:
        first, second, year = int(slashed[1]), int(slashed[2]), int(slashed[3])
        readings = [f"{year:04d}-{month:02d}-{day:02d}" for day, month in {(first, second), (second, first)}]
        real = sorted(reading for reading in readings if iso_day(reading))
        return f"'{text}' is no ISO date", f"write {' or '.join(real) or 'the day as 2027-02-15'}"
    return f"'{text}' is no ISO date", "write the day as year-month-day, for instance 2027-02-15"


def _month_day(text: str) -> tuple[str, str] | None:
    """Check a day of the year without its year."""
    match = _MONTH_DAY.fullmatch(text)
    if match and iso_day(f"{_LEAP_YEAR}-{match[1]}-{match[2]}"):
        return None
    said = "there is no such day of the year" if match else "this is no month and day"
    return f"'{text}': {said}", "write month-day with two digits each, for instance 01-20"


def _email(text: str) -> tuple[str, str] | None:
    """Check one e-mail address."""
    if len(text) <= _LONGEST_EMAIL and _EMAIL.fullmatch(text) and "=?" not in text:
        return None
    if "," in text or ";" in text or text.count("@") > 1:
        return f"'{text}' is more than one address", "write one address"
    return f"'{text}' is no e-mail address", "write it as name@place.example, without a display name"


@cache
def _time_zones() -> frozenset[str]:
    """Return the names of all time zones."""
    from zoneinfo import available_timezones  # noqa: PLC0415  # reads the whole database

    return frozenset(available_timezones())


def _time_zone(text: str) -> tuple[str, str] | None:
    """Check a name of the IANA time zone database."""
    if text in _time_zones():
        return None
    from soilrota.files.suggest import nearest_name  # noqa: PLC0415

    near = nearest_name(text, _time_zones())
    return f"'{text}' is no time zone", f"write {near or 'a name such as Europe/London'}"


def _id(text: str) -> tuple[str, str] | None:
    """Check an id."""
    if len(text) <= LONGEST_ID and text.isascii() and ID.fullmatch(text):
        return None
    return f"'{text[:80]}' is no id", "use lower-case letters, digits and single hyphens, at most 64 characters"


_CHECKS = {"date": _date, "month-day": _month_day, "email": _email, "time-zone": _time_zone, "id": _id}
