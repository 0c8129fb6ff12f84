"""The inputs of a field calendar as numbers: visits, people and days counted from 0, so that plans compare cheaply."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.model.field_calendar import CalendarInputs, Crew, PlanningRules, VisitToPlace
from soilrota.model.windows import Span
from soilrota.timing.field_calendar.travel import Roads
from soilrota.timing.spans import subtract

#: A person's number and a day's number.
Slot = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Frame:
    """What the steps of the calendar look up.

    Attributes:
        visits: in order of id; their index is their number.
        people: in order of id; their index is their number.
        days: all days on which a visit may be made, in order; their index is their number.
        points: points of each visit on each day on which it may be made and the practice is not closed.
        open: the same days as bits of a whole number.
        at_work: days of each person.
        able: people who can make each visit within one day of theirs.
        allowed: people who may make each visit, whatever it takes: qualified, and not too far away.
        roads: driving.
        rules: house rules.
        unplaced_points: points of one unit of priority without a day: more than all days together can cost.
    """

    visits: tuple[VisitToPlace, ...]
    people: tuple[Crew, ...]
    days: tuple[date, ...]
    points: tuple[dict[int, int], ...]
    open: tuple[int, ...]
    at_work: tuple[frozenset[int], ...]
    able: tuple[tuple[int, ...], ...]
    allowed: tuple[tuple[int, ...], ...]
    roads: Roads
    rules: PlanningRules
    unplaced_points: int


def frame_of(inputs: CalendarInputs) -> Frame:
    """Return the frame of the inputs; the order of visits and people in them does not matter.

    Raises:
        ValueError: two visits or two people have the same id, or a priority is less than 1 (a fault of the caller).
    """
    visits = tuple(sorted(inputs.visits, key=lambda visit: visit.id))
    people = tuple(sorted(inputs.crew, key=lambda person: person.id))
    _refuse_faults(visits, people)
    rules = inputs.figures.planning
    spans = [subtract(visit.spans, inputs.closures) for visit in visits]
    days = tuple(sorted({day for some in spans for day in days_of(some)}))
    number = {day: index for index, day in enumerate(days)}
    points = tuple(
        {number[day]: points_of(visit, day, rules) for day in days_of(some)}
        for visit, some in zip(visits, spans, strict=True)
    )
    roads = Roads(visits, people, inputs.figures.travel)
    allowed = tuple(_allowed(index, visit, people, roads) for index, visit in enumerate(visits))
    return Frame(
        visits=visits,
        people=people,
        days=days,
        points=points,
        open=tuple(sum(1 << day for day in table) for table in points),
        at_work=tuple(frozenset(number[day] for day in days if works(person, day)) for person in people),
        able=tuple(_able(index, visit, people, allowed[index], roads) for index, visit in enumerate(visits)),
        allowed=allowed,
        roads=roads,
        rules=rules,
        unplaced_points=1 + sum(max(table.values(), default=0) for table in points),
    )


def points_of(visit: VisitToPlace, day: date, rules: PlanningRules) -> int:
    """Return the points of a visit on a day: days away from the preferred one beyond the free ones, and lateness."""
    points = max(0, abs((day - visit.preferred).days) - rules.free_days)
    if visit.last_useful is not None and day > visit.last_useful:
        points += rules.late_points + (day - visit.last_useful).days
    return points


def works(person: Crew, day: date) -> bool:
    """Return whether a person is at work on a day."""
    return day.isoweekday() in person.weekdays and not any(day in away for away in person.leave)


def days_of(spans: Iterable[Span]) -> list[date]:
    """Return the days of the spans."""
    return [span.first + timedelta(days=offset) for span in spans for offset in range(span.days)]


def _refuse_faults(visits: tuple[VisitToPlace, ...], people: tuple[Crew, ...]) -> None:
    """Raise where ids repeat or a priority does not count."""
    for ids in ([visit.id for visit in visits], [person.id for person in people]):
        if len(set(ids)) < len(ids):
            raise ValueError("two visits or two people of a calendar have the same id")
    if any(visit.priority < 1 for visit in visits):
        raise ValueError("the priority of a visit must be 1 or more")


def _allowed(index: int, visit: VisitToPlace, people: tuple[Crew, ...], roads: Roads) -> tuple[int, ...]:
    """Return the people who are qualified for a visit and not too far away."""
    found = []
    for number, person in enumerate(people):
        way = roads.way_km(number, index)
        near = person.longest_way_km is None or way is None or way <= person.longest_way_km
        if near and (not visit.people or person.id in visit.people):
            found.append(number)
    return tuple(found)


def _able(
    index: int, visit: VisitToPlace, people: tuple[Crew, ...], allowed: tuple[int, ...], roads: Roads
) -> tuple[int, ...]:
    """Return those of the allowed people whose day holds the visit and the drive there and back."""
    return tuple(
        number
        for number in allowed
        if visit.minutes + roads.there_and_back(number, index) <= people[number].minutes_a_day
    )
