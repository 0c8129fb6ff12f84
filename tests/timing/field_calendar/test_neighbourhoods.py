"""Parts of a calendar: within the calendar, and all of it in the end."""

from __future__ import annotations

from random import Random

from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan
from soilrota.timing.field_calendar.neighbourhoods import one_sweep
from tests.timing.field_calendar.making import a_season, a_visit, some_inputs


def test_a_sweep_comes_by_every_working_day() -> None:
    """Every person and day at work is in some part, and nothing else is in any."""
    draft = greedy_plan(frame_of(a_season(80, 3, seed=5)))
    working = {(person, day) for person, days in enumerate(draft.frame.at_work) for day in days}
    found = {slot for slots in one_sweep(draft, 0, Random(1)) for slot in slots}
    assert found == working


def test_the_worst_visits_bring_their_own_day() -> None:
    """The last parts of a sweep go around visits; each holds the person and day of one of them."""
    draft = greedy_plan(frame_of(a_season(80, 3, seed=5)))
    parts = list(one_sweep(draft, 1, Random(1)))
    around = parts[-min(80, len(draft.home)) :]
    assert all(any(slot in draft.slots for slot in slots) for slots in around)


def test_one_person_has_no_neighbours() -> None:
    """A practice of one is swept too."""
    draft = greedy_plan(frame_of(some_inputs(a_visit())))
    assert all({person for person, _ in slots} == {0} for slots in one_sweep(draft, 0, Random(1)))
