"""The first plan, and long visits split over days."""

from __future__ import annotations

from soilrota.model.field_calendar import CalendarInputs
from soilrota.model.windows import Span
from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import frame_of
from soilrota.timing.field_calendar.greedy import added_driving, greedy_plan, may_split, parts_needed, split_parts
from tests.timing.field_calendar.making import a_person, a_visit, on, some_inputs


def split_days(inputs: CalendarInputs) -> list[tuple[int, int]]:
    """Return days (from the first Monday) and minutes of the parts of the one visit."""
    draft = greedy_plan(frame_of(inputs))
    return [((draft.frame.days[day] - on(0)).days, minutes) for (_, day), minutes in draft.splits.get(0, ())]


def test_each_visit_goes_where_it_costs_least() -> None:
    """Neighbours share a day of the free days; the one with priority comes first to a day that holds one."""
    draft = greedy_plan(frame_of(some_inputs(a_visit("a", east_km=30), a_visit("b", east_km=31))))
    assert list(draft.slots.values()) == [(0, 1)]
    one_day = some_inputs(a_visit("a", 0, 0, minutes=300), a_visit("b", 0, 0, minutes=300, priority=2))
    assert greedy_plan(frame_of(one_day)).home == {1: (0, 0)}


def test_a_long_visit_is_split_over_successive_days() -> None:
    """1,000 minutes with 54 of driving a day: 426, 426 and the rest, complete near the preferred day."""
    assert split_days(some_inputs(a_visit(minutes=1000, first=0, last=4, east_km=20))) == [(0, 426), (1, 426), (2, 148)]


def test_a_split_runs_over_the_weekend_but_not_over_leave() -> None:
    """Friday and Monday are successive working days; two weeks of leave between two parts are too long a pause."""
    crew = (a_person(leave=(Span(on(0), on(3)),)),)
    assert split_days(some_inputs(a_visit(minutes=700, first=0, last=8), crew=crew)) == [(4, 480), (7, 220)]
    crew = (a_person(leave=(Span(on(0), on(3)), Span(on(5), on(11)))),)
    assert split_days(some_inputs(a_visit(minutes=700, first=0, last=12), crew=crew)) == []


def test_what_is_too_long_is_not_split() -> None:
    """More days than the house rules allow, or a drive that leaves no time for work."""
    frame = frame_of(some_inputs(a_visit("a", minutes=2401), a_visit("b", minutes=600, east_km=190)))
    assert parts_needed(frame, 0, 0) is None
    assert parts_needed(frame, 1, 0) is None
    assert not may_split(frame, 0)
    assert not may_split(frame, 1)


def test_days_that_are_taken_are_not_for_a_split() -> None:
    """A long visit has its days for itself."""
    draft = Draft(frame_of(some_inputs(a_visit("a", minutes=700, last=2), a_visit("b", last=2))))
    draft.put((0, 1), (1,))
    assert split_parts(draft, 0) == ()
    draft.put((0, 1), ())
    draft.split(0, split_parts(draft, 0))
    assert draft.blocked == {(0, 0), (0, 1)}
    assert added_driving(draft, (0, 0), 1) is None
    assert added_driving(draft, (0, 2), 1) == 0
