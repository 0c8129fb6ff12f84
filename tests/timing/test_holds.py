"""Until when an answer stands; random tasks are in test_windows_oracle.py."""

from __future__ import annotations

import pytest

from soilrota.model.practice import AnalysisWait
from soilrota.timing import same_but_for_passed_days, window_of
from tests.timing.making import a_task, day, sampled, spread

TASK = a_task(sampled("2026-02-20", "2026-03-09"))


@pytest.mark.parametrize(
    ("as_of", "until"),
    [
        ("2026-02-25", "2026-03-08"),  # until the report
        ("2026-03-09", "2026-08-20"),  # results are news for six months
        ("2026-08-21", "2027-01-19"),  # until the season opens
        ("2027-01-20", "2027-02-20"),  # until the best day has passed
        ("2027-02-21", "2027-03-16"),  # until the last days; the preferred day moves with today
        ("2027-03-17", "2027-03-22"),  # until the tolerance of 30 days is used up
        ("2027-03-23", "2027-03-31"),  # until the season ends
        ("2027-04-01", "2027-04-29"),  # late by 0 months, until it is one
    ],
)
def test_the_breakpoints_of_a_year(as_of: str, until: str) -> None:
    """One task through a year: what changes its answer next."""
    assert window_of(TASK, day(as_of)).holds_until == day(until)


def test_a_plan_holds_until_its_last_day() -> None:
    """The day after its last planned day a plan has passed, and that is said; until then it closes what it closed."""
    task = a_task(sampled("2026-02-20", "2026-03-09"), spread("2027-02-01", "2027-02-03", standing="planned", months=0))
    assert window_of(task, day("2027-01-25")).holds_until == day("2027-01-31")
    assert window_of(task, day("2027-02-01")).holds_until == day("2027-02-03")


def test_an_analysis_that_becomes_ready_ends_the_answer() -> None:
    """The preferred day moves with today until pH is ready, and no further under the same reasons."""
    lime = spread("2026-03-05", material_class="lime")
    task = a_task(sampled("2026-02-20", "2026-03-09"), lime, waits=(AnalysisWait("lime", ("ph",), 12, "a handbook"),))
    assert window_of(task, day("2027-02-25")).holds_until == day("2027-03-04")


def test_only_passed_days_are_overlooked() -> None:
    """An answer that differs in a day to come is another answer."""
    earlier, later = window_of(TASK, day("2027-02-21")), window_of(TASK, day("2027-02-25"))
    assert same_but_for_passed_days(earlier, later, day("2027-02-25"))
    assert not same_but_for_passed_days(earlier, later._replace(open=()), day("2027-02-25"))
    assert not same_but_for_passed_days(earlier, window_of(TASK, day("2027-03-17")), day("2027-03-17"))


def test_the_best_day_of_a_way_out_ends_the_answer() -> None:
    """While a plan could still be moved the season's remaining days are offered, the best of them named."""
    task = a_task(sampled("2026-02-01", "2026-03-09"), spread("2027-01-10", "2027-03-20", standing="planned"))
    earlier, later = window_of(task, day("2027-02-10")), window_of(task, day("2027-02-12"))
    assert earlier.ways_out[-1].best == day("2027-02-10")
    assert later.ways_out[-1].best == day("2027-02-12")
    assert earlier.holds_until == day("2027-02-10")
    assert not same_but_for_passed_days(earlier, later, day("2027-02-12"))
