"""Single moves and exchanges."""

from __future__ import annotations

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan
from soilrota.timing.field_calendar.moves import added_by, settle
from tests.timing.field_calendar.making import a_season, a_visit, some_inputs


def test_a_visit_moves_to_its_neighbour() -> None:
    """Two farms side by side on two days come together on one."""
    draft = Draft(frame_of(some_inputs(a_visit("a", east_km=30), a_visit("b", east_km=31))))
    draft.put((0, 0), (0,))
    draft.put((0, 1), (1,))
    settle(draft)
    assert list(draft.slots.values()) == [(0, 1)]
    assert added_by(draft, 1) == draft.travel(draft.home[1]) - draft.frame.roads.there_and_back(0, 0)


def test_two_visits_change_places() -> None:
    """Where full days leave no room to move, farms on the wrong days are exchanged."""
    east, west = ("a", "b"), ("c", "d")
    visits = [a_visit(name, 0, 1, minutes=180, east_km=40) for name in east]
    visits += [a_visit(name, 0, 1, minutes=180, east_km=-40) for name in west]
    draft = Draft(frame_of(some_inputs(*(visit for visit in visits))))
    draft.put((0, 0), (0, 2))
    draft.put((0, 1), (1, 3))
    before = draft.score()
    settle(draft)
    assert sorted(draft.slots.values()) == [(0, 1), (2, 3)]
    assert draft.score() < before


def test_settling_never_makes_a_plan_worse_and_ends() -> None:
    """A second settling finds nothing more to do."""
    draft = greedy_plan(frame_of(a_season(60, 2, seed=3)))
    before = draft.score()
    settle(draft)
    after, slots = draft.score(), dict(draft.slots)
    assert after <= before
    settle(draft)
    assert (draft.score(), draft.slots) == (after, slots)
