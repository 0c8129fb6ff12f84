"""Days on which nobody samples."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.practice import Laboratory
from soilrota.model.windows import Closure, Span, WorkCalendar
from soilrota.problems import Place
from soilrota.timing.work_calendar import closed_by, is_worked, workable_days

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
    spans = workable_days((Span(date(2027, 3, 1), date(2027, 3, 14)),), MONDAY_TO_FRIDAY, None, None)
    assert spans == (Span(date(2027, 3, 1), date(2027, 3, 5)), Span(date(2027, 3, 9), date(2027, 3, 12)))


def test_a_holding_time_takes_days_out() -> None:
    """With two courier days and no receipt on Fridays, a bag that keeps two days is only worth taking on some days."""
    bench = Laboratory("bench", "Bench", "AU", 8, 2, (1, 2, 3, 4), HERE)
    spans = workable_days((Span(date(2027, 2, 8), date(2027, 2, 12)),), MONDAY_TO_FRIDAY, bench, 2)
    assert spans == (Span(date(2027, 2, 8), date(2027, 2, 9)),)


def test_closures_are_cut_to_the_season() -> None:
    """Only the days of the season count, in order, each with its closure."""
    season = Span(date(2027, 1, 20), date(2027, 3, 31))
    away = Closure("leave", Span(date(2027, 1, 1), date(2027, 1, 25)), "summer leave", HERE)
    harvest = Closure("blackout", Span(date(2027, 3, 1), date(2027, 3, 10)), "grape harvest", HERE)
    old = Closure("leave", Span(date(2026, 1, 1), date(2026, 1, 25)), "last year", HERE)
    assert closed_by((harvest, old, away), season) == (
        (Span(date(2027, 1, 20), date(2027, 1, 25)), away),
        (Span(date(2027, 3, 1), date(2027, 3, 10)), harvest),
    )


@given(st.dates(date(2024, 1, 1), date(2029, 12, 31)), st.integers(0, 60), st.sets(st.integers(1, 7)))
def test_workable_days_are_exactly_the_worked_ones(first: date, length: int, weekdays: set[int]) -> None:
    """The spans hold each worked day once and no other, and are maximal."""
    calendar = WorkCalendar(tuple(sorted(weekdays)), "GB", "NIR")
    whole = Span(first, first + timedelta(days=length))
    spans = workable_days((whole,), calendar, None, None)
    listed = [span.first + timedelta(days=offset) for span in spans for offset in range(span.days)]
    days = [first + timedelta(days=offset) for offset in range(length + 1)]
    assert listed == [day for day in days if is_worked(calendar, day)]
    assert all(after.first - before.last > timedelta(days=1) for before, after in pairwise(spans))
