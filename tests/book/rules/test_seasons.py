"""Spans of seasons, against days listed one by one."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.book.rules.seasons import days_of
from soilrota.model.practice import MonthDay, MonthDaySpan
from tests.book.small_book import Book

A_DAY = st.dates(date(2024, 1, 1), date(2024, 12, 31))


@given(first=A_DAY, last=A_DAY)
def test_days_of_a_span(first: date, last: date) -> None:
    """Walking day by day round a leap year from the first day to the last gives the same days."""
    walked = {first}
    day = first
    while day != last:
        day = day + timedelta(days=1) if day < date(2024, 12, 31) else date(2024, 1, 1)
        walked.add(day)
    span = MonthDaySpan(MonthDay(first.month, first.day), MonthDay(last.month, last.day))
    assert days_of(span) == {MonthDay(day.month, day.day) for day in walked}


@pytest.mark.parametrize(
    ("spans", "overlap"),
    [
        ("[{first: 01-20, last: 03-31}, {first: 03-31, last: 04-10}]", True),
        ("[{first: 01-20, last: 03-31}, {first: 04-01, last: 04-10}]", False),
        ("[{first: 11-20, last: 01-31}, {first: 01-05, last: 01-10}]", True),
        ("[{first: 11-20, last: 01-31}, {first: 02-01, last: 02-10}]", False),
    ],
)
def test_spans_apart(book: Book, spans: str, overlap: bool) -> None:
    """Spans of a hemisphere have no day in common, over the year end too."""
    book.edit("practice.yaml", "southern: [{first: 01-20, last: 03-31}]", f"southern: {spans}")
    assert [problem.code for problem in book.shared_problems()] == (["spans-overlap"] if overlap else [])


def test_a_season_without_days(book: Book) -> None:
    """A season with no span on either hemisphere is refused."""
    book.edit("practice.yaml", "    southern: [{first: 06-01, last: 07-31}]\n", "")
    assert book.only(shared=True).place.file == "practice.yaml"


def test_a_season_of_the_other_hemisphere(book: Book) -> None:
    """A zone cannot use a protocol whose season has no days on the client's side."""
    book.edit("protocols.yaml", "season: late-summer", "season: midwinter")
    book.edit("client.yaml", "hemisphere: southern", "hemisphere: northern")
    assert [problem.code for problem in book.problems()] == ["season-not-here"] * 2
