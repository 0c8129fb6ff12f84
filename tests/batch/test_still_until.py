"""Up to which day a night has nothing to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from soilrota.batch.book_facts import BookFacts
from soilrota.batch.intake_values import IntakeReport
from soilrota.batch.ledger import ClientRecord, Ledger, ReportRecord, SharedRecord, open_ledger
from soilrota.batch.shared_step import FIELD_CALENDAR, LABORATORY_CHECKS
from soilrota.batch.still_until import still_until
from soilrota.batch.values import DocumentEntry, Entry, NightReport, Outcome
from soilrota.model.intake import MissingBag

DAY, FAR = date(2027, 2, 15), date(2027, 8, 1)
FACTS = BookFacts("", "", "engine", "UTC", "", 1.0, 1, ("ash",), (), (), pack_days=60)
ASH = ClientRecord("ash", "", "", DAY, FAR, Outcome.MADE, (), ())
QUIET = NightReport(DAY, "now", 0.1, (Entry("ash", Outcome.UNCHANGED),), (), intake=IntakeReport(DAY), still_until=None)
BAG = MissingBag("ash", "home", "flat", "topsoil", "B1", 0.0, 10.0, DAY, date(2027, 3, 1), "Bench")
MADE = DocumentEntry("field_calendar.pdf", DAY, "", made=True)


@pytest.fixture
def ledger(tmp_path: Path) -> Iterator[Ledger]:
    """Return a ledger of a book in which everything holds for long."""
    with open_ledger(tmp_path / "ledger.sqlite") as found:
        for name in (FIELD_CALENDAR.name, LABORATORY_CHECKS.name, "reminders"):
            found.keep_shared(SharedRecord(name, "", DAY, FAR, {}))
        yield found


def _until(
    tmp_path: Path, ledger: Ledger, report: NightReport = QUIET, ash: ClientRecord = ASH, facts: BookFacts = FACTS
) -> date | None:
    """Return up to which day there is nothing to do."""
    return still_until(tmp_path, report, facts, [ash], ledger)


def test_everything_that_is_looked_at_has_a_day(tmp_path: Path, ledger: Ledger) -> None:
    """The first of them is the last day: a client, a document of the practice, reminders, a report."""
    assert _until(tmp_path, ledger) == FAR
    assert _until(tmp_path, ledger, ash=replace(ASH, holds_until=date(2027, 4, 1))) == date(2027, 4, 1)
    ledger.keep_reports(ReportRecord("ash", "", DAY, date(2027, 3, 20), {}))
    assert _until(tmp_path, ledger) == date(2027, 3, 20)
    for number, name in enumerate((FIELD_CALENDAR.name, LABORATORY_CHECKS.name, "reminders")):
        ledger.keep_shared(SharedRecord(name, "", DAY, date(2027, 3, 19 - number), {}))
        assert _until(tmp_path, ledger) == date(2027, 3, 19 - number)


def test_a_client_that_left_holds_nothing_up(tmp_path: Path, ledger: Ledger) -> None:
    """Its reports are in the ledger still."""
    ledger.keep_reports(ReportRecord("gone", "", DAY, DAY, {}))
    assert _until(tmp_path, ledger) == FAR


def test_a_field_pack_is_due_before_its_visit(tmp_path: Path, ledger: Ledger) -> None:
    """By the day in the field calendar, or else in the farm's own plan; a pack that is there already waits for none."""
    visit = {"visit": "ash/home/1", "preferred": "2027-05-10"}
    ash = replace(ASH, visits=(visit,))
    assert _until(tmp_path, ledger, ash=ash) == date(2027, 3, 10)
    placed = ({"visit": "ash/home/1", "day": "2027-05-01", "last": "2027-05-01"},)
    ledger.keep_shared(SharedRecord(FIELD_CALENDAR.name, "", DAY, FAR, {}, placed))
    assert _until(tmp_path, ledger, ash=ash) == date(2027, 3, 1)
    assert _until(tmp_path, ledger, ash=ash, facts=replace(FACTS, pack_days=200)) == FAR


def test_a_bag_is_late_on_the_day_after_it_is_due(tmp_path: Path, ledger: Ledger) -> None:
    """Then the season page says so; one that is late already is on it."""
    assert _until(tmp_path, ledger, replace(QUIET, missing=(BAG,))) == date(2027, 3, 1)
    late = replace(BAG, due=date(2027, 2, 10))
    assert _until(tmp_path, ledger, replace(QUIET, missing=(late, replace(BAG, due=None)))) == FAR


@pytest.mark.parametrize(
    "report",
    [
        replace(QUIET, entries=(Entry("ash", Outcome.MADE),)),
        replace(QUIET, entries=(Entry("ash", Outcome.PROBLEMS),)),
        replace(QUIET, faults=("the disk is full",)),
        replace(QUIET, stopped_by=15),
        replace(QUIET, shared=(MADE,)),
        replace(QUIET, packs=(MADE,)),
        replace(QUIET, reports=(MADE,)),
        replace(QUIET, feeds=(MADE,)),
        replace(QUIET, intake=None),
    ],
    ids=lambda report: str(report.entries[0].outcome),
)
def test_a_night_that_did_something_says_nothing_of_the_next(
    tmp_path: Path, ledger: Ledger, report: NightReport
) -> None:
    """Made, failed, ended, or left undone: the next night looks at everything."""
    assert _until(tmp_path, ledger, report) is None


def test_an_unknown_document_of_the_practice_holds_for_a_day(tmp_path: Path) -> None:
    """As where it could not be made."""
    with open_ledger(tmp_path / "other.sqlite") as ledger:
        assert _until(tmp_path, ledger) == DAY
