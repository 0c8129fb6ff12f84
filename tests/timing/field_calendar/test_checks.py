"""The independent checker finds each broken promise, and nothing in a good calendar."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.model.field_calendar import (
    CalendarInputs,
    FieldCalendar,
    LateVisit,
    PersonDay,
    Stop,
    UnplacedVisit,
    WhyLate,
    WhyUnplaced,
)
from soilrota.model.windows import Span
from soilrota.timing.field_calendar import broken_promises, plan_calendar
from tests.timing.field_calendar.making import a_person, a_visit, on, some_inputs

INPUTS = some_inputs(
    a_visit("a", 0, 4, preferred=1, people=("mara",)),
    a_visit("b", 0, 4, preferred=1, east_km=20, last_useful=3),
    a_visit("c", 0, 9, preferred=2, minutes=700),
    crew=(a_person("mara", leave=(Span(on(4), on(4)),)), a_person("zoe", longest_way_km=30.0)),
    closures=(Span(on(0), on(0)),),
)
GOOD = plan_calendar(INPUTS)


def with_day(name: str, **changes: object) -> FieldCalendar:
    """Return the good calendar with the person-day of a visit changed."""
    days = tuple(replace(day, **changes) if any(s.visit == name for s in day.stops) else day for day in GOOD.days)
    return replace(GOOD, days=days)


def day_of(name: str) -> PersonDay:
    """Return the first person-day of a visit in the good calendar."""
    return next(day for day in GOOD.days if any(stop.visit == name for stop in day.stops))


def test_a_good_calendar_breaks_nothing() -> None:
    """Placed, split and in time."""
    assert GOOD.unplaced == ()
    assert broken_promises(GOOD, INPUTS) == ()


def altered() -> list[tuple[str, FieldCalendar, CalendarInputs]]:
    """Return calendars with one thing wrong each, and a word of what must be found."""
    first = day_of("a")
    stop = first.stops[0]
    shorter = replace(INPUTS, crew=tuple(replace(person, minutes_a_day=130) for person in INPUTS.crew))
    fewer = replace(INPUTS.figures, planning=replace(INPUTS.figures.planning, most_farms_a_day=1))
    lone = PersonDay("zoe", on(3), (Stop("a", 120, 1, 1), Stop("b", 120, 1, 1)), 240, 54, 52.0)
    return [
        ("neither", replace(GOOD, days=tuple(day for day in GOOD.days if day is not first)), INPUTS),
        ("placed and listed", replace(GOOD, unplaced=(UnplacedVisit("a", WhyUnplaced.DAYS_FULL),)), INPUTS),
        ("placed twice", replace(GOOD, days=(*GOOD.days, replace(first, day=on(9)))), INPUTS),
        ("not its work", with_day("a", stops=(replace(stop, minutes=1), *first.stops[1:])), INPUTS),
        ("two entries", replace(GOOD, days=(*GOOD.days, first)), INPUTS),
        ("weekday", with_day("a", day=on(5)), INPUTS),
        ("on leave", with_day("a", person="mara", day=on(4)), INPUTS),
        ("closed", with_day("a", day=on(0)), INPUTS),
        ("too many farms", replace(GOOD, days=(lone,)), replace(INPUTS, figures=fewer)),
        ("besides a part", with_day("a", stops=(*first.stops, Stop("c", 5, 1, 2))), INPUTS),
        ("states", with_day("a", travel_minutes=1), INPUTS),
        ("over its hours", GOOD, shorter),
        ("outside its window", with_day("a", day=on(7)), INPUTS),
        ("not qualified", with_day("a", person="zoe"), INPUTS),
        (
            "too far",
            with_day("b", person="zoe"),
            replace(INPUTS, crew=(INPUTS.crew[0], replace(INPUTS.crew[1], longest_way_km=5.0))),
        ),
        ("late visits", replace(GOOD, late=(LateVisit("b", on(4), 1, WhyLate.OPENS_LATE),)), INPUTS),
        ("late visits", with_day("b", day=on(4), person="zoe"), INPUTS),
    ]


@pytest.mark.parametrize(("word", "calendar", "inputs"), altered(), ids=[case[0] for case in altered()])
def test_each_broken_promise_is_found(word: str, calendar: FieldCalendar, inputs: CalendarInputs) -> None:
    """One alteration a promise; the sentence names it."""
    assert any(word in sentence for sentence in broken_promises(calendar, inputs))
