"""The measure by which a day is preferred."""

from __future__ import annotations

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st

from soilrota.model.moisture import CALENDAR_DAYS, Likelihood, MoistureOutlook
from soilrota.timing.day_sets import day_set
from soilrota.timing.score import best_day
from tests.timing.making import day, span


def test_the_nearer_day_is_better() -> None:
    """Three days late is better than four days early."""
    spans = (span("2027-01-20", "2027-02-16"), span("2027-02-23", "2027-03-31"))
    assert best_day(day_set(spans), day("2027-02-20")) == day("2027-02-23")


def test_of_two_days_equally_far_the_earlier_is_better() -> None:
    """Ties go to the earlier day, whatever the order of the spans."""
    spans = (span("2027-02-23", "2027-03-31"), span("2027-01-20", "2027-02-17"))
    assert best_day(day_set(spans), day("2027-02-20")) == day("2027-02-17")


def test_the_target_itself_is_best_where_it_is_open() -> None:
    """A day aimed at that lies in a span is taken."""
    assert best_day(day_set((span("2027-01-20", "2027-03-31"),)), day("2027-02-20")) == day("2027-02-20")


def test_no_day_has_no_best() -> None:
    """Without a span there is no best day."""
    assert best_day(day_set(()), day("2027-02-20")) is None


@given(st.lists(st.sampled_from(Likelihood), min_size=CALENDAR_DAYS, max_size=CALENDAR_DAYS), st.integers(0, 400))
def test_moisture_ranks_every_day_of_leap_and_common_years(likelihoods: list[Likelihood], reach: int) -> None:
    """Within the tolerance the likeliest day wins, then the nearest, around the 29 February of 2028."""
    outlook = MoistureOutlook("merrow", 12, "moist", tuple(likelihoods), None)
    whole, target = span("2027-02-20", "2028-03-10"), day("2028-02-25")
    comparable = span("2028-02-01", "2028-03-05")
    wanted = day_set((whole,)).until(whole.first + timedelta(days=reach))
    near = wanted.since(comparable.first).until(comparable.last)
    near = near if near.bits else wanted
    days = [one.first + timedelta(days=number) for one in near.spans() for number in range(one.days)]
    best = min(days, key=lambda one: (-outlook.on(one), abs((one - target).days), one))
    assert best_day(wanted, target, outlook, comparable) == best
