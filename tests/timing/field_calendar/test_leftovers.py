"""Why visits are late or left over: one case a reason."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.model.field_calendar import CalendarInputs, LateVisit, UnplacedVisit, WhyLate, WhyUnplaced
from soilrota.model.windows import Span
from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan
from soilrota.timing.field_calendar.leftovers import late_visits, unplaced_visits
from tests.timing.field_calendar.making import a_person, a_visit, on, some_inputs

UNPLACED = {
    WhyUnplaced.NO_OPEN_DAY: some_inputs(replace(a_visit(), spans=())),
    WhyUnplaced.ONLY_CLOSED_DAYS: some_inputs(a_visit(first=1, last=2), closures=(Span(on(0), on(4)),)),
    WhyUnplaced.NOBODY_QUALIFIED: some_inputs(a_visit(people=("nobody",))),
    WhyUnplaced.TOO_FAR: some_inputs(a_visit(east_km=50), crew=(a_person(longest_way_km=60.0),)),
    WhyUnplaced.TOO_LONG: some_inputs(a_visit(minutes=3000)),
    WhyUnplaced.NOBODY_AT_WORK: some_inputs(a_visit(first=5, last=6)),
    WhyUnplaced.NO_RUN_OF_DAYS: some_inputs(a_visit(first=4, last=5, minutes=900)),
    WhyUnplaced.DAYS_FULL: some_inputs(a_visit("a", 0, 0, minutes=300), a_visit("b", 0, 0, minutes=300, priority=2)),
}
LATE = {
    WhyLate.OPENS_LATE: some_inputs(a_visit(first=3, last=4, last_useful=1)),
    WhyLate.NOBODY_EARLIER: some_inputs(a_visit(first=1, last=4, last_useful=1), crew=(a_person(weekdays=(4, 5)),)),
    WhyLate.EARLIER_DAYS_FULL: some_inputs(
        a_visit("a", first=0, last=4, last_useful=0), a_visit("b", 0, 0, minutes=480, priority=2)
    ),
}


@pytest.mark.parametrize("reason", WhyUnplaced)
def test_why_a_visit_has_no_day(reason: WhyUnplaced) -> None:
    """Each reason has its case."""
    draft = greedy_plan(frame_of(UNPLACED[reason]))
    assert unplaced_visits(draft) == (UnplacedVisit("a", reason),)


@pytest.mark.parametrize(("reason", "day"), list(zip(WhyLate, (3, 3, 1), strict=True)))
def test_why_a_visit_is_late(reason: WhyLate, day: int) -> None:
    """Each reason has its case, with the days it is late."""
    inputs: CalendarInputs = LATE[reason]
    last = inputs.visits[0].last_useful
    assert last is not None
    draft = greedy_plan(frame_of(inputs))
    assert late_visits(draft) == (LateVisit("a", on(day), (on(day) - last).days, reason),)


def test_a_visit_in_time_is_not_late() -> None:
    """Nothing is listed where all is in time."""
    assert late_visits(greedy_plan(frame_of(some_inputs(a_visit(last_useful=4), a_visit("b"))))) == ()
