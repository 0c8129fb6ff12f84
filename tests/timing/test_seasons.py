"""Seasons year by year."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.timing.seasons import (
    anniversary_near,
    due_occurrence,
    first_not_over,
    later_occurrences,
    occurrence,
    occurrences,
)
from tests.timing.making import day, seasons, span

LATE_SUMMER = seasons("01-20..03-31")
OVER_NEW_YEAR = seasons("11-15..02-29")


def test_a_season_that_wraps_ends_in_the_next_year() -> None:
    """15 November to 29 February ends on the last day of February, leap year or not."""
    assert occurrence(OVER_NEW_YEAR[0], 2026) == span("2026-11-15", "2027-02-28")
    assert occurrence(OVER_NEW_YEAR[0], 2027) == span("2027-11-15", "2028-02-29")


def test_occurrences_of_two_spans_come_in_order_of_days() -> None:
    """A season of a spring and an autumn span falls twice a year."""
    twice = seasons("09-01..10-31", "03-01..04-30")
    found = occurrences(twice, 2027, 2028)
    assert [str(one.first) for one in found] == ["2027-03-01", "2027-09-01", "2028-03-01", "2028-09-01"]


@pytest.mark.parametrize(
    ("sampled", "due_on", "first"),
    [
        ("2026-02-20", "2027-02-20", "2027-01-20"),  # the ordinary case
        ("2026-02-20", "2026-08-20", "2027-01-20"),  # half a year: never the season in which it was sampled
        ("2026-01-19", "2027-01-19", "2027-01-20"),  # sampled a day early: the season of the next year is nearer
        ("2026-05-10", "2027-05-10", "2027-01-20"),  # sampled late: 40 days past the season's end, not 255 before
        ("2026-09-10", "2027-09-10", "2028-01-20"),  # 132 days before the next is nearer than 163 after the last
        ("2026-02-20", "2029-02-20", "2029-01-20"),  # three years
    ],
)
def test_the_due_season_is_the_nearest_that_starts_after_the_sampling(sampled: str, due_on: str, first: str) -> None:
    """The occurrence nearest to the last sampling plus the interval, among the later ones."""
    assert due_occurrence(LATE_SUMMER, day(sampled), day(due_on)).first == day(first)


def test_a_tie_between_seasons_goes_to_the_earlier() -> None:
    """10 January to 20 January, 1 February to 11 February: 26 January is six days from both."""
    twice = seasons("01-10..01-20", "02-01..02-11")
    assert due_occurrence(twice, day("2026-01-26"), day("2027-01-26")) == span("2027-01-10", "2027-01-20")


def test_the_first_season_not_over_may_be_open_or_ahead() -> None:
    """On its last day a season is not over; the day after, the next one is asked about."""
    assert first_not_over(LATE_SUMMER, day("2027-03-31")) == span("2027-01-20", "2027-03-31")
    assert first_not_over(LATE_SUMMER, day("2027-04-01")) == span("2028-01-20", "2028-03-31")
    assert first_not_over(OVER_NEW_YEAR, day("2027-02-28")) == span("2026-11-15", "2027-02-28")
    assert first_not_over(LATE_SUMMER, day("2027-03-01"), day("2027-02-01")) == span("2028-01-20", "2028-03-31")


def test_later_seasons_follow_one_another() -> None:
    """The seasons after a day, year after year."""
    found = list(islice(later_occurrences(LATE_SUMMER, day("2027-01-20")), 2))
    assert found == [span("2028-01-20", "2028-03-31"), span("2029-01-20", "2029-03-31")]


@pytest.mark.parametrize(
    ("sampled", "first", "last", "anniversary"),
    [
        ("2026-02-20", "2027-01-20", "2027-03-31", "2027-02-20"),
        ("2026-12-20", "2027-11-15", "2028-02-29", "2027-12-20"),
        ("2026-01-10", "2027-11-15", "2028-02-29", "2028-01-10"),
        ("2024-02-29", "2027-01-20", "2027-03-31", "2027-02-28"),
        ("2024-02-29", "2028-01-20", "2028-03-31", "2028-02-29"),
        ("2026-05-10", "2027-01-20", "2027-03-31", "2027-05-10"),
        ("2026-11-30", "2027-01-20", "2027-03-31", "2026-11-30"),
    ],
)
def test_the_anniversary_is_the_one_nearest_to_the_season(
    sampled: str, first: str, last: str, anniversary: str
) -> None:
    """Inside the season where one is, else the nearest before or after; 29 February reads as 28 in common years."""
    assert anniversary_near(day(sampled), span(first, last)) == day(anniversary)


@given(st.dates(day("2001-01-01"), day("2090-01-01")))
def test_every_day_has_a_season_ahead(some_day) -> None:  # noqa: ANN001
    """Whatever the day, the next season starts within a year and a day of the one before."""
    upcoming = next(later_occurrences(OVER_NEW_YEAR, some_day))
    assert 0 < (upcoming.first - some_day).days <= 366
