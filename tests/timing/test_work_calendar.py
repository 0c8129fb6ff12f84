"""Days on which nobody samples."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.practice import Laboratory
from soilrota.model.windows import Span, WorkCalendar
from soilrota.problems import Place
from soilrota.timing.day_sets import day_set
from soilrota.timing.laboratory_time import keeps
from soilrota.timing.work_calendar import holidays_in, is_worked, kept_days, worked_days, worked_spans

MONDAY_TO_FRIDAY = WorkCalendar((1, 2, 3, 4, 5), "AU", "VIC")
HERE = Place("practice.yaml", 1, 1)


def test_weekends_and_holidays_are_not_worked() -> None:
    """Saturday, and Labour Day in Victoria on Monday 8 March 2027, are not worked; the Tuesday is."""
    assert not is_worked(MONDAY_TO_FRIDAY, date(2027, 3, 6))
    assert not is_worked(MONDAY_TO_FRIDAY, date(2027, 3, 8))
    assert is_worked(MONDAY_TO_FRIDAY, date(2027, 3, 9))


def test_two_weeks_drawn_out() -> None:
    """1 to 14 March 2027 (Monday to Sunday), holiday on the 8th.

    Mo Tu We Th Fr Sa Su
     o  o  o  o  o  .  .
     .  o  o  o  o  .  .
    """
    days = worked_days(day_set((Span(date(2027, 3, 1), date(2027, 3, 14)),)), MONDAY_TO_FRIDAY)
    assert days.spans() == (Span(date(2027, 3, 1), date(2027, 3, 5)), Span(date(2027, 3, 9), date(2027, 3, 12)))


def test_a_holding_time_takes_days_out() -> None:
    """With two courier days and no receipt on Fridays, a bag that keeps two days is only worth taking on some days."""
    bench = Laboratory("bench", "Bench", "AU", 8, 2, (1, 2, 3, 4), HERE)
    open_days = day_set((Span(date(2027, 2, 8), date(2027, 2, 12)),))
    days = worked_days(kept_days(open_days, bench, 2), MONDAY_TO_FRIDAY)
    assert days.spans() == (Span(date(2027, 2, 8), date(2027, 2, 9)),)


def test_holidays_of_spans() -> None:
    """Public holidays inside the spans, in order, across the year end."""
    spans = (Span(date(2026, 12, 20), date(2027, 1, 10)), Span(date(2027, 3, 1), date(2027, 3, 10)))
    found = holidays_in(spans, MONDAY_TO_FRIDAY)
    assert found == tuple(sorted(found))
    assert set(found) >= {"2026-12-25", "2027-01-01", "2027-03-08"}
    assert holidays_in(spans, WorkCalendar()) == ()


def test_days_that_keep_do_not_ask_who_works() -> None:
    """A Sunday's bag may keep although nobody takes it."""
    bench = Laboratory("bench", "Bench", "AU", 8, 1, (1, 2, 3, 4), HERE)
    week = day_set((Span(date(2027, 2, 8), date(2027, 2, 14)),))
    kept = kept_days(week, bench, 1).spans()
    assert kept == (Span(date(2027, 2, 8), date(2027, 2, 10)), Span(date(2027, 2, 14), date(2027, 2, 14)))
    assert kept_days(week, None, 1) == week


@given(st.dates(date(2024, 1, 1), date(2029, 12, 31)), st.integers(0, 60), st.sets(st.integers(1, 7)))
def test_days_found_are_exactly_the_worked_ones(first: date, length: int, weekdays: set[int]) -> None:
    """The spans hold each worked day once and no other, and are maximal."""
    calendar = WorkCalendar(tuple(sorted(weekdays)), "GB", "NIR")
    whole = Span(first, first + timedelta(days=length))
    spans = worked_days(day_set((whole,)), calendar).spans()
    assert worked_spans((whole,), calendar) == spans
    listed = [span.first + timedelta(days=offset) for span in spans for offset in range(span.days)]
    days = [first + timedelta(days=offset) for offset in range(length + 1)]
    assert listed == [day for day in days if is_worked(calendar, day)]
    assert all(after.first - before.last > timedelta(days=1) for before, after in pairwise(spans))


@given(
    st.dates(date(2024, 1, 1), date(2029, 12, 31)),
    st.integers(0, 40),
    st.integers(0, 5),
    st.sets(st.integers(1, 7), min_size=1),
    st.integers(0, 30),
)
def test_kept_days_are_exactly_those_that_keep(
    first: date, length: int, courier: int, receives: set[int], holding: int
) -> None:
    """The days found a year at once are those that the rule of one day gives, Christmas and Easter included."""
    bench = Laboratory("bench", "Bench", "AU", 8, courier, tuple(sorted(receives)), HERE)
    kept = kept_days(day_set((Span(first, first + timedelta(days=length)),)), bench, holding).spans()
    days = [first + timedelta(days=offset) for offset in range(length + 1)]
    assert [span.first + timedelta(days=number) for span in kept for number in range(span.days)] == [
        day for day in days if keeps(bench, day, holding)
    ]
