"""Events as calendar text (RFC 5545): folded, escaped, byte for byte the same for the same events.

All events are whole days. Such a day floats: it is the same day in every time zone, so no time zone stands in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from soilrota.model.feeds import FeedEvent, FeedStatus

MEDIA_TYPE = "text/calendar; charset=utf-8; method=PUBLISH"
#: Longest line without its end [B] (RFC 5545, section 3.1).
_LINE_BYTES = 75
#: Control characters that no text may hold (RFC 5545, section 3.1): all but tab, and line breaks, which are escaped.
_CONTROLS = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def calendar_text(name: str, organiser: str, events: Iterable[FeedEvent]) -> bytes:
    """Return a calendar file.

    Args:
        name: what people call the calendar.
        organiser: e-mail address of who keeps it (RFC 5546 wants one in a published calendar); empty for none.
        events: its events.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//soilrota//soilrota//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
        f"NAME:{escaped(name)}",
        f"X-WR-CALNAME:{escaped(name)}",
        "REFRESH-INTERVAL;VALUE=DURATION:P1D",
    ]
    for event in sorted(events, key=lambda one: (one.visit.first, one.uid)):
        lines += _event(event, organiser)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines).encode()


def _event(event: FeedEvent, organiser: str) -> Iterator[str]:
    """Yield the lines of an event, not folded yet."""
    visit = event.visit
    stamp = f"{_day(event.stamped)}T000000Z"
    yield "BEGIN:VEVENT"
    yield f"UID:{event.uid}"
    yield f"DTSTAMP:{stamp}"
    yield f"LAST-MODIFIED:{stamp}"
    yield f"SEQUENCE:{event.sequence}"
    yield f"STATUS:{event.status}"
    yield f"DTSTART;VALUE=DATE:{_day(visit.first)}"
    # The end of an event is the first day that is no part of it.
    yield f"DTEND;VALUE=DATE:{_day(visit.last + timedelta(days=1))}"
    yield f"SUMMARY:{escaped(visit.summary)}"
    if visit.description:
        yield f"DESCRIPTION:{escaped(visit.description)}"
    if visit.location:
        yield f"LOCATION:{escaped(visit.location)}"
    if organiser:
        yield f"ORGANIZER:mailto:{_one_line(organiser)}"
    # A farmer's day stays free for other work; a visit is no meeting.
    yield "TRANSP:TRANSPARENT"
    if event.status is not FeedStatus.CANCELLED:
        yield "BEGIN:VALARM"
        yield "ACTION:DISPLAY"
        yield f"DESCRIPTION:{escaped(visit.summary)}"
        yield f"TRIGGER:-PT{visit.alarm_hours}H"
        yield "END:VALARM"
    yield "END:VEVENT"


def escaped(text: str) -> str:
    r"""Return a text as the value of a property of type TEXT (RFC 5545, section 3.3.11).

    >>> escaped("Barn, lower; one\\two") == "Barn\\, lower\\; one\\\\two"
    True
    """
    broken = re.sub(r"\r\n?|[\u0085\u2028\u2029]", "\n", text)
    known = _CONTROLS.sub("", broken).replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return known.replace("\n", "\\n")


def folded(line: str) -> str:
    """Return a line folded so that no part has more than 75 bytes and no character is parted."""
    parts, room, part = [], _LINE_BYTES, ""
    for letter in line:
        size = len(letter.encode("utf-8", "replace"))
        if size > room:
            parts.append(part)
            part, room = "", _LINE_BYTES - 1
        part += letter
        room -= size
    return "\r\n ".join([*parts, part])


def _one_line(text: str) -> str:
    """Return a text without control characters and line breaks."""
    return "".join(letter for letter in text if letter.isprintable() and letter != " ")


def _day(day: date) -> str:
    """Return a day as RFC 5545 writes it; years of four digits on every machine."""
    return f"{day.year:04d}{day.month:02d}{day.day:02d}"
