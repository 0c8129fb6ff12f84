"""Where a task stands."""

from __future__ import annotations

import pytest

from soilrota.model.windows import State
from soilrota.timing import window_of
from tests.timing.making import a_task, day, sampled, spread

REPORTED = sampled("2026-02-20", "2026-03-09")


@pytest.mark.parametrize(
    ("as_of", "state"),
    [
        ("2026-02-20", State.BAGS_OUT),
        ("2026-03-08", State.BAGS_OUT),
        ("2026-03-09", State.RESULTS_IN),
        ("2026-08-20", State.RESULTS_IN),
        ("2026-08-21", State.OPENS_LATER),
        ("2027-01-19", State.OPENS_LATER),
        ("2027-01-20", State.OPEN_TODAY),
        ("2027-03-16", State.OPEN_TODAY),
        ("2027-03-17", State.LAST_DAYS),
        ("2027-03-31", State.LAST_DAYS),
        ("2027-04-01", State.OVERDUE),
        ("2028-02-01", State.OVERDUE),
    ],
)
def test_the_states_of_a_year(as_of: str, state: State) -> None:
    """One task from its sampling until it is overdue, each state on its first and last day."""
    assert window_of(a_task(REPORTED), day(as_of)).state is state


def test_without_results_the_bags_are_out_until_the_next_season() -> None:
    """Bags that never come back are not asked for once the next season is here."""
    task = a_task(sampled("2026-02-20"))
    assert window_of(task, day("2027-01-19")).state is State.BAGS_OUT
    assert window_of(task, day("2027-01-20")).state is State.OPEN_TODAY


def test_a_sampling_from_before_the_records_awaits_nothing() -> None:
    """Its results are not in the book and never will be."""
    task = a_task(sampled("2026-02-20", awaited=False))
    assert window_of(task, day("2026-03-15")).state is State.OPENS_LATER


def test_news_of_results_ends_where_the_next_season_begins() -> None:
    """With an interval of half a year the next season comes before the six months are over."""
    half_yearly = a_task(sampled("2026-10-01", "2026-10-15"), interval=6)
    assert window_of(half_yearly, day("2027-01-19")).state is State.RESULTS_IN
    assert window_of(half_yearly, day("2027-01-20")).state is State.OPEN_TODAY


def test_an_unknown_date_comes_before_everything() -> None:
    """Nothing is said of a task of which the records are not known."""
    assert window_of(a_task(REPORTED, spread("?", "?")), day("2026-03-15")).state is State.NOT_KNOWN


def test_a_gap_inside_the_season_opens_later() -> None:
    """Closed today, open again in the season."""
    task = a_task(REPORTED, spread("2026-11-20"))
    assert window_of(task, day("2027-02-01")).state is State.OPENS_LATER


def test_no_day_left() -> None:
    """Closed until after the season."""
    task = a_task(REPORTED, spread("2027-01-02"))
    assert window_of(task, day("2027-02-01")).state is State.NO_DAY_LEFT
