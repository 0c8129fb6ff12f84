"""The frame: days, points, who may and can make a visit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.guidelines.field_work import field_work
from soilrota.model.windows import Span
from soilrota.timing.field_calendar.frame import days_of, frame_of, points_of, works
from tests.timing.field_calendar.making import a_person, a_visit, on, some_inputs


def test_points_beyond_the_free_days_and_late() -> None:
    """Three days away cost nothing, the fourth one point; lateness costs its points and one a day."""
    rules = field_work().planning
    visit = a_visit(first=0, last=20, preferred=5, last_useful=12)
    assert [points_of(visit, on(day), rules) for day in (1, 2, 5, 8, 9, 12)] == [1, 0, 0, 0, 1, 4]
    assert points_of(visit, on(14), rules) == 6 + 30 + 2


def test_days_without_closures_and_leave() -> None:
    """A closed day is no day of the visit; leave and weekends are no days of the person."""
    crew = (a_person(leave=(Span(on(2), on(3)),)),)
    frame = frame_of(some_inputs(a_visit(first=0, last=6), crew=crew, closures=(Span(on(1), on(1)),)))
    assert [frame.days[day] for day in frame.points[0]] == [on(0), on(2), on(3), on(4), on(5), on(6)]
    assert [frame.days[day] for day in sorted(frame.at_work[0])] == [on(0), on(4)]
    assert frame.open[0] == 0b111111
    assert not works(crew[0], on(3))
    assert days_of([Span(on(0), on(1))]) == [on(0), on(1)]


def test_who_may_and_who_can() -> None:
    """Qualification and distance say who may; the length of the day says who can."""
    crew = (a_person("ada", 200), a_person("bea", 480, longest_way_km=20.0), a_person("cleo"), a_person("dora"))
    visit = a_visit(minutes=180, east_km=20, people=("ada", "bea", "cleo"))
    frame = frame_of(some_inputs(visit, crew=crew))
    assert [frame.people[person].id for person in frame.allowed[0]] == ["ada", "cleo"]
    assert [frame.people[person].id for person in frame.able[0]] == ["cleo"]


def test_order_does_not_matter_and_repeats_are_refused() -> None:
    """Visits and people stand in order of id; the same id twice, or a priority of nothing, is the caller's fault."""
    frame = frame_of(some_inputs(a_visit("b"), a_visit("a"), crew=(a_person("z"), a_person("y"))))
    assert [visit.id for visit in frame.visits] == ["a", "b"]
    assert [person.id for person in frame.people] == ["y", "z"]
    with pytest.raises(ValueError, match="same id"):
        frame_of(some_inputs(a_visit("a"), a_visit("a")))
    with pytest.raises(ValueError, match="priority"):
        frame_of(some_inputs(replace(a_visit(), priority=0)))


def test_one_unplaced_visit_outweighs_all_days() -> None:
    """The points of one unit without a day are more than the worst days of all visits together."""
    frame = frame_of(some_inputs(a_visit("a", 0, 20, preferred=0), a_visit("b", 0, 10, preferred=0)))
    assert frame.unplaced_points == 1 + 17 + 7
