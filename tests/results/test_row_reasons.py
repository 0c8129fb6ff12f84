"""What speaks against a row, rule by rule."""

from __future__ import annotations

from datetime import date

from soilrota.results.row_reasons import (
    depth_reasons,
    ground_reasons,
    match_notes,
    order_reasons,
    report_reasons,
    sampling_reasons,
    season_begins,
    value_reasons,
)
from tests.results.intake_worlds import NIGHT, TAKEN, A, bag, client, note, row, value


def test_nothing_speaks_against_a_right_row() -> None:
    """Report, ground, depth, days: in order."""
    one, label, noted = row(A, depth=(0, 10), sampled=TAKEN), bag(A), note(A)
    assert [*report_reasons(one), *value_reasons(one), *depth_reasons(one, label, noted)] == []
    assert [*sampling_reasons(one, label, noted), *match_notes(one, label, noted)] == []
    assert list(ground_reasons(one, label, noted, (), client(label, noted))) == []
    assert list(order_reasons(one, TAKEN, "sampled", NIGHT)) == []


def test_every_reason_is_located_and_has_its_mend() -> None:
    """Each stands at the row's bag id, says what was found, and what to do."""
    one = row(
        A, 7, report="", depth=(20, 30), sampled=date(2027, 2, 1), reported=date(2027, 1, 1), values=(value(),) * 2
    )
    label, noted = bag(A, "hill"), note(A, day=date(2026, 3, 1))
    reasons = [*report_reasons(one), *value_reasons(one), *depth_reasons(one, label, noted)]
    reasons += [*sampling_reasons(one, label, noted), *order_reasons(one, TAKEN, "sampled", NIGHT)]
    reasons += ground_reasons(one, label, noted, (note(A, "bank"),), client())
    assert {reason.code for reason in reasons} == {
        "report-number-missing", "analysis-twice", "depth-contradicts", "sampled-day-contradicts",
        "sampled-before-issue", "days-reversed", "bag-noted-twice", "label-against-note",
    }  # fmt: skip
    assert all(reason.place.line == 7 and reason.found and reason.mend for reason in reasons)


def test_the_season_of_a_bag() -> None:
    """Its first day, or that of the year where only the year is known."""
    assert season_begins(bag(A)) == date(2027, 1, 20)
    assert season_begins(bag(A, season="2027")) == date(2027, 1, 1)
