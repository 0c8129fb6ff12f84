"""Sums of a night."""

from __future__ import annotations

from datetime import date

from soilrota.batch.values import Entry, NightReport, Outcome


def test_clients_are_counted_by_outcome() -> None:
    """Each client counts once, under its own outcome."""
    entries = (Entry("a", Outcome.MADE), Entry("b", Outcome.MADE), Entry("c", Outcome.FAILED))
    night = NightReport(date(2027, 2, 15), "now", 1.0, entries, ())
    assert {outcome: night.count(outcome) for outcome in Outcome if night.count(outcome)} == {
        Outcome.MADE: 2,
        Outcome.FAILED: 1,
    }
