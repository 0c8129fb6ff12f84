"""Events as calendar text (RFC 5545), byte for byte the same for the same events.

All events are whole days. Such a day floats: it is the same day in every time zone, so no time zone stands in the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import UTC, datetime, time, timedelta
from typing import TYPE_CHECKING
from urllib.parse import quote

from soilrota.model.feeds import FeedEvent, FeedStatus

if TYPE_CHECKING:
    from icalendar import Alarm, Event
    from icalendar.prop import vInline

MEDIA_TYPE = "text/calendar; charset=utf-8; method=PUBLISH"
#: Control characters that no text may hold (RFC 5545, section 3.1): all but tab, and line breaks, which are escaped.
_CONTROLS = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
#: What some programs take for the end of a line.
_BREAKS = re.compile(r"\r\n?|[\u0085\u2028\u2029]")


def calendar_text(name: str, organiser: str, events: Iterable[FeedEvent]) -> bytes:
    """Return a calendar file.

    Args:
        name: what people call the calendar.
        organiser: e-mail address of who keeps it (RFC 5546 wants one in a published calendar); empty for none.
        events: its events.
    """
    from icalendar import Calendar  # noqa: PLC0415 - a night in which no feed changes needs no calendar library

    calendar = Calendar()
    calendar.add("VERSION", "2.0")
    calendar.add("PRODID", "-//soilrota//soilrota//EN")
    calendar.add("CALSCALE", "GREGORIAN")
    calendar.add("METHOD", "PUBLISH")
    calendar.add("NAME", _text(name))
    calendar.add("X-WR-CALNAME", _text(name))
    calendar.add("REFRESH-INTERVAL", timedelta(days=1), parameters={"VALUE": "DURATION"})
    for event in sorted(events, key=lambda one: (one.visit.first, one.uid)):
        calendar.add_component(_event(event, organiser))
    content: bytes = calendar.to_ical(sorted=False)
    return content


def _event(event: FeedEvent, organiser: str) -> Event:
    """Return an event as the library has it."""
    from icalendar import Event, vCalAddress  # noqa: PLC0415 - as above

    visit = event.visit
    stamp = datetime.combine(event.stamped, time(), UTC)
    made = Event()
    made.add("UID", event.uid)
    made.add("DTSTAMP", stamp)
    made.add("LAST-MODIFIED", stamp)
    made.add("SEQUENCE", event.sequence)
    made.add("STATUS", event.status.value)
    made.add("DTSTART", visit.first)
    # The end of an event is the first day that is no part of it.
    made.add("DTEND", visit.last + timedelta(days=1))
    made.add("SUMMARY", _text(visit.summary))
    if visit.description:
        made.add("DESCRIPTION", _text(visit.description))
    if visit.location:
        made.add("LOCATION", _text(visit.location))
    if organiser:
        made.add("ORGANIZER", vCalAddress(f"mailto:{quote(organiser, safe='@+', errors='replace')}"))
    # A farmer's day stays free for other work; a visit is no meeting.
    made.add("TRANSP", "TRANSPARENT")
    if event.status is not FeedStatus.CANCELLED:
        made.add_component(_alarm(visit.summary, timedelta(hours=visit.alarm_hours)))
    return made


def _alarm(words: str, before: timedelta) -> Alarm:
    """Return an alarm that shows words so long before its event begins."""
    from icalendar import Alarm  # noqa: PLC0415 - as above

    alarm = Alarm()
    alarm.add("ACTION", "DISPLAY")
    alarm.add("DESCRIPTION", _text(words))
    alarm.add("TRIGGER", -before)
    return alarm


def _text(words: str) -> vInline:
    r"""Return words as the value of a property of type TEXT: escaped, line breaks all of one kind, without controls.

    The library takes a backslash before a capital N for a line break, as it is in the file and not in a text; so the
    words between such pairs are escaped by the library, and the pairs here (`C:\North` stays what it is).
    """
    from icalendar.prop import vInline, vText  # noqa: PLC0415 - as above

    plain = _CONTROLS.sub("", _BREAKS.sub("\n", words.encode("utf-8", "replace").decode()))
    return vInline(r"\\N".join(vText(part).to_ical().decode() for part in plain.split(r"\N")))
