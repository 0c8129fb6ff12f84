"""What windows have to say, in words."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.model.reminder_choices import ReminderKind
from tests.delivery.reminding import words


def test_a_spreading_says_what_to_do() -> None:
    """Days before it: sample first. None: until when sampling goes if it is put off."""
    first = words(ReminderKind.SPREADING)
    assert first.head == "Sample before the ground limestone planned for Saturday 20 February"
    assert first.lines[0].endswith("when the season is over. The last day to sample before it is Friday 19 February.")
    visited = words(ReminderKind.SPREADING, visit=date(2027, 2, 5))
    assert visited.lines == ("A visit is planned for Friday 5 February.", *first.lines)
    none = words(ReminderKind.SPREADING, last=None, until=date(2027, 3, 31))
    assert none.lines[1].endswith("they can be taken up to Wednesday 31 March.")
    unnamed = words(ReminderKind.SPREADING, material="", **{"class": "mineral-fertiliser"})
    assert "the fertiliser planned" in unnamed.head


@pytest.mark.parametrize(
    ("facts", "line"),
    [
        ({"visit": date(2027, 2, 5)}, "A visit is planned for Friday 5 February."),
        ({"first": None}, "No day is open in the season to come either; the programme says what can be done."),
        ({}, "It can be sampled now, until Wednesday 31 March."),
        ({"open": ""}, "The next days to sample are Monday 1 February to Wednesday 31 March."),
    ],
)
def test_overdue_says_what_comes_next(facts: dict[str, object], line: str) -> None:
    """A visit that is planned, the days that are open, or those to come."""
    assert words(ReminderKind.OVERDUE, **facts).lines[0] == line


def test_a_decision_says_what_is_missing() -> None:
    """Unsampled zones, results that are out, a visit, too late, or nothing missing."""
    lines = words(ReminderKind.DECISION, visit=date(2027, 2, 5)).lines
    assert lines == (
        "Not sampled yet: Barn.",
        "A visit is planned for Friday 5 February.",
        "The last day to sample so that results are there is Tuesday 9 February.",
        "Sampled, results not back yet: Lane.",
    )
    assert "too late" in words(ReminderKind.DECISION, last=None).lines[1]
    assert words(ReminderKind.DECISION, unsampled=(), out=()).lines[0].startswith("Nothing is missing")
    late = words(ReminderKind.CLOSING, what="order of lime", decision=date(2027, 3, 1))
    assert "Later samples come too late for a decision: order of lime, on Monday 1 March." in late.lines


def test_days_and_how_far_away_they_are() -> None:
    """Each kind names its days; a best day only where there is one."""
    soon = words(ReminderKind.OPENS_SOON)
    assert soon.head == "Soil sampling opens on Wednesday 10 February"
    assert soon.lines[0] == "The last day is Wednesday 31 March. The best day is Saturday 20 February."
    assert words(ReminderKind.OPENS_SOON, best=None).lines[0] == "The last day is Wednesday 31 March."
    assert words(ReminderKind.BEST_DAY).head == "The best day to sample is Friday 5 February, in 4 days"
    assert words(ReminderKind.CLOSING).head == "Last day to sample in time: Wednesday 10 February, in 9 days"
