"""A plan in the making keeps its books."""

from __future__ import annotations

from soilrota.model.field_calendar import CalendarScore
from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import frame_of
from tests.timing.field_calendar.making import a_visit, some_inputs


def test_put_take_and_score() -> None:
    """Visits put in a day are at home there until others take their place."""
    visits = (a_visit("a", east_km=10, preferred=4), a_visit("b", east_km=20), a_visit("c", priority=3))
    draft = Draft(frame_of(some_inputs(*visits)))
    draft.put((0, 0), (0, 1))
    assert (draft.home, draft.unplaced()) == ({0: (0, 0), 1: (0, 0)}, [2])
    assert draft.points(0) == 1
    assert draft.score() == CalendarScore(3, 1, draft.frame.roads.round_minutes(0, (0, 1)))
    draft.put((0, 0), (2,))
    assert (draft.home, draft.unplaced()) == ({2: (0, 0)}, [0, 1])
    draft.put((0, 0), ())
    assert (draft.slots, draft.home) == ({}, {})


def test_a_visit_that_moved_on_keeps_its_new_day() -> None:
    """Emptying a day does not forget a visit that has gone to another day before."""
    draft = Draft(frame_of(some_inputs(a_visit("a"))))
    draft.put((0, 0), (0,))
    draft.put((0, 1), (0,))
    draft.put((0, 0), ())
    assert draft.home == {0: (0, 1)}


def test_a_split_visit_counts_its_last_day_and_every_drive() -> None:
    """Its points are those of the day on which it is complete; it is driven to each day."""
    draft = Draft(frame_of(some_inputs(a_visit("a", minutes=800, east_km=30, preferred=0, last=4))))
    draft.split(0, (((0, 3), 400), ((0, 4), 400)))
    assert draft.blocked == {(0, 3), (0, 4)}
    assert draft.day_of(0) == 4
    assert draft.score() == CalendarScore(0, 1, 2 * draft.frame.roads.there_and_back(0, 0))
