"""The one place that reads the clock for a date."""

from __future__ import annotations

from datetime import date, datetime


def today(time_zone: str) -> date:
    """Return today's date in a time zone (IANA name)."""
    from zoneinfo import ZoneInfo  # noqa: PLC0415 - loaded where no date was named

    return datetime.now(ZoneInfo(time_zone)).date()
