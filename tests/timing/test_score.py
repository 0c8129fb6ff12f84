"""The measure by which a day is preferred."""

from __future__ import annotations

from soilrota.timing.score import best_day, score
from tests.timing.making import day, span


def test_the_nearer_day_is_better() -> None:
    """Three days late is better than four days early."""
    target = day("2027-02-20")
    assert score(day("2027-02-23"), target) < score(day("2027-02-16"), target)


def test_of_two_days_equally_far_the_earlier_is_better() -> None:
    """Ties go to the earlier day, whatever the order of the spans."""
    spans = (span("2027-02-23", "2027-03-31"), span("2027-01-20", "2027-02-17"))
    assert best_day(spans, day("2027-02-20")) == day("2027-02-17")


def test_the_target_itself_is_best_where_it_is_open() -> None:
    """A day aimed at that lies in a span is taken."""
    assert best_day((span("2027-01-20", "2027-03-31"),), day("2027-02-20")) == day("2027-02-20")


def test_no_day_has_no_best() -> None:
    """Without a span there is no best day."""
    assert best_day((), day("2027-02-20")) is None
