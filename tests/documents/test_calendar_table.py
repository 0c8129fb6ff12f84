"""`field_calendar.csv`."""

from __future__ import annotations

import csv
import io

from soilrota.documents import calendar_table
from soilrota.documents.calendar_table import COLUMNS
from tests.documents.test_calendar_view import planned
from tests.timing.field_calendar.making import a_season, a_visit, some_inputs


def _rows(table: bytes) -> list[dict[str, str]]:
    """Return the rows of a table."""
    return list(csv.DictReader(io.StringIO(table.decode(), newline="")))


def test_every_visit_has_its_rows() -> None:
    """Stops first, by day; then visits without a day, with the reason."""
    plan = planned(a_season(30, 1, seed=5, longest=300))
    rows = _rows(calendar_table(plan))
    assert tuple(rows[0]) == COLUMNS
    with_day = [row for row in rows if row["day"]]
    assert [row["day"] for row in with_day] == sorted(row["day"] for row in with_day)
    assert len(with_day) == sum(len(one.stops) for one in plan.calendar.days)
    without = rows[len(with_day) :]
    assert len(without) == len(plan.calendar.unplaced)
    assert all(row["why"] and not row["day"] for row in without)
    assert {row["client"] for row in rows} == {visit.client for visit in plan.inputs.visits}


def test_a_late_visit_says_why() -> None:
    """Its days and its reason stand in the row."""
    (row,) = _rows(calendar_table(planned(some_inputs(a_visit("a", 7, 11, preferred=7, last_useful=4)))))
    assert (row["days_late"], row["why"]) == ("3", "it does not open in time")
