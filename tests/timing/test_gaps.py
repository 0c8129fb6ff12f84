"""What applications close."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.model.windows import Rule, Span
from soilrota.timing.gaps import application_closings, closed_span, closings_of, undated
from tests.timing.making import a_task, day, span, spread

AS_OF = day("2027-01-25")


@pytest.mark.parametrize(
    ("first", "last", "months", "open_again"),
    [
        ("2026-11-20", "2026-11-20", 3, "2027-02-20"),
        ("2026-11-18", "2026-11-20", 3, "2027-02-20"),
        ("2026-11-30", "2026-11-30", 3, "2027-02-28"),
        ("2027-11-30", "2027-11-30", 3, "2028-02-29"),
        ("2027-02-28", "2027-02-28", 3, "2027-05-28"),
        ("2027-01-10", "2027-01-12", 0, "2027-01-13"),
    ],
)
def test_days_are_closed_until_the_corresponding_day(first: str, last: str, months: int, open_again: str) -> None:
    """The corresponding day is open, the day before it closed; without a gap only the spreading itself closes."""
    closed = closed_span(day(first), day(last), months)
    assert closed.first == day(first)
    assert (day(open_again) - closed.last).days == 1


def test_a_day_at_the_latest_closes_everything_before() -> None:
    """With only the last day known, no earlier day is certain."""
    assert closed_span(None, day("2026-11-20"), 3) == Span(date.min, day("2027-02-19"))


@pytest.mark.parametrize(
    ("record", "rule", "can_move", "reads_until"),
    [
        (spread("2026-11-20"), Rule.SPREAD, False, date.max),
        (spread("2027-02-10", "2027-02-12", standing="planned"), Rule.SPREAD_PLANNED, True, day("2027-02-12")),
        (spread("2027-01-20", "2027-01-24", standing="planned"), Rule.SPREAD_PLANNED, False, date.max),
        (spread("2027-01-20", "2027-01-25", standing="planned"), Rule.SPREAD_PLANNED, True, day("2027-01-25")),
        (spread("2027-02-10", standing="done"), Rule.SPREAD_PLANNED, True, day("2027-02-09")),
    ],
)
def test_an_application_reads_as_done_or_planned(record, rule: Rule, can_move: bool, reads_until: date) -> None:  # noqa: ANN001
    """Plans ahead can move; a plan that passed cannot; 'done' in the future is a plan until its day."""
    (closing,) = application_closings(a_task(record), AS_OF)
    assert (closing.reason.rule, closing.can_move, closing.reads_until) == (rule, can_move, reads_until)


def test_a_plan_that_passed_says_so_and_still_closes() -> None:
    """Until someone says that it did not happen, its days stay closed."""
    (closing,) = closings_of(a_task(spread("2027-01-20", standing="planned")), AS_OF)
    assert closing.span == span("2027-01-20", "2027-04-19")
    assert [note.rule for note in closing.notes] == [Rule.PLAN_HAS_PASSED]


def test_what_is_cancelled_or_does_not_count_closes_nothing() -> None:
    """Neither closes a day, dated or not."""
    task = a_task(
        spread("2026-11-20", standing="cancelled"),
        spread("2026-11-20", counts=False),
        spread("?", "?", standing="cancelled"),
        spread("?", "?", counts=False),
    )
    assert closings_of(task, AS_OF) == ()
    assert undated(task) == ()


def test_an_application_without_a_last_day_is_undated() -> None:
    """Spreading that began and ended nobody knows when closes days that nobody knows."""
    task = a_task(spread("?", "?", line=4), spread("2026-11-20", "?", line=3))
    assert [record.application.place.line for record in undated(task)] == [3, 4]


def test_facts_say_when_days_open_again() -> None:
    """The reason carries what was spread, when, the months and the first open day."""
    (closing,) = closings_of(a_task(spread("2026-11-18", "2026-11-20", material_class="lime")), AS_OF)
    assert closing.reason.facts == {
        "class": "lime",
        "material": "lime of row 2",
        "first_day": day("2026-11-18"),
        "last_day": day("2026-11-20"),
        "months": 3,
        "open_again": day("2027-02-20"),
    }
