"""Better plans within a stated effort."""

from __future__ import annotations

from soilrota.model.field_calendar import Effort
from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan
from soilrota.timing.field_calendar.search import improve, solve_whole
from tests.timing.field_calendar.making import a_season, a_visit, some_inputs


def test_a_small_calendar_is_solved_whole() -> None:
    """Its model proves the plan best, and the bound is the plan's own points."""
    draft = greedy_plan(frame_of(some_inputs(a_visit("a", 0, 9, preferred=4), a_visit("b", minutes=900))))
    whole = solve_whole(draft, Effort(5.0))
    assert whole is None  # b is long, and has no place in the model
    draft = greedy_plan(frame_of(some_inputs(a_visit("a", 0, 9, preferred=4), a_visit("b", 0, 0, minutes=3000))))
    whole = solve_whole(draft, Effort(5.0))
    assert whole is not None
    assert (whole.proven, whole.least_points) == (True, draft.frame.unplaced_points)


def test_a_large_calendar_is_not() -> None:
    """A season has more choices than one model takes."""
    assert solve_whole(greedy_plan(frame_of(a_season(250, 2, seed=1))), Effort(0.1)) is None


def test_improving_keeps_what_is_better_and_stops() -> None:
    """More rounds are never worse; no rounds leave what single moves reach."""
    scores = []
    for rounds in (0, 10, 40):
        draft = greedy_plan(frame_of(a_season(60, 2, seed=3)))
        first = draft.score()
        improve(draft, Effort(5.0, rounds))
        scores.append(draft.score())
        assert draft.score() <= first
    assert scores == sorted(scores, reverse=True)


def test_a_calendar_without_choices_ends() -> None:
    """Where nothing is left to solve the search stops by itself."""
    draft = greedy_plan(frame_of(some_inputs(a_visit(minutes=900))))
    improve(draft, Effort(5.0))
    assert draft.score().unplaced == 0
