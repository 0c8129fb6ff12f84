"""Reasons of worked days, holding times, decisions and moisture, with the calendar drawn."""

from __future__ import annotations

from dataclasses import replace

from soilrota.model.moisture import CALENDAR_DAYS, Likelihood, MoistureOutlook, calendar_index
from soilrota.model.practice import Laboratory
from soilrota.model.windows import Closure, DecisionDay, Rule, State, Window, WorkCalendar
from soilrota.problems import Place
from soilrota.timing import window_of
from tests.timing.making import a_task, day, sampled, span

BENCH = Laboratory("bench", "Bench", "AU", 8, 2, (1, 2, 3, 4), Place("laboratories/bench.yaml"))
WEEK = WorkCalendar((1, 2, 3, 4, 5), "AU", "VIC")
HERE = Place("client.yaml", 50)


def facts(window: Window, rule: Rule) -> dict[str, object]:
    """Return the facts of one reason of a window."""
    return dict(next(reason.facts for reason in window.reasons if reason.rule is rule))


def test_a_saturday_anniversary_moves_to_the_friday() -> None:
    """Last sampled 20 February 2026. In 2027 the 20th is a Saturday: Friday the 19th is nearest.

    February 2027   Mo Tu We Th Fr Sa Su
                    15 16 17 18 19 20 21
    """
    task = replace(a_task(sampled("2026-02-20", "2026-03-06")), calendar=WEEK)
    window = window_of(task, day("2027-02-01"))
    assert window.preferred == day("2027-02-19")
    holidays = facts(window, Rule.WORKED_DAYS)["holidays"]
    assert isinstance(holidays, tuple)
    assert set(holidays) >= {"2027-01-26", "2027-03-08", "2027-03-26", "2027-03-29"}


def test_a_decision_is_worked_back_through_the_laboratory() -> None:
    """Decide on Saturday 20 March: the last bag that is in time is taken on Friday the 5th (the 7th is a Sunday).

    March 2027  Mo  Tu  We  Th  Fr | Mo  Tu  We  Th  Fr | Mo  Tu  We  Th  Fr
                 1   2   3   4   5 |  8   9  10  11  12 | 15  16  17  18  19
    Taken Fr 5: on its way Mo 8 and Tu 9, received Tu 9; 10 11 12 15 16 17 18 19 are the eight days: results Fr 19.
    Taken Mo 8: on its way Tu 9 and We 10, received We 10, results Mo 22: too late. (Labour Day is Victoria's alone.)
    """
    decision = DecisionDay(day("2027-03-20"), "order of the superphosphate", HERE)
    task = replace(a_task(sampled("2026-03-20", "2026-04-06")), calendar=WEEK, laboratory=BENCH, decisions=(decision,))
    window = window_of(task, day("2027-02-01"))
    assert window.last_useful == day("2027-03-07")
    assert window.on_time[-1].last == day("2027-03-05")
    assert window.preferred == day("2027-03-05")
    assert window.state is State.OPEN_TODAY
    late = window_of(task, day("2027-03-10"))
    assert late.state is State.LATE_FOR_DECISION
    assert late.preferred is None
    assert late.workable
    assert facts(late, Rule.LATE)["what"] == "order of the superphosphate"


def test_leave_and_blackouts_close_days_and_say_so() -> None:
    """The practice is away to the 25th of January; the client harvests in March."""
    closures = (
        Closure("leave", span("2026-12-24", "2027-01-25"), "summer leave", Place("practice.yaml", 30)),
        Closure("blackout", span("2027-03-01", "2027-04-05"), "grape harvest", HERE),
    )
    task = replace(a_task(), calendar=WorkCalendar(closures=closures))
    window = window_of(task, day("2027-01-01"))
    assert window.season_open == (span("2027-01-26", "2027-02-28"),)
    assert facts(window, Rule.BLACKOUT)["reason"] == "grape harvest"
    assert {place for _, place in window.closed} == {closures[0].place, closures[1].place}


def test_nitrate_is_taken_on_days_from_which_it_arrives_in_time() -> None:
    """Two courier days and receipt from Monday to Thursday: 48 hours are kept on Mondays and Tuesdays alone."""
    task = replace(a_task(sampled("2026-02-24", "2026-03-09")), calendar=WEEK, laboratory=BENCH, holding_days=2)
    window = window_of(task, day("2027-02-01"))
    assert window.preferred == day("2027-02-23")
    kept = facts(window, Rule.HOLDING)["weekdays"]
    assert isinstance(kept, tuple)
    assert set(kept) >= {"monday", "tuesday"}
    assert "friday" not in kept


def test_moisture_ranks_days_within_the_tolerance_alone() -> None:
    """Mostly moist only from 10 March on: within 30 days of 20 February that wins; within 10 days it cannot."""
    moist_from = calendar_index(day("2027-03-10"))
    likelihoods = tuple(
        Likelihood.MOSTLY if number >= moist_from else Likelihood.SELDOM for number in range(CALENDAR_DAYS)
    )
    outlook = MoistureOutlook("merrow", 12, "moist", likelihoods, None)
    task = replace(a_task(sampled("2026-02-20", "2026-03-06")), moisture=outlook)
    assert window_of(task, day("2027-02-01")).preferred == day("2027-03-10")
    assert window_of(replace(task, tolerance_days=10), day("2027-02-01")).preferred == day("2027-02-20")
    assert window_of(task, day("2027-02-01")).season_open == (span("2027-01-20", "2027-03-31"),)
    assert facts(window_of(task, day("2027-02-01")), Rule.MOISTURE)["likelihood"] == "mostly"


def test_a_season_without_a_worked_day_has_no_day_left() -> None:
    """A single Sunday is open and nobody works on it; the ways out are listed."""
    closures = (
        Closure("blackout", span("2027-01-01", "2027-02-20"), "lambing", HERE),
        Closure("blackout", span("2027-02-22", "2027-04-30"), "lambing", HERE),
    )
    task = replace(a_task(), calendar=WorkCalendar((1, 2, 3, 4, 5), "", "", closures))
    window = window_of(task, day("2027-01-10"))
    assert window.open == (span("2027-02-21", "2027-02-21"),)
    assert window.state is State.NO_DAY_LEFT
    assert window.ways_out
