"""The morning summary: to the office, in words, with file and line; nothing where nothing happened."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.batch.intake_values import IntakeReport, Overtaken
from soilrota.batch.morning import morning_messages, readers
from soilrota.batch.received import Received
from soilrota.batch.values import Entry, NightReport, Outcome
from soilrota.language.days import long_day
from soilrota.model.intake import MissingBag
from soilrota.problems import Place, error
from tests.delivery.other_words import not_said, other_catalogue
from tests.documents.made import example

DAY = date(2027, 2, 15)
PRACTICE = example("anvil-creek").practice
WRONG = error(
    "unknown-word", Place("clients/b/client.yaml", 12, 18), "'pastur' is not known here", "", "write 'pasture'"
)


@pytest.fixture
def other_words(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have Spanish say every text in strange letters."""
    monkeypatch.setattr("soilrota.language.speech.catalogue_of", other_catalogue)


def night(**changes: object) -> NightReport:
    """Return a night."""
    return replace(NightReport(DAY, "now", 1.0, (), ()), **changes)  # type: ignore[arg-type]


def test_nothing_to_say() -> None:
    """No message."""
    assert morning_messages(night(entries=(Entry("a", Outcome.UNCHANGED),)), PRACTICE) == ()


def test_everything_that_somebody_must_look_at() -> None:
    """Problems with file and line, what is set aside, late bags, documents to issue again, faults."""
    waiting = Received("d" * 64, "feb.csv", DAY, waiting={3: (WRONG,)})
    report = night(
        entries=(Entry("a", Outcome.MADE), Entry("b", Outcome.PROBLEMS, problems=(WRONG,) * 12)),
        intake=IntakeReport(DAY, records=(waiting,)),
        missing=(MissingBag("a", "home", "flat", "t", "A0001-C", 0, 10, date(2027, 1, 1), date(2027, 1, 20), "nb"),),
        overtaken=(Overtaken("a", "programme.pdf", DAY, "R1"),),
        faults=("the disk is full",),
    )
    (message, *_) = morning_messages(report, PRACTICE)
    assert message.subject == "The night of 15 February 2027: 1 made, 1 with problems, 1 set aside"
    assert "white-space: pre-wrap" in message.html, "a long line must not be cut on a phone"
    for piece in (
        "As of 15 February 2027: 1 made",
        "a: programme.pdf of 15 February 2027",
        "clients/b/client.yaml:12:18",
        "and 2 more, see run.json",
        "bag A0001-C",
        "the disk is full",
        "1; see",
    ):
        assert piece in message.text
    assert message.about == ()


def test_who_gets_it() -> None:
    """The office; the advisers where the office has no address; nobody where nobody has one."""
    assert {person.role for person in readers(PRACTICE)} == {"office"}
    without = replace(PRACTICE, people={name: one for name, one in PRACTICE.people.items() if one.role != "office"})
    assert {person.role for person in readers(without)} == {"adviser"}
    assert readers(replace(PRACTICE, people={})) == ()


@pytest.mark.usefixtures("other_words")
def test_it_speaks_the_practices_language() -> None:
    """Every word of the summary; ids, days, files and what a check found stand as they are."""
    late = MissingBag("a", "home", "flat", "t", "", 0, 10, date(2027, 1, 1), date(2027, 1, 20), "nb")
    report = night(
        entries=tuple(Entry("a", one, "why", problems=(WRONG,) * 12) for one in Outcome),
        intake=IntakeReport(DAY, records=(Received("d" * 64, "feb.csv", DAY, waiting={3: (WRONG,)}),)),
        missing=(late, replace(late, bag="A0001-C")),
        overtaken=(Overtaken("a", "programme.pdf", DAY, "R1"),),
        faults=("the disk is full",),
    )
    (message, *_) = morning_messages(report, replace(PRACTICE, language="es-US"))
    known = (
        WRONG,
        long_day(DAY, "es-US"),
        "a home flat A0001-C why the disk is full programme.pdf intake.txt records/set_aside run.json",
    )
    assert not_said(message.text, *known) == []
    assert not_said(message.subject, *known) == []
    assert '<html lang="es">' in message.html
