"""A strict reader of calendar files, written from RFC 5545 alone, and a calendar that takes files over."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date

_LINE = re.compile(r"([A-Z0-9-]+)((?:;[A-Z0-9-]+=(?:\"[^\"]*\"|[^\";:,]*))*):(.*)", re.DOTALL)
#: A duration of days and hours before something, or none at all (RFC 5545, section 3.3.6).
_BEFORE = re.compile(r"-P(?:[0-9]+DT[0-9]+H|[0-9]+D|T[0-9]+H)|P0D|PT0S")
_ONCE = ("UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "SEQUENCE", "STATUS")


@dataclass
class Part:
    """A component: its name, its properties with their parameters, the components inside."""

    name: str
    properties: list[tuple[str, str, str]] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)

    def all(self, name: str) -> list[str]:
        """Return the values of a property."""
        return [value for known, _, value in self.properties if known == name]

    def one(self, name: str) -> str:
        """Return the value of a property that must stand once."""
        (value,) = self.all(name)
        return value

    def text(self, name: str) -> str:
        """Return the value of a property of type TEXT."""
        return unescaped(self.one(name))

    def day(self, name: str) -> date:
        """Return the value of a property of type DATE."""
        ((parameters, value),) = [(given, value) for known, given, value in self.properties if known == name]
        assert parameters == ";VALUE=DATE"
        assert re.fullmatch(r"[0-9]{8}", value)
        return date(int(value[:4]), int(value[4:6]), int(value[6:]))


def unescaped(value: str) -> str:
    """Return what an escaped text stands for; refuses what must not stand there bare."""
    found, at = "", 0
    while at < len(value):
        sign = value[at]
        assert sign not in ",;", value
        if sign == "\\":
            at += 1
            assert value[at] in "\\,;nN", value
            sign = "\n" if value[at] in "nN" else value[at]
        found += sign
        at += 1
    return found


def lines_of(content: bytes) -> list[str]:
    """Return the unfolded lines; every line ends in CRLF and has at most 75 bytes, each of them whole UTF-8."""
    assert content.endswith(b"\r\n")
    raw = content[:-2].split(b"\r\n")
    for line in raw:
        assert len(line) <= 75, line
        assert b"\r" not in line
        assert b"\n" not in line
        line.decode("utf-8")
    found: list[str] = []
    for line in raw:
        if line.startswith((b" ", b"\t")):
            found[-1] += line[1:].decode()
        else:
            found.append(line.decode())
    return found


def read(content: bytes) -> Part:
    """Return the calendar of a file, refusing whatever RFC 5545 does not allow."""
    top = Part("")
    open_parts = [top]
    for line in lines_of(content):
        match = _LINE.fullmatch(line)
        assert match, line
        name, parameters, value = match.groups()
        assert not re.search(r"[\x00-\x08\x0a-\x1f\x7f]", value), line
        if name == "BEGIN":
            part = Part(value)
            open_parts[-1].parts.append(part)
            open_parts.append(part)
        elif name == "END":
            assert open_parts.pop().name == value
        else:
            open_parts[-1].properties.append((name, parameters, value))
    assert open_parts == [top]
    (calendar,) = top.parts
    _check(calendar)
    return calendar


def _check(calendar: Part) -> None:
    """Check what a calendar and its events must have, and have once."""
    assert calendar.name == "VCALENDAR"
    assert calendar.one("VERSION") == "2.0"
    assert calendar.one("PRODID")
    uids = []
    for event in calendar.parts:
        assert event.name == "VEVENT"
        assert all(len(event.all(name)) == 1 for name in _ONCE)
        assert re.fullmatch(r"[0-9]{8}T[0-9]{6}Z", event.one("DTSTAMP"))
        assert event.day("DTSTART") < event.day("DTEND")
        assert event.one("STATUS") in {"TENTATIVE", "CONFIRMED", "CANCELLED"}
        uids.append(event.one("UID"))
        for alarm in event.parts:
            assert alarm.name == "VALARM"
            assert alarm.one("ACTION") == "DISPLAY"
            assert _BEFORE.fullmatch(alarm.one("TRIGGER"))
            assert len(alarm.all("DESCRIPTION")) == 1
    assert len(uids) == len(set(uids))


class PhoneCalendar:
    """A calendar that takes over what it is sent: a higher SEQUENCE wins, then DTSTAMP (RFC 5546, section 2.1.5)."""

    def __init__(self) -> None:
        """Begin empty."""
        self.events: dict[str, Part] = {}

    def take(self, content: bytes) -> None:
        """Take a file over."""
        for event in read(content).parts:
            known = self.events.get(event.one("UID"))
            if known is None or self._order(event) >= self._order(known):
                self.events[event.one("UID")] = event

    @staticmethod
    def _order(event: Part) -> tuple[int, str]:
        """Return by what the newer of two is told."""
        return int(event.one("SEQUENCE")), event.one("DTSTAMP")

    def shown(self) -> set[tuple[date, date, str]]:
        """Return first day, end and summary of what is not cancelled."""
        return {
            (event.day("DTSTART"), event.day("DTEND"), event.text("SUMMARY"))
            for event in self.events.values()
            if event.one("STATUS") != "CANCELLED"
        }
