"""Which season is asked about, and which day is aimed at."""

from __future__ import annotations

from soilrota.timing.frame import frame_of, last_sampling
from tests.timing.making import a_task, day, sampled, span, spread


def test_a_first_year_task_aims_at_the_middle_of_the_season_now_open() -> None:
    """Never sampled: the season open now, or else the next; its middle."""
    frame = frame_of(a_task(), day("2027-03-31"))
    assert frame.season == frame.due == span("2027-01-20", "2027-03-31")
    assert frame.target == day("2027-02-24")
    assert frame_of(a_task(), day("2027-04-01")).season.first == day("2028-01-20")


def test_a_missed_season_makes_the_task_overdue() -> None:
    """The due season stays named; the next one is asked about; lateness counts in whole months."""
    task = a_task(sampled("2025-02-20"))
    assert frame_of(task, day("2026-03-31")).overdue_months is None
    frame = frame_of(task, day("2026-04-01"))
    assert (frame.due, frame.season) == (span("2026-01-20", "2026-03-31"), span("2027-01-20", "2027-03-31"))
    assert frame.overdue_months == 0
    assert frame_of(task, day("2026-04-29")).overdue_months == 0
    assert frame_of(task, day("2026-04-30")).overdue_months == 1
    assert frame_of(task, day("2027-02-15")).overdue_months == 10


def test_samplings_and_reports_after_the_as_of_date_are_not_known_yet() -> None:
    """Only what was known on the day counts."""
    task = a_task(sampled("2026-02-20", "2026-03-09"), sampled("2027-02-18", "2027-03-05", line=9))
    assert last_sampling(task, day("2026-02-19")) is None
    before_report, after_report = last_sampling(task, day("2026-03-08")), last_sampling(task, day("2026-03-09"))
    assert before_report is not None
    assert before_report.reported is None
    assert after_report is not None
    assert after_report.reported == day("2026-03-09")


def test_free_days_are_those_that_nothing_closes() -> None:
    """Days closed by any record are not free."""
    frame = frame_of(a_task(spread("2026-11-20"), spread("2027-03-10")), day("2027-01-25"))
    assert frame.free((frame.season,)) == (span("2027-02-20", "2027-03-09"),)
    assert frame.season_free() == frame.free((frame.season,))
