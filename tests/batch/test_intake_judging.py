"""Which matched rows are believed: what a finding bars waits, what is odd is said, corrections are listed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from soilrota.batch.intake_judging import Concerned, Judged, Source, judge
from soilrota.model.client import Client
from soilrota.model.intake import MatchedRow
from soilrota.model.result_findings import Acceptance, ResultRule
from soilrota.model.results import Result
from soilrota.problems import Place
from tests.documents.made import example
from tests.results.intake_worlds import matched, value

NIGHT = date(2027, 3, 10)
ANVIL = replace(example("anvil-creek"), id="anvil")


def _row(bag: str, number: int, ph: float, zone: str = "ridge", **changes: object) -> MatchedRow:
    """Return a matched row of one pH."""
    row = matched(bag, zone, number=number, values=(value("ph", ph),), **changes)
    return replace(row, protocol="topsoil-pasture")


def _judge(rows: Sequence[MatchedRow], client: Client = ANVIL, known: Sequence[Result] = ()) -> Judged:
    """Judge rows of one client."""
    return judge(rows, Concerned({"anvil": client}, {"anvil": known}), Source("north-bench", "0123456789ab", ()), NIGHT)


def test_a_value_that_no_soil_has_waits_alone() -> None:
    """Its row waits with how to mend it and where; the others are to be written without it."""
    found = _judge([_row("K1", 2, 5.2), _row("K2", 3, 52.0, "barn")])
    reasons = found.barred[3]
    assert "hard-limit" in {reason.code for reason in reasons}
    assert {reason.place.file for reason in reasons} == {"lab.csv"}
    assert all(("accepted_findings" in reason.mend) is (reason.code != "hard-limit") for reason in reasons)
    assert [result.bag for file in found.versions.files for result in file.results] == ["K1"]
    assert [one.row.number for one in found.versions.accepted] == [2]


def test_a_value_far_from_the_zone_s_history_waits_until_it_is_accepted() -> None:
    """An acceptance lifts it, and the acceptance is among the remarks."""
    rows = [_row("K1", 2, 8.9)]
    (reason,) = _judge(rows).barred[2]
    assert reason.code == "history"
    assert "clients/anvil/client.yaml under accepted_findings (rule: history, bag: K1)" in reason.mend
    accepted = Acceptance("", "K1", "", None, ResultRule.HISTORY, (), "The heap stood here", "mara-ellis", Place("c"))
    found = _judge(rows, replace(ANVIL, acceptances=(accepted,)))
    assert found.barred == {}
    assert any("The heap stood here" in words for words in found.remarks)
    assert all(words.startswith("anvil: ") for words in found.remarks)


def test_remarks_are_of_what_is_written() -> None:
    """A row that waits says nothing among the remarks."""
    assert _judge([_row("K1", 2, 8.9)]).remarks == ()


def test_what_a_later_issue_changed_is_listed_however_often_it_is_looked_at() -> None:
    """The first time, and once it is known; the first issue itself changes nothing."""
    first = [_row("K1", 2, 5.2, issue=1)]
    known = tuple(result for file in _judge(first).versions.files for result in file.results)
    assert _judge(first, known=known).corrected == {}
    second = [_row("K1", 2, 5.4, issue=2)]
    found = _judge(second, known=known)
    (words,) = found.corrected["anvil"]
    assert "issue 2" in words
    assert "is 5.4 and no longer 5.2" in words
    both = (*known, *(result for file in found.versions.files for result in file.added))
    again = _judge(second, known=both)
    assert (again.corrected, again.versions.files) == (found.corrected, ())
