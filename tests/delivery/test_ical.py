"""Calendar text, read back by a strict reader that knows nothing of the writer."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from soilrota.delivery.ical import MEDIA_TYPE, calendar_text
from soilrota.model.feeds import FeedEvent, FeedStatus, FeedVisit
from tests.delivery.ical_reader import lines_of, read, unescaped

EXAMPLES = 2_000 if os.environ.get("SOILROTA_LONG") == "1" else 150
VISIT = FeedVisit(
    "anvil-creek",
    "home",
    ("barn/topsoil/2027-01-20",),
    date(2027, 2, 27),
    date(2027, 2, 28),
    placed=True,
    summary="Soil sampling: Home, block; one\\two",
    description="First line\nSecond line, with Zoë and 土壌",
    location="Merrow, creek road",
    alarm_hours=6,
)
EVENT = FeedEvent("5b1a5d4e-0000-5000-8000-000000000001", 3, date(2027, 2, 1), FeedStatus.CONFIRMED, VISIT)
TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=300)
#: Texts with what is escaped, folded or ends a line, and letters that look like either.
NASTY = st.lists(
    st.one_of(
        TEXT,
        st.sampled_from(
            ["\\", "\\n", "\\N", "\\\\N", "\\,", ",", ";", "\r", "\r\n ", "\n\t", "\u2028", "%2C", "^n", "ä" * 80]
        ),
    ),
    max_size=8,
).map("".join)


def _meant(text: str) -> str:
    """Return what is to be read of a text: line breaks are all one, and controls are gone."""
    known = "".join("\n" if sign in "\r\u0085\u2028\u2029" else sign for sign in text.replace("\r\n", "\n"))
    return "".join(sign for sign in known if sign in "\n\t" or (ord(sign) > 31 and ord(sign) != 127))


@settings(max_examples=EXAMPLES)
@given(NASTY, NASTY, NASTY)
def test_every_text_reads_back(summary: str, description: str, location: str) -> None:
    """By the strict reader and by the calendar library alike: long, foreign, full of escapes and line ends."""
    visit = replace(VISIT, summary=summary, description=description, location=location)
    content = calendar_text(summary, "", [replace(EVENT, visit=visit)])
    strict = read(content)
    (event,) = strict.parts
    (known,) = Calendar.from_ical(content).walk("VEVENT")
    assert strict.text("NAME") == strict.text("X-WR-CALNAME") == event.text("SUMMARY") == _meant(summary)
    assert event.parts[0].text("DESCRIPTION") == known["SUMMARY"] == _meant(summary)
    for name, text in (("DESCRIPTION", description), ("LOCATION", location)):
        assert len(event.all(name)) == bool(text)
        assert [unescaped(one) for one in event.all(name)] == [_meant(text)] * bool(text)
        assert known.get(name, "") == _meant(text)


@settings(max_examples=EXAMPLES)
@given(TEXT, TEXT, st.dates(date(1, 1, 1), date(9000, 1, 1)), st.integers(0, 30), st.sampled_from(FeedStatus))
def test_whatever_stands_in_an_event_the_file_is_sound(
    summary: str, description: str, first: date, days: int, status: FeedStatus
) -> None:
    """The reader takes every file, and the end of an event is the day after its last."""
    visit = replace(VISIT, summary=summary, description=description, first=first, last=first + timedelta(days=days))
    (event,) = read(calendar_text(summary, "office@a.example", [replace(EVENT, visit=visit, status=status)])).parts
    assert (event.day("DTEND") - event.day("DTSTART")).days == days + 1
    assert event.day("DTSTART") == first
    assert bool(event.parts) is (status is not FeedStatus.CANCELLED)


def test_an_event_reads_back() -> None:
    """Everything that was put in comes out; the month's end and the exclusive end day are right."""
    calendar = read(calendar_text("Sampling, Anvil", "office@merrow-tarn.example", [EVENT]))
    (event,) = calendar.parts
    assert (calendar.one("METHOD"), calendar.text("NAME")) == ("PUBLISH", "Sampling, Anvil")
    assert (event.day("DTSTART"), event.day("DTEND")) == (date(2027, 2, 27), date(2027, 3, 1))
    assert event.text("SUMMARY") == VISIT.summary
    assert event.text("DESCRIPTION") == VISIT.description
    assert event.text("LOCATION") == VISIT.location
    assert (event.one("SEQUENCE"), event.one("STATUS"), event.one("DTSTAMP")) == ("3", "CONFIRMED", "20270201T000000Z")
    assert event.one("ORGANIZER") == "mailto:office@merrow-tarn.example"
    assert event.parts[0].one("TRIGGER") == "-PT6H"


def test_the_day_is_the_same_in_every_time_zone() -> None:
    """Whole days float: no time of day, no time zone, no UTC mark stands on them."""
    lines = lines_of(calendar_text("n", "", [EVENT]))
    assert "DTSTART;VALUE=DATE:20270227" in lines
    assert not [line for line in lines if "TZID" in line or line.startswith("BEGIN:VTIMEZONE")]
    assert not [line for line in lines if line.startswith("ORGANIZER")]


def test_the_order_of_events_makes_no_difference() -> None:
    """Byte for byte the same for the same events."""
    other = replace(EVENT, uid="a", visit=replace(VISIT, first=date(2027, 1, 1), last=date(2027, 1, 1)))
    assert calendar_text("n", "", [EVENT, other]) == calendar_text("n", "", [other, EVENT])
    assert MEDIA_TYPE == "text/calendar; charset=utf-8; method=PUBLISH"


def test_alarms_ring_before_the_day() -> None:
    """So many hours before its first midnight; nought is at midnight itself."""
    for hours, written in ((0, "P0D"), (6, "-PT6H"), (24, "-P1D"), (96, "-P4D"), (30, "-P1DT6H")):
        calendar = read(calendar_text("n", "", [replace(EVENT, visit=replace(VISIT, alarm_hours=hours))]))
        assert calendar.parts[0].parts[0].one("TRIGGER") == written
    assert not read(calendar_text("n", "", [replace(EVENT, status=FeedStatus.CANCELLED)])).parts[0].parts


def test_the_library_reads_the_days() -> None:
    """Whole days, the stamp of the night, the rank among changes."""
    (event,) = Calendar.from_ical(calendar_text("n", "", [EVENT])).walk("VEVENT")
    assert (event.start, event.end) == (date(2027, 2, 27), date(2027, 3, 1))
    assert (event.stamp, event.sequence) == (datetime(2027, 2, 1, tzinfo=UTC), 3)


@pytest.mark.parametrize(
    ("address", "written"),
    [
        ("a@b.example\r\nX-EVIL:1", "mailto:a@b.example%0D%0AX-EVIL%3A1"),
        ("jörg+post@b.example", "mailto:j%C3%B6rg+post@b.example"),
    ],
)
def test_an_address_cannot_add_a_line(address: str, written: str) -> None:
    """A line break in an organiser's address starts no property; letters are written as RFC 6068 says."""
    (event,) = read(calendar_text("n", address, [EVENT])).parts
    assert event.one("ORGANIZER") == written
    assert not event.all("X-EVIL")


def test_a_night_without_new_feeds_loads_no_calendar_library() -> None:
    """It is loaded where a calendar is written."""
    code = "import sys, soilrota.delivery.ical; sys.exit('icalendar' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
