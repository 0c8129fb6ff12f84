"""Sets of days as whole numbers equal sets of days."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.windows import Span
from soilrota.timing.day_sets import day_set, over_years, weekdays_in
from soilrota.timing.spans import union

DAYS = st.dates(date(2023, 1, 1), date(2029, 12, 31))
SPANS = st.lists(
    st.tuples(st.dates(date(2025, 11, 1), date(2027, 3, 1)), st.integers(0, 90)).map(
        lambda drawn: Span(drawn[0], drawn[0] + timedelta(days=drawn[1]))
    ),
    max_size=5,
)


def listed(spans: list[Span] | tuple[Span, ...]) -> set[date]:
    """Return the days of spans."""
    return {span.first + timedelta(days=number) for span in spans for number in range(span.days)}


@given(SPANS, DAYS, DAYS)
def test_sets_are_cut_like_sets(spans: list[Span], day: date, other: date) -> None:
    """Spans go in and come out tidy, and a set is cut before a day, after one, and at both ends."""
    days, every = day_set(spans), listed(spans)
    assert days.spans() == union(spans)
    assert listed(days.since(day).spans()) == {one for one in every if one >= day}
    assert listed(days.until(day).spans()) == {one for one in every if one <= day}
    assert listed(days.between(day, other).spans()) == {one for one in every if day <= one <= other}
    assert days.weekdays() == {one.isoweekday() for one in every}


@given(SPANS, DAYS)
def test_the_nearest_day_is_the_earlier_of_two(spans: list[Span], target: date) -> None:
    """It is what a look at every day gives."""
    nearest = min(listed(spans), key=lambda day: (abs((day - target).days), day), default=None)
    assert day_set(spans).nearest(target) == nearest


@given(SPANS, st.sets(st.integers(1, 7)))
def test_days_of_a_year_are_taken_from_every_year(spans: list[Span], weekdays: set[int]) -> None:
    """A rule that is known year by year cuts a set that crosses years."""
    among = day_set(spans).among(partial(weekdays_in, weekdays=weekdays))
    assert listed(among.spans()) == {day for day in listed(spans) if day.isoweekday() in weekdays}


def test_the_calendar_has_an_end() -> None:
    """Days after the last of the calendar belong to no year, and cost no fault."""
    every_day = partial(weekdays_in, weekdays=range(1, 8))
    assert over_years(every_day, 9999, 800).bit_length() == 365
    assert over_years(every_day, 2027, 400).bit_length() == 365 + 366
    last = Span(date(9999, 12, 20), date.max)
    assert day_set((last,)).among(every_day).spans() == (last,)


def test_an_empty_set_has_nothing() -> None:
    """No day, no span, no nearest day."""
    none = day_set(())
    assert none.spans() == ()
    assert none.nearest(date(2027, 1, 1)) is None
    assert none.since(date(2027, 1, 1)).until(date(2027, 1, 1)).bits == 0
