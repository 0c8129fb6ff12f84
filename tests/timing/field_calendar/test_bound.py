"""What no calendar can beat: below every plan, and at the plan where that is simple."""

from __future__ import annotations

from fractions import Fraction

import pytest

from soilrota.timing.field_calendar.bound import least_points, share_of_day
from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan
from soilrota.timing.field_calendar.moves import settle
from tests.timing.field_calendar.making import a_season, a_visit, some_inputs


def test_three_long_visits_on_two_days() -> None:
    """Each takes more than half a day, so one of the three goes without: the bound says so."""
    visits = [a_visit(name, 0, 1, minutes=250, priority=priority) for name, priority in (("a", 1), ("b", 2), ("c", 3))]
    draft = greedy_plan(frame_of(some_inputs(*visits)))
    assert draft.score().unplaced == 1
    assert least_points(draft, 2.0, 1) == (draft.frame.unplaced_points, False)


def test_a_day_away_that_nobody_can_avoid() -> None:
    """Two long visits want the same day, and no day costs nothing for both."""
    visits = [a_visit(name, 0, 1, minutes=300, preferred=0) for name in "ab"]
    draft = greedy_plan(frame_of(some_inputs(*visits, free_days=0)))
    assert least_points(draft, 2.0, 1) == (1, False)


def test_visits_that_nobody_can_make_and_long_ones() -> None:
    """One that is too long for anyone counts in full; one that can be split counts its best day."""
    visits = (a_visit("a", minutes=9000, priority=2), a_visit("b", 4, 8, minutes=600, preferred=0))
    draft = greedy_plan(frame_of(some_inputs(*visits)))
    assert least_points(draft, 2.0, 1) == (2 * draft.frame.unplaced_points + 1, False)


@pytest.mark.parametrize("seed", range(4))
def test_the_bound_is_below_a_plan_and_its_shares_fit(seed: int) -> None:
    """On random seasons: bound at most the plan, shares of every day at most 1 together."""
    frame = frame_of(a_season(60, 2, seed=seed, longest=260))
    draft = greedy_plan(frame)
    settle(draft)
    score = draft.score()
    assert least_points(draft, 0.5, 1)[0] <= score.unplaced * frame.unplaced_points + score.points
    for (person, _), visits in draft.slots.items():
        assert sum(Fraction(*share_of_day(frame, person, visit)) for visit in visits) <= 1
