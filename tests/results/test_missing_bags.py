"""Bags that were taken and have not come back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from soilrota.model.intake import ClientBags, MissingBag
from soilrota.model.results import Result
from soilrota.model.samples import FieldNote
from soilrota.results.accepting import results_of
from soilrota.results.missing_bags import missing_bags
from tests.results.intake_worlds import NIGHT, TAKEN, A, B, client, matched, note


def missing(*clients: ClientBags, results: tuple[Result, ...] = ()) -> tuple[MissingBag, ...]:
    """Return what is missing on the night; results are those of anvil."""

    def due(of: str, one: FieldNote) -> date | None:
        return one.day + timedelta(days=14) if of == "anvil" else None

    def laboratory(of: str, one: FieldNote) -> str:
        return "north-bench" if (of, one.farm) == ("anvil", "home") else ""

    return missing_bags(clients, {"anvil": results}, NIGHT, laboratory_of=laboratory, due_of=due)


def result(sample: str, zone: str = "flat", **changes: object) -> Result:
    """Return a result of a bag."""
    return replace(results_of(matched(sample, zone), "north-bench", 1, NIGHT, "")[0], **changes)


def test_what_has_not_come_back() -> None:
    """The longest missing first, with where it went and when it was due."""
    older = note(B, "hill", day=date(2027, 1, 30))
    found = missing(client(note(A), older), client(note("K6-0311"), name="cobb"))
    assert [(one.client, one.bag, one.since) for one in found] == [
        ("anvil", B, date(2027, 1, 30)), ("anvil", A, TAKEN), ("cobb", "K6-0311", TAKEN),
    ]  # fmt: skip
    assert (found[1].due, found[1].laboratory, found[1].zone) == (date(2027, 2, 24), "north-bench", "flat")
    assert (found[2].due, found[2].laboratory) == (None, "")


def test_what_came_back_is_not_missing() -> None:
    """By its id, however written; or by ground, layer and day where no id was written down."""
    assert missing(client(note(A.lower())), results=(result(A, "hill", sampled=date(2027, 1, 1)),)) == ()
    assert missing(client(note("")), results=(result(A),)) == ()
    assert len(missing(client(note("")), results=(result(A, bottom_cm=15.0),))) == 1
    assert len(missing(client(note("")), results=(result(A, sampled=date(2026, 2, 10)),))) == 1


def test_an_older_id_that_came_round_again() -> None:
    """Last year's result under the same number is not this year's bag."""
    assert len(missing(client(note("K6-0311")), results=(result("K6-0311", "hill", sampled=date(2026, 2, 10)),))) == 1
    assert missing(client(note("K6-0311")), results=(result("k6-0311", "hill", sampled=date(2027, 2, 12)),)) == ()


def test_what_is_too_old_or_yet_to_come() -> None:
    """After 400 days nobody waits any more; a note of tomorrow is no bag yet; two notes of one bag are one."""
    day = NIGHT - timedelta(days=400)
    assert len(missing(client(note(A, day=day)))) == 1
    assert missing(client(note(A, day=day - timedelta(days=1)))) == ()
    assert missing(client(note(A, day=NIGHT + timedelta(days=1)))) == ()
    assert len(missing(client(note(A), note(A, protocol="other")))) == 1
    assert len(missing(client(note(""), note("", protocol="other")))) == 2
