"""Calendar text, read back by a strict reader that knows nothing of the writer."""

from __future__ import annotations

import os
from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.delivery.ical import MEDIA_TYPE, calendar_text, escaped, folded
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


@settings(max_examples=EXAMPLES)
@given(TEXT)
def test_folding_parts_no_character_and_loses_none(text: str) -> None:
    """Lines of at most 75 bytes, each whole UTF-8, that join to what they were."""
    line = f"SUMMARY:{escaped(text)}"
    assert lines_of(f"{folded(line)}\r\n".encode()) == [line]


@settings(max_examples=EXAMPLES)
@given(TEXT)
def test_escaping_gives_back_the_text(text: str) -> None:
    """What is escaped reads as it was, but for line breaks, which are all one, and controls, which are gone."""
    value = escaped(text)
    assert not {"\r", "\n"} & set(value)
    known = "".join("\n" if sign in "\r\u0085\u2028\u2029" else sign for sign in text.replace("\r\n", "\n"))
    assert unescaped(value) == "".join(
        sign for sign in known if sign in "\n\t" or (ord(sign) > 31 and ord(sign) != 127)
    )


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


def test_an_address_cannot_add_a_line() -> None:
    """A line break in an organiser's address starts no property."""
    calendar = read(calendar_text("n", "a@b.example\r\nX-EVIL:1", [EVENT]))
    assert not calendar.parts[0].all("X-EVIL")
