"""What a worker makes of the reminders of a night."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import icalendar
import pytest

from soilrota.batch.remind_work import RemindAnswer, RemindFaultError, RemindOrder, make_reminders
from soilrota.delivery.gathering import said_by
from tests.documents.made import BOOK
from tests.example_book import copy_example

DAY = date(2027, 2, 15)
CLIENTS = ("anvil-creek", "glen-tarn", "juniper-start")


def order(book: Path = BOOK, **changes: object) -> RemindOrder:
    """Return an order for a few clients of the example book."""
    fields = {"root": book, "out": book.parent / "out", "client": "reminders", "as_of": DAY, "clients": CLIENTS}
    return RemindOrder(**{**fields, **changes})  # type: ignore[arg-type]


@pytest.fixture(scope="module")
def made() -> RemindAnswer:
    """Return the answer for the example book."""
    return make_reminders(order())


def test_one_message_a_person(made: RemindAnswer) -> None:
    """Nobody gets two; each says something, and none says a code."""
    people = [message.key.person for message in made.messages]
    assert people
    assert len(people) == len(set(people))
    assert all(message.about and "None" not in message.text and "_" not in message.subject for message in made.messages)
    assert made.faults == ()


def test_what_was_said_is_not_said_again(made: RemindAnswer) -> None:
    """With all of it said, the same night has no message."""
    again = make_reminders(order(said=tuple(said_by(made.messages))))
    assert again.messages == ()


def test_feeds_are_calendars_that_others_can_read(made: RemindAnswer) -> None:
    """An independent library reads each feed; an all-day event ends on the day after its last (RFC 5545)."""
    events = 0
    for feed in made.feeds.values():
        calendar = icalendar.Calendar.from_ical(feed.content)
        assert not calendar.errors
        for event in calendar.walk("VEVENT"):
            assert event["ORGANIZER"] == "mailto:office@merrow-tarn.example"
            events += 1
            assert event.decoded("dtend") > event.decoded("dtstart")
            assert str(event["uid"])
    assert events


def test_the_same_order_gives_the_same_bytes(made: RemindAnswer) -> None:
    """Messages and feeds alike."""
    assert make_reminders(order()) == made


def test_a_client_that_cannot_be_read_costs_itself_alone(tmp_path: Path) -> None:
    """It is named; the others are told."""
    book = copy_example(tmp_path / "book")
    (book / "clients" / "anvil-creek" / "client.yaml").write_text("name: [", encoding="utf-8")
    answer = make_reminders(order(book))
    assert answer.faults == ("nobody is reminded for anvil-creek: its files have errors",)
    assert "client/glen-tarn" in answer.feeds


def test_shared_files_with_errors(tmp_path: Path) -> None:
    """Nothing is made, and it is said why."""
    book = copy_example(tmp_path / "book")
    (book / "practice.yaml").write_text("name: [", encoding="utf-8")
    with pytest.raises(RemindFaultError, match=r"practice\.yaml"):
        make_reminders(order(book))


def test_another_language_tells_nobody_again_and_keeps_every_event(made: RemindAnswer, tmp_path: Path) -> None:
    """Practice and clients take to Spanish: no message a second time, and the same events with other words."""
    book = copy_example(tmp_path / "book")
    for name in CLIENTS:
        file = book / "clients" / name / "client.yaml"
        file.write_text(re.sub(r"(?m)^language: .*$", "language: es", file.read_text(encoding="utf-8")), "utf-8")
    practice = book / "practice.yaml"
    practice.write_text(f"{practice.read_text(encoding='utf-8')}\nlanguage: es\n", encoding="utf-8")
    feeds = {name: feed.events for name, feed in made.feeds.items()}
    answer = make_reminders(order(book, said=tuple(said_by(made.messages)), feeds=feeds))
    assert answer.messages == ()
    for name, events in feeds.items():
        assert {one["uid"] for one in answer.feeds[name].events} == {one["uid"] for one in events}
    spanish = make_reminders(order(book))
    assert [one.about for one in spanish.messages] == [one.about for one in made.messages]
    assert all('lang="es"' in one.html for one in spanish.messages)
