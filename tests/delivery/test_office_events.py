"""Rows that wait, and laboratories that are off."""

from __future__ import annotations

from datetime import timedelta

from soilrota.delivery.office_events import laboratory_events, set_aside_events
from soilrota.model.check_charts import CheckChart, CheckRule, CheckState
from soilrota.model.reminders import SetAsideFile
from tests.delivery.reminding import NIGHT, practice


def chart(state: CheckState) -> CheckChart:
    """Return a chart in a state."""
    since = NIGHT - timedelta(days=3)
    return CheckChart(
        "north-bench", "shed-loam", "phosphorus", "colwell", "mg/kg", 32, 2.1, (), (), state, CheckRule.ACTION, since
    )


def test_each_file_is_an_event_that_repeats() -> None:
    """A file's name, laboratory and rows are told until nothing waits."""
    (one,) = set_aside_events([SetAsideFile("ab", "r.csv", "north-bench", NIGHT, 2)], practice(), NIGHT)
    assert one.repeats
    assert (one.facts["file"], one.facts["rows"]) == ("r.csv", 2)
    assert one.facts["laboratory"] == practice().laboratories["north-bench"].name
    assert not list(
        set_aside_events([SetAsideFile("ab", "r.csv", "", NIGHT, 2)], practice(), NIGHT - timedelta(days=1))
    )


def test_only_a_laboratory_that_is_off_is_spoken_of() -> None:
    """One to be watched is not; one that is off has its analysis, and its spell's day."""
    assert not list(laboratory_events([chart(CheckState.WATCH), chart(CheckState.IN_LINE)], practice(), NIGHT))
    (one,) = laboratory_events([chart(CheckState.OFF)], practice(), NIGHT)
    assert one.day == NIGHT - timedelta(days=3)
    assert one.facts["analysis"] == "phosphorus.colwell"
