"""The calendar week by week, as plain data for tables and pictures."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from soilrota.model.field_calendar import CalendarWeek, Crew, FieldCalendar


def weeks(calendar: FieldCalendar, crew: Iterable[Crew]) -> tuple[CalendarWeek, ...]:
    """Return the weeks from the first planned day to the last, those without work between them included.

    Args:
        calendar: the calendar.
        crew: who has a row in every week, in this order.
    """
    if not calendar.days:
        return ()
    people = tuple(person.id for person in crew)
    cells = {(planned.person, planned.day): planned for planned in calendar.days}
    first, last = _monday(calendar.days[0].day), _monday(calendar.days[-1].day)
    mondays = [first + timedelta(weeks=number) for number in range((last - first).days // 7 + 1)]
    return tuple(
        CalendarWeek(
            monday,
            tuple(
                (person, tuple(cells.get((person, monday + timedelta(days=day))) for day in range(7)))
                for person in people
            ),
        )
        for monday in mondays
    )


def _monday(day: date) -> date:
    """Return the Monday of the day's week."""
    return day - timedelta(days=day.isoweekday() - 1)
