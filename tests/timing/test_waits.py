"""Analyses that are not ready although the day is open."""

from __future__ import annotations

from soilrota.model.practice import AnalysisWait
from soilrota.timing.waits import waits_of, waits_on
from tests.timing.making import a_task, day, spread

PH_AFTER_LIME = AnalysisWait("lime", ("ph",), 12, "a handbook")
LIME = spread("2026-03-01", "2026-03-05", material_class="lime", line=3)


def test_ph_waits_a_year_after_lime() -> None:
    """The day before the year is full is held back; the corresponding day itself is ready."""
    task = a_task(LIME, waits=(PH_AFTER_LIME,))
    assert [(wait.analysis, wait.ready) for wait in waits_on(task, day("2027-03-04"))] == [("ph", day("2027-03-05"))]
    assert waits_on(task, day("2027-03-05")) == ()


def test_lime_still_ahead_holds_nothing_back() -> None:
    """A sample taken before the lime is spread is not touched by it."""
    assert waits_on(a_task(LIME, waits=(PH_AFTER_LIME,)), day("2026-02-28")) == ()


def test_the_latest_wait_decides() -> None:
    """Of two applications the later one says when an analysis is ready."""
    again = spread("2026-09-01", material_class="lime", line=4)
    (wait,) = waits_on(a_task(LIME, again, waits=(PH_AFTER_LIME,)), day("2027-02-20"))
    assert (wait.ready, wait.application.place.line) == (day("2027-09-01"), 4)


def test_other_classes_and_cancelled_lime_hold_nothing_back() -> None:
    """The wait belongs to its class, and to spreading that happens."""
    task = a_task(
        spread("2026-09-01", material_class="gypsum"),
        spread("2026-09-01", material_class="lime", standing="cancelled"),
        spread("?", "?", material_class="lime"),
        waits=(PH_AFTER_LIME,),
    )
    assert waits_of(task) == ()
