"""Reasons: the rules in their order, with records and facts."""

from __future__ import annotations

from soilrota.model.practice import AnalysisWait
from soilrota.model.windows import Reason, Rule
from soilrota.problems import Place
from soilrota.timing import window_of
from tests.timing.making import LOG, a_task, day, sampled, span, spread

LAST = sampled("2026-02-20", "2026-03-09")
AS_OF = day("2027-01-25")


def rules(reasons: tuple[Reason, ...]) -> list[Rule]:
    """Return the rules that speak, in order."""
    return [reason.rule for reason in reasons]


def test_the_plain_case_names_sampling_season_and_anniversary() -> None:
    """Last sampling, due season, season, anniversary: with their dates."""
    task = a_task(LAST)
    assert window_of(task, AS_OF).reasons == (
        Reason(Rule.SAMPLED, LAST.place, facts={"day": LAST.day, "bags": (), "reported": day("2026-03-09")}),
        Reason(
            Rule.DUE_SEASON,
            task.place,
            facts={
                "due_on": day("2027-02-20"),
                "interval_months": 12,
                "season": "late-summer",
                "label": "2027",
                "first": day("2027-01-20"),
                "last": day("2027-03-31"),
            },
        ),
        Reason(
            Rule.SEASON,
            task.place,
            facts={"season": "late-summer", "label": "2027", "first": day("2027-01-20"), "last": day("2027-03-31")},
        ),
        Reason(Rule.ANNIVERSARY, LAST.place, facts={"day": day("2027-02-20"), "target": day("2027-02-20")}),
    )


def test_a_first_year_task_says_so() -> None:
    """Never sampled, the season, its middle."""
    assert rules(window_of(a_task(), AS_OF).reasons) == [Rule.NEVER_SAMPLED, Rule.SEASON, Rule.MIDDLE_OF_SEASON]


def test_an_overdue_task_says_how_late_it_is() -> None:
    """Lateness stands between the season that was missed and the one that comes."""
    reasons = window_of(a_task(sampled("2025-02-20", awaited=False)), day("2026-05-15")).reasons
    assert rules(reasons)[:4] == [Rule.SAMPLED, Rule.DUE_SEASON, Rule.OVERDUE, Rule.SEASON]
    assert reasons[2].facts == {"months": 1, "label": "2026", "last": day("2026-03-31")}


def test_an_application_is_named_with_the_days_it_took() -> None:
    """The row of the log, and the days of the season it closes; others are not named."""
    task = a_task(LAST, spread("2026-11-20", line=5), spread("2025-11-20", line=4))
    (reason,) = [found for found in window_of(task, AS_OF).reasons if found.rule is Rule.SPREAD]
    assert reason.place == Place(LOG, 5)
    assert reason.taken == (span("2027-01-20", "2027-02-19"),)


def test_what_must_be_said_follows_its_application() -> None:
    """A passed plan for a whole farm under an override: one reason each, in this order."""
    record = spread("2027-01-02", standing="planned", zones=(), months=2, override="light dressing, adviser")
    reasons = window_of(a_task(LAST, record), AS_OF).reasons
    expected = [Rule.SPREAD_PLANNED, Rule.PLAN_HAS_PASSED, Rule.SPREAD_NO_ZONE, Rule.GAP_OVERRIDE]
    assert rules(reasons)[3:7] == expected
    assert reasons[6].place == record.override_place
    assert reasons[6].facts["reason"] == "light dressing, adviser"
    assert (reasons[6].facts["months"], reasons[6].facts["usual_months"]) == (2, 3)


def test_an_override_is_said_where_it_freed_days() -> None:
    """Spread in late October, two months instead of three: no day is taken, and that is due to the override."""
    record = spread("2026-10-28", months=2, override="light dressing, adviser")
    assert Rule.GAP_OVERRIDE in rules(window_of(a_task(LAST, record), AS_OF).reasons)
    long_ago = spread("2026-09-20", months=2, override="light dressing, adviser")
    assert Rule.GAP_OVERRIDE not in rules(window_of(a_task(LAST, long_ago), AS_OF).reasons)


def test_a_class_that_does_not_count_is_named_for_a_year() -> None:
    """Spread in the year before the season it is said; before that it is not."""
    lately, long_ago = spread("2026-01-20", counts=False), spread("2026-01-19", counts=False)
    assert Rule.CLASS_DOES_NOT_COUNT in rules(window_of(a_task(LAST, lately), AS_OF).reasons)
    assert Rule.CLASS_DOES_NOT_COUNT not in rules(window_of(a_task(LAST, long_ago), AS_OF).reasons)


def test_an_undated_application_is_named_first_among_records() -> None:
    """The record that makes the answer unknown, with what is known of it."""
    reasons = window_of(a_task(LAST, spread("?", line=8), spread("2026-11-20", line=5)), AS_OF).reasons
    assert rules(reasons)[3:5] == [Rule.SPREAD_UNDATED, Rule.SPREAD]
    assert reasons[3].place == Place(LOG, 8)
    assert reasons[3].facts["standing"] == "done"


def test_the_best_day_that_passed_is_named() -> None:
    """On 25 March the best day, 20 February, is past, and the tolerance of 30 days used up."""
    reasons = window_of(a_task(LAST), day("2027-03-25")).reasons
    assert rules(reasons)[-2:] == [Rule.BEST_DAY_PASSED, Rule.OUTSIDE_TOLERANCE]
    assert reasons[-2].facts == {"day": day("2027-02-20")}
    assert reasons[-1].facts == {"anniversary": day("2027-02-20"), "tolerance_days": 30}


def test_the_tolerance_includes_its_last_day() -> None:
    """Thirty days after the anniversary results still compare; on the day after they do not."""
    assert Rule.OUTSIDE_TOLERANCE not in rules(window_of(a_task(LAST), day("2027-03-22")).reasons)
    assert Rule.OUTSIDE_TOLERANCE in rules(window_of(a_task(LAST), day("2027-03-23")).reasons)


def test_an_analysis_that_waits_names_its_source() -> None:
    """The application, the months and the published source."""
    lime = spread("2026-04-01", material_class="lime", line=6)
    task = a_task(LAST, lime, waits=(AnalysisWait("lime", ("ph",), 12, "a handbook"),))
    reason = window_of(task, AS_OF).reasons[-1]
    assert (reason.rule, reason.place) == (Rule.ANALYSIS_WAIT, Place(LOG, 6))
    facts = {name: reason.facts[name] for name in ("analysis", "ready", "months", "source")}
    assert facts == {"analysis": "ph", "ready": day("2027-04-01"), "months": 12, "source": "a handbook"}
