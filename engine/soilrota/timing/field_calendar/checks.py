"""An independent reading of what a field calendar promises, in the most obvious way: nothing of the planner is used."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise, permutations
from math import asin, ceil, cos, radians, sin, sqrt

from soilrota.model.field_calendar import CalendarInputs, Crew, FieldCalendar, PersonDay, TravelFigures, VisitToPlace
from soilrota.model.ground import Position

#: Mean radius of the earth [km] (Moritz, H. (2000), Journal of Geodesy 74, 128-133).
_EARTH_KM = 6371.0088


def broken_promises(calendar: FieldCalendar, inputs: CalendarInputs) -> tuple[str, ...]:
    """Return what is wrong with a calendar, one sentence each; empty for a good one.

    Checked: every visit placed once or listed as unplaced; windows, closures, weekdays, leave, qualification and
    distance; one entry a person and day, hours of the day with the shortest round found by trying every order; farms
    a day; parts of long visits; late visits listed, and no others.

    Args:
        calendar: the plan.
        inputs: what it was made of.
    """
    visits = {visit.id: visit for visit in inputs.visits}
    people = {person.id: person for person in inputs.crew}
    found = list(_counted(calendar, visits))
    for planned in calendar.days:
        person = people[planned.person]
        found += _away(planned, person, inputs)
        found += _hours(planned, person, visits, inputs)
        for stop in planned.stops:
            found += _unwelcome(planned.day, visits[stop.visit], person, inputs.figures.travel)
    found += _late(calendar, visits)
    return tuple(found)


def _counted(calendar: FieldCalendar, visits: dict[str, VisitToPlace]) -> Iterator[str]:
    """Yield visits placed twice, in part, or lost, and persons with two entries on a day."""
    parts: dict[str, list[tuple[date, str, int, int, int]]] = {}
    for planned in calendar.days:
        for stop in planned.stops:
            entry = (planned.day, planned.person, stop.minutes, stop.part, stop.parts)
            parts.setdefault(stop.visit, []).append(entry)
    unplaced = Counter(one.visit for one in calendar.unplaced)
    for name, visit in visits.items():
        mine = sorted(parts.get(name, []))
        if len(mine) == 0 and unplaced[name] != 1:
            yield f"{name} is neither placed nor listed once as unplaced"
        if mine and unplaced[name]:
            yield f"{name} is placed and listed as unplaced"
        if mine and [part for *_, part, _ in mine] != list(range(1, mine[0][4] + 1)):
            yield f"{name} is placed twice, or a part is missing"
        if mine and (sum(entry[2] for entry in mine) != visit.minutes or len({entry[1] for entry in mine}) > 1):
            yield f"{name} has parts that are not its work, or of two people"
    twice = Counter((planned.person, planned.day) for planned in calendar.days)
    yield from (f"{person} has two entries on {day}" for (person, day), number in twice.items() if number > 1)


def _away(planned: PersonDay, person: Crew, inputs: CalendarInputs) -> Iterator[str]:
    """Yield days on which the person or the practice is away."""
    if planned.day.isoweekday() not in person.weekdays:
        yield f"{person.id} does not work on {planned.day}: weekday"
    if any(away.first <= planned.day <= away.last for away in person.leave):
        yield f"{person.id} is on leave on {planned.day}"
    if any(closed.first <= planned.day <= closed.last for closed in inputs.closures):
        yield f"the practice is closed on {planned.day}"


def _hours(planned: PersonDay, person: Crew, visits: dict[str, VisitToPlace], inputs: CalendarInputs) -> Iterator[str]:
    """Yield days that are over their hours or their farms, and figures that are not those of the shortest round."""
    where = f"{person.id} on {planned.day}"
    if len(planned.stops) > inputs.figures.planning.most_farms_a_day:
        yield f"{where} has too many farms"
        return
    if len(planned.stops) > 1 and any(stop.parts > 1 for stop in planned.stops):
        yield f"{where} has something besides a part of a long visit"
    positions = [visits[stop.visit].position for stop in planned.stops]
    driving = min(_driving(person.base, order, inputs.figures.travel) for order in permutations(positions))
    work = sum(stop.minutes for stop in planned.stops)
    if (work, driving) != (planned.work_minutes, planned.travel_minutes):
        yield f"{where} states {planned.work_minutes} + {planned.travel_minutes} min, but takes {work} + {driving}"
    if work + driving > person.minutes_a_day:
        yield f"{where} is over its hours"


def _unwelcome(day: date, visit: VisitToPlace, person: Crew, travel: TravelFigures) -> Iterator[str]:
    """Yield visits outside their window, or by someone who may not make them."""
    if not any(span.first <= day <= span.last for span in visit.spans):
        yield f"{visit.id} is outside its window on {day}"
    if visit.people and person.id not in visit.people:
        yield f"{visit.id} is made by {person.id}, who is not qualified"
    if person.longest_way_km is not None and visit.position is not None:
        way = travel.detour * _kilometres(person.base, visit.position)
        if way > person.longest_way_km:
            yield f"{visit.id} is too far for {person.id}"


def _late(calendar: FieldCalendar, visits: dict[str, VisitToPlace]) -> Iterator[str]:
    """Yield late visits that are not listed with their days, and listed ones that are not late."""
    last: dict[str, date] = {}
    for planned in calendar.days:
        for stop in planned.stops:
            last[stop.visit] = max(planned.day, last.get(stop.visit, planned.day))
    limits = {name: visits[name].last_useful or date.max for name in last}
    expected = {
        (name, day, (day - limits[name]) // timedelta(days=1)) for name, day in last.items() if day > limits[name]
    }
    if expected != {(one.visit, one.day, one.days) for one in calendar.late}:
        yield "the list of late visits is not that of the plan"


def _driving(base: Position, order: tuple[Position | None, ...], travel: TravelFigures) -> int:
    """Return the minutes of a round in the given order [min]; places that are not known are driven to by themselves."""
    places = [base, *(position for position in order if position is not None), base]
    legs = pairwise(places)
    minutes = sum(ceil(travel.detour * _kilometres(*leg) * 60 / travel.speed_km_h - 1e-9) for leg in legs)
    return minutes + 2 * travel.unknown_one_way_minutes * order.count(None)


def _kilometres(one: Position, other: Position) -> float:
    """Return the great-circle distance of two places [km] (haversine)."""
    lon, lat, lon_other, lat_other = map(radians, (*one, *other))
    chord = sin((lat - lat_other) / 2) ** 2 + cos(lat) * cos(lat_other) * sin((lon - lon_other) / 2) ** 2
    return 2 * _EARTH_KM * asin(sqrt(min(1.0, chord)))
