"""What to do when the season has no open day left."""

from __future__ import annotations

from soilrota.model.windows import WayOut, WayOutKind
from soilrota.problems import Place
from soilrota.timing import window_of
from tests.timing.making import LOG, a_task, day, sampled, span, spread

LAST = sampled("2026-02-20", "2026-03-09")
LAST_YEARS_PLAN = spread("2027-01-10", "2027-01-12", standing="planned", line=7)


def test_a_plan_in_the_way_leaves_four_ways_out() -> None:
    """Before it, after its gap, next season, or move it: each with its days, its best day and its cost."""
    window = window_of(a_task(LAST, LAST_YEARS_PLAN), day("2026-12-01"))
    assert window.open == ()
    assert window.ways_out == (
        WayOut(WayOutKind.BEFORE_PLANNED, (span("2026-12-01", "2027-01-09"),), day("2027-01-09"), 11, 0),
        WayOut(WayOutKind.AFTER_GAP, (span("2027-04-12", "2027-05-11"),), day("2027-04-12"), 12, 0),
        WayOut(WayOutKind.NEXT_SEASON, (span("2028-01-20", "2028-03-31"),), day("2028-02-20"), 0, 10),
        WayOut(WayOutKind.MOVE_PLANNED, (span("2027-01-20", "2027-03-31"),), day("2027-02-20"), 0, 0, (Place(LOG, 7),)),
    )


def test_what_is_done_cannot_be_moved() -> None:
    """Two ways remain after spreading that happened."""
    window = window_of(a_task(LAST, spread("2027-01-10")), day("2027-02-01"))
    assert [way.kind for way in window.ways_out] == [WayOutKind.AFTER_GAP, WayOutKind.NEXT_SEASON]


def test_a_plan_that_passed_cannot_be_moved() -> None:
    """Someone must say whether it happened."""
    window = window_of(a_task(LAST, LAST_YEARS_PLAN), day("2027-01-13"))
    assert [way.kind for way in window.ways_out] == [WayOutKind.AFTER_GAP, WayOutKind.NEXT_SEASON]


def test_a_plan_is_moved_only_where_it_helps() -> None:
    """Where spreading that happened closes the whole season too, moving the plan frees no day."""
    window = window_of(a_task(LAST, LAST_YEARS_PLAN, spread("2027-01-02")), day("2027-01-05"))
    assert WayOutKind.MOVE_PLANNED not in {way.kind for way in window.ways_out}


def test_days_before_the_plan_keep_clear_of_other_gaps() -> None:
    """An earlier gap takes its days out of those before the plan."""
    window = window_of(a_task(LAST, LAST_YEARS_PLAN, spread("2026-09-20")), day("2026-12-01"))
    assert window.ways_out[0].spans == (span("2026-12-20", "2027-01-09"),)


def test_a_long_gap_goes_on_to_the_first_season_with_a_day() -> None:
    """Where next year is closed too, the year after is offered."""
    window = window_of(a_task(LAST, spread("2027-01-10", months=24)), day("2027-02-01"))
    assert [way.kind for way in window.ways_out] == [WayOutKind.NEXT_SEASON]
    assert window.ways_out[0].spans == (span("2029-01-20", "2029-03-31"),)
    assert window.ways_out[0].months_late == 22


def test_lateness_of_an_overdue_task_counts_from_the_season_it_missed() -> None:
    """A task missed in 2026 and closed in 2027 is two years late in 2028."""
    window = window_of(a_task(sampled("2025-02-20"), spread("2027-01-02")), day("2027-02-01"))
    late = {way.kind: way.months_late for way in window.ways_out}
    assert late == {WayOutKind.AFTER_GAP: 12, WayOutKind.NEXT_SEASON: 22}


def test_an_open_day_needs_no_way_out() -> None:
    """Ways out are for empty seasons."""
    assert window_of(a_task(LAST), day("2027-02-01")).ways_out == ()


def test_nothing_is_offered_where_nothing_is_known() -> None:
    """An unknown date offers no day anywhere."""
    assert window_of(a_task(LAST, spread("?", "?")), day("2027-02-01")).ways_out == ()
