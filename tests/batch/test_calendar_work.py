"""The worker that makes the field calendar."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.calendar_work import CALENDAR_CSV, CALENDAR_PDF, CalendarFaultError, crew_of, make_calendar
from soilrota.batch.values import Order
from soilrota.book import load_shared
from tests.acceptance.small_book import edit
from tests.documents.made import BOOK

DAY = date(2027, 2, 15)
VISIT = {
    "visit": "alder-farm/home/1",
    "client": "alder-farm",
    "client_name": "Alder Farm",
    "farm": "home",
    "farm_name": "Home",
    "zones": "Ridge; Flat",
    "longitude": "143.5",
    "latitude": "-37.3",
    "minutes": "120",
    "days": "../2027-03-31",
    "preferred": "2027-02-22",
    "last_useful": "",
    "people": "",
}
LATER = {**VISIT, "visit": "alder-farm/home/2", "days": "2027-04-01/2027-04-09", "preferred": "2027-04-02"}
FAR = {**VISIT, "visit": "far/home/1", "longitude": "10", "latitude": "10", "days": "2027-02-20/2027-02-24"}


def _made(*visits: dict[str, str], day: date = DAY) -> tuple[list[dict[str, str]], date | None, bytes]:
    """Return the rows of the table, until when the answer holds, and the PDF."""
    answer = make_calendar(Order(BOOK, BOOK, "field calendar", day, visits=visits))
    files = {document.name: document.content or b"" for document in answer.documents}
    rows = list(csv.DictReader(io.StringIO(files[CALENDAR_CSV].decode(), newline="")))
    return rows, answer.holds_until, files[CALENDAR_PDF]


def test_a_visit_gets_a_day_and_a_person() -> None:
    """On a worked day of its window, near its best day; the answer holds until then; the same input, the same bytes."""
    rows, holds, pdf = _made(VISIT, LATER)
    assert [(row["client_name"], row["person"]) for row in rows] == [("Alder Farm", "ned-marlow")] * 2
    days = [date.fromisoformat(row["day"]) for row in rows]
    assert abs((days[0] - date(2027, 2, 22)).days) <= 3
    assert holds == days[0]
    assert pdf.startswith(b"%PDF")
    assert _made(LATER, VISIT)[::2] == (rows, pdf)


def test_a_visit_that_nobody_can_make_is_said() -> None:
    """It has a row without a day and with the reason, and the answer holds while it could still be made."""
    rows, holds, _ = _made(FAR)
    assert [(row["day"], row["person"]) for row in rows] == [("", "")]
    assert "longer than anybody's day" in rows[0]["why"]
    assert holds == date(2027, 2, 24)


def test_only_those_who_may_make_a_visit_do() -> None:
    """The client's file names them."""
    rows, _, _ = _made({**VISIT, "longitude": "140.6", "people": "lou-perrin"}, {**LATER, "people": "ruth-aske"})
    assert [(row["person"], bool(row["why"])) for row in rows] == [("lou-perrin", False), ("", True)]


def test_no_visits_are_a_calendar_too() -> None:
    """A header alone, and a PDF that says so."""
    rows, holds, pdf = _made()
    assert (rows, holds) == ([], date.max)
    assert pdf.startswith(b"%PDF")


def test_who_samples() -> None:
    """Samplers with a base, by id; advisers and the office stay at home."""
    shared, _ = load_shared(BOOK)
    assert shared is not None
    people = [person.id for person in crew_of(shared.practice)]
    assert people == sorted(people)
    assert "ned-marlow" in people
    assert not {"mara-ellis", "front-desk"} & set(people)


def test_a_practice_that_broke_in_the_night(book: Path) -> None:
    """The calendar is not made from files with errors."""
    edit(book / "practice.yaml", "time_zone:", "time_zoan:")
    with pytest.raises(CalendarFaultError, match="got errors"):
        make_calendar(Order(book, book, "field calendar", DAY))
