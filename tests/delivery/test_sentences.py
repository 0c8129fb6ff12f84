"""Every kind of reminder in words: plain, without codes, with right plurals, as its reader needs it."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest

from soilrota.delivery.sentences import Said, said, what_where
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Recipient, TaskName
from tests.delivery.reminding import FACTS, JO, MARA, NED, NIGHT, reminder

CODE = re.compile(r"\b[a-z]+(-[a-z0-9]+)+\b|None|True|False|datetime|\d{4}-\d{2}|\(\)|\{\}|  ")
#: Words with a hyphen that are English.
ENGLISH = {"field-work"}


def words(kind: ReminderKind, to: Recipient = JO, before: date | None = None, **facts: object) -> Said:
    """Return a reminder in words, with some facts changed; None takes a fact away."""
    changed = {name: value for name, value in {**FACTS[kind], **facts}.items() if value is not None}
    one = replace(reminder(kind, to, facts=changed, person="ned-marlow"), before=before)
    return said(one, one.event.tasks, to, NIGHT)


@pytest.mark.parametrize("kind", list(ReminderKind))
@pytest.mark.parametrize("to", [JO, NED, MARA])
def test_no_code_reaches_a_reader(kind: ReminderKind, to: Recipient) -> None:
    """Whatever the kind and the reader: no ids, no names of values, no doubled blanks, no missing full stop."""
    made = words(kind, to)
    for line in (made.head, *made.lines):
        assert set(CODE.findall(line)) <= ENGLISH, line
        assert line[0].isupper() or line[0].isdigit()
    assert not made.head.endswith(".")
    assert made.short == made.short.strip()
    assert made.short[0].islower()


def test_a_crew_member_is_told_what_the_crew_needs() -> None:
    """The crew reads where and whom to call; the client reads who comes and what to tell us; the adviser neither."""
    crew, client, adviser = (words(ReminderKind.VISIT, to) for to in (NED, JO, MARA))
    assert crew.head == "You sample here on Thursday 4 February, in 3 days"
    assert "Where: Merrow, creek road" in crew.lines
    assert client.head == "Ned Marlow comes to take soil samples on Thursday 4 February, in 3 days"
    assert "Please tell us if stock, spraying or wet ground stand in the way." in client.lines
    assert not any(line.startswith(("Where", "Please", "Call")) for line in adviser.lines)


def test_a_visit_that_moved_or_is_off() -> None:
    """A moved visit says so first and names the day before; one that is off says which."""
    moved = words(ReminderKind.VISIT, NED, date(2027, 2, 8))
    assert moved.lines[0] == "This is a change: before, it was Monday 8 February."
    assert moved.short == "your visit has moved"
    off = words(ReminderKind.VISIT, gone=date(2027, 2, 8))
    assert off.head == "The visit planned for Monday 8 February will not take place"
    split = words(ReminderKind.VISIT, last=date(2027, 2, 5))
    assert split.head.startswith("Ned Marlow comes to take soil samples on Thursday 4 February to Friday 5 February")


def test_a_spreading_says_what_to_do() -> None:
    """Days before it: sample first. None: until when sampling goes if it is put off."""
    first = words(ReminderKind.SPREADING)
    assert first.head == "Sample before the ground limestone planned for Saturday 20 February"
    assert first.lines[0].endswith("when the season is over. The last day to sample before it is Friday 19 February.")
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


def test_counts_agree_with_their_nouns() -> None:
    """One bag, two bags; one row waits, two wait; a file waits; one month, none."""
    assert words(ReminderKind.BAGS_OUT).head == "Results of 1 bag are not back from North Bench Laboratory"
    assert (
        words(ReminderKind.BAGS_OUT, count=2, laboratory="").head
        == "Results of 2 bags are not back from the laboratory"
    )
    heads = [words(ReminderKind.SET_ASIDE, rows=rows).head for rows in (0, 1, 3)]
    assert heads == [
        "All of results.csv waits for somebody to look",
        "1 row of results.csv waits for somebody to look",
        "3 rows of results.csv wait for somebody to look",
    ]
    assert words(ReminderKind.OVERDUE, months=1).head.endswith("31 March 2026, 1 month ago")
    assert words(ReminderKind.OVERDUE, months=0).head.endswith("31 March 2026")


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


def test_zones_stand_under_their_protocol() -> None:
    """Each zone once, in order."""
    tasks = (TaskName("Barn", "Topsoil"), TaskName("Ridge", "Topsoil"), TaskName("Ridge", "Acidity"))
    assert what_where(tasks) == ("Topsoil: Barn and Ridge", "Acidity: Ridge")
