"""Every kind of reminder in words: plain, without codes, with right plurals, as its reader needs it."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest

from soilrota.delivery.days import date_words, day_words
from soilrota.language import phrase, speaking
from soilrota.model.reminder_choices import ReminderKind
from soilrota.model.reminders import Recipient
from soilrota.quantities import analysis_name
from tests.delivery.other_words import not_said
from tests.delivery.reminding import FACTS, JO, MARA, NED, NIGHT, words

CODE = re.compile(r"\b[a-z]+(-[a-z0-9]+)+\b|None|True|False|datetime|\d{4}-\d{2}|\(\)|\{\}|  ")
#: Words with a hyphen that are English.
ENGLISH = {"field-work"}


#: Facts that make other sentences, by kind.
OTHERS: list[tuple[ReminderKind, dict[str, object]]] = [
    (ReminderKind.VISIT, {"gone": date(2027, 2, 8)}),
    (ReminderKind.VISIT, {"last": date(2027, 2, 5)}),
    (ReminderKind.CLOSING, {"what": "order of lime", "decision": date(2027, 3, 1)}),
    (ReminderKind.SPREADING, {"material": "", "class": "manure"}),
    (ReminderKind.SPREADING, {"last": None, "until": date(2027, 3, 31), "season_last": date(2027, 9, 30)}),
    (ReminderKind.OVERDUE, {"visit": date(2027, 2, 5), "months": 1}),
    (ReminderKind.OVERDUE, {"first": None, "months": 0}),
    (ReminderKind.OVERDUE, {"open": ""}),
    (ReminderKind.DECISION, {"visit": date(2027, 2, 5), "last": None}),
    (ReminderKind.DECISION, {"unsampled": (), "out": ()}),
    (ReminderKind.BAGS_OUT, {"laboratory": "", "count": 2}),
    (ReminderKind.DRAFT, {"changed": (phrase("results of {zone} changed", zone="Barn"),)}),
    (ReminderKind.SET_ASIDE, {"rows": 0, "laboratory": "North Bench"}),
    (ReminderKind.SET_ASIDE, {"rows": 1}),
]


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


@pytest.mark.usefixtures("other_words")
@pytest.mark.parametrize(("kind", "facts"), [*((kind, {}) for kind in ReminderKind), *OTHERS])
@pytest.mark.parametrize("to", [JO, NED, MARA])
def test_every_word_is_in_the_readers_language(kind: ReminderKind, facts: dict[str, object], to: Recipient) -> None:
    """Only facts are left as they are: names, days, codes of bags, files."""
    reader = replace(to, language="es")
    known = {**FACTS[kind], **facts}
    if kind is ReminderKind.DRAFT and not facts:
        known["changed"] = ()
    with speaking("es"):
        made = words(kind, reader, date(2027, 2, 8), **known)
    days = [day for day in (*known.values(), date(2027, 2, 8)) if isinstance(day, date)]
    names = [value for name, value in known.items() if name not in {"class", "changed"}]
    names += [day_words(day, "es", NIGHT) for day in days] + [date_words(day, "es") for day in days]
    names += [analysis_name(str(known.get("analysis", ""))), "Barn, Topsoil under pasture", "intake.txt"]
    names += ["laboratory_checks.pdf"]
    assert [one for text in (made.head, *made.lines, made.short) for one in not_said(text, *names)] == []
