"""From sampling to results and back from a decision."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.practice import Laboratory
from soilrota.problems import Place
from soilrota.timing.laboratory_time import is_working_day, keeps, last_useful_day, receipt_day, results_day


def laboratory(turnaround: int = 8, courier: int = 2, receives: tuple[int, ...] = (1, 2, 3, 4)) -> Laboratory:
    """Return a laboratory in Australia."""
    return Laboratory("bench", "Bench", "AU", turnaround, courier, receives, Place("laboratories/bench.yaml"))


def test_a_week_drawn_out() -> None:
    """Sampled Wednesday 10 February 2027: courier Thursday and Friday, received Monday 15, results eight days on.

    We10 Th11 Fr12 | Mo15 received | 16 17 18 19 | 22 23 24 | Th25 is the eighth working day after receipt.
    """
    assert receipt_day(laboratory(), date(2027, 2, 10)) == date(2027, 2, 15)
    assert results_day(laboratory(), date(2027, 2, 10)) == date(2027, 2, 25)


def test_easter_closes_the_laboratory() -> None:
    """Good Friday 26 March and Easter Monday 29 March 2027 are no working days for courier or laboratory."""
    assert not is_working_day(laboratory().country, date(2027, 3, 26))
    assert receipt_day(laboratory(courier=1), date(2027, 3, 25)) == date(2027, 3, 30)


def test_without_a_courier_day_the_bag_is_handed_in() -> None:
    """No courier days: received on the day itself when the laboratory receives on it."""
    assert receipt_day(laboratory(courier=0), date(2027, 2, 10)) == date(2027, 2, 10)
    assert receipt_day(laboratory(courier=0), date(2027, 2, 12)) == date(2027, 2, 15)


def test_no_laboratory_leaves_the_decision_day() -> None:
    """Without a laboratory nothing is taken off."""
    assert last_useful_day(None, date(2027, 3, 20)) == date(2027, 3, 20)
    assert keeps(None, date(2027, 3, 20), 2)


@pytest.mark.parametrize(
    ("sampled", "kept"),
    [(date(2027, 2, 8), True), (date(2027, 2, 9), True), (date(2027, 2, 10), False), (date(2027, 2, 14), True)],
)
def test_holding_time_of_two_days(sampled: date, kept: bool) -> None:
    """48 hours for nitrate (British Columbia, soil nutrient testing): a Wednesday's bag waits over the weekend."""
    assert keeps(laboratory(), sampled, 2) is kept


@given(
    st.dates(date(2024, 1, 1), date(2030, 12, 31)),
    st.integers(0, 20),
    st.integers(0, 5),
    st.sets(st.integers(1, 5), min_size=1),
)
def test_last_useful_day_is_the_last_that_fits(
    decision: date, turnaround: int, courier: int, receives: set[int]
) -> None:
    """The day found fits and no later one does, looking at every day of the two months before the decision."""
    bench = laboratory(turnaround, courier, tuple(sorted(receives)))
    fitting = [
        day for day in (decision - timedelta(days=back) for back in range(75)) if results_day(bench, day) <= decision
    ]
    assert last_useful_day(bench, decision) == max(fitting)


@given(st.dates(date(2024, 1, 1), date(2030, 12, 31)), st.integers(0, 10), st.integers(0, 4))
def test_a_later_sampling_never_gives_earlier_results(sampled: date, turnaround: int, courier: int) -> None:
    """The forward rule never goes back in time, which the search for the last useful day relies on."""
    bench = laboratory(turnaround, courier)
    assert results_day(bench, sampled) <= results_day(bench, sampled + timedelta(days=1))
    assert results_day(bench, sampled) >= receipt_day(bench, sampled) >= sampled
