"""A part as a model: every set that fits, the best of them, and the cost as the score sees it."""

from __future__ import annotations

from itertools import combinations

from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan
from soilrota.timing.field_calendar.rounds import (
    choices_now,
    choices_of,
    cost_of,
    part_of,
    solve_part,
    take,
    weights_of,
)
from tests.timing.field_calendar.making import a_season, a_visit, some_inputs


def test_choices_are_all_sets_that_fit() -> None:
    """Against every set of up to five visits on every day of one person."""
    frame = frame_of(a_season(14, 1, seed=2))
    visits = tuple(visit for visit in range(14) if frame.able[visit])
    part = part_of(Draft(frame), [(0, day) for day in frame.at_work[0]], visits)
    expected = set()
    for size in range(1, 6):
        for some in combinations(visits, size):
            work = sum(frame.visits[visit].minutes for visit in some)
            if work + frame.roads.round_minutes(0, some) <= frame.people[0].minutes_a_day:
                days = [day for day in frame.at_work[0] if all(day in frame.points[visit] for visit in some)]
                expected |= {((0, day), some) for day in days}
    found = choices_of(frame, part, 10**6)
    assert found is not None
    assert {(choice.slot, choice.visits) for choice in found} == expected
    assert len(found) == len(expected)
    assert choices_of(frame, part, len(expected) - 1) is None


def test_solving_a_part_brings_a_waiting_visit_in() -> None:
    """Two of three visits fit one day each; the model finds the pairing that holds all three."""
    visits = (a_visit("a", 0, 1, minutes=300), a_visit("b", 0, 1, minutes=150), a_visit("c", 0, 0, minutes=300))
    draft = Draft(frame_of(some_inputs(*visits)))
    draft.put((0, 0), (0,))
    draft.put((0, 1), (1,))
    part = part_of(draft, [(0, 0), (0, 1)], [2])
    choices = choices_of(draft.frame, part, 100)
    assert choices is not None
    outcome = solve_part(draft, part, choices, 5.0, 1)
    assert outcome.proven
    assert cost_of(draft.frame, part, outcome.chosen) == outcome.bound
    take(draft, part, outcome.chosen)
    assert draft.unplaced() == []
    assert set(choices_now(draft, part)) == set(outcome.chosen)


def test_cost_compares_like_the_score() -> None:
    """A unit without a day outweighs all points, a point all driving."""
    draft = greedy_plan(frame_of(a_season(30, 2, seed=4)))
    part = part_of(draft, draft.slots, [])
    weights = weights_of(draft.frame, part)
    now = choices_now(draft, part)
    driving = sum(choice.travel for choice in now)
    assert cost_of(draft.frame, part, now) == weights.point * sum(choice.points for choice in now) + driving
    assert driving < weights.point
    most = sum(max(draft.frame.points[visit].values()) for visit in part.visits)
    assert weights.point * most + driving < weights.unplaced


def test_days_of_a_long_visit_stay_out() -> None:
    """Persons and days that a split visit has for itself are in no part."""
    draft = greedy_plan(frame_of(some_inputs(a_visit(minutes=700))))
    assert part_of(draft, [(0, 0), (0, 1), (0, 2)], []).slots == ((0, 2),)
