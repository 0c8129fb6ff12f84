"""Short ways to write visits and people in tests, and random seasons."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

from soilrota.guidelines.field_work import field_work
from soilrota.model.field_calendar import CalendarInputs, Crew, VisitToPlace
from soilrota.model.windows import Span

MONDAY = date(2027, 1, 18)
TOWN = (145.0, -37.0)


def on(number: int) -> date:
    """Return a day, counted from the first Monday (0)."""
    return MONDAY + timedelta(days=number)


def a_visit(
    name: str = "a",
    first: int = 0,
    last: int = 4,
    *,
    minutes: int = 120,
    preferred: int | None = None,
    last_useful: int | None = None,
    east_km: float | None = 0.0,
    priority: int = 1,
    people: tuple[str, ...] = (),
) -> VisitToPlace:
    """Return a visit with one window, so many kilometres to the east of the town."""
    return VisitToPlace(
        id=name,
        client="anvil-creek",
        farm=name,
        position=None if east_km is None else (TOWN[0] + east_km / 88.8, TOWN[1]),
        minutes=minutes,
        spans=(Span(on(first), on(last)),),
        preferred=on(first if preferred is None else preferred),
        last_useful=None if last_useful is None else on(last_useful),
        priority=priority,
        people=people,
    )


def a_person(name: str = "mara", minutes: int = 480, **other: object) -> Crew:
    """Return a person who starts in the town."""
    return replace(Crew(name, name.title(), TOWN, minutes), **other)


def some_inputs(
    *visits: VisitToPlace,
    crew: tuple[Crew, ...] | None = None,
    closures: tuple[Span, ...] = (),
    free_days: int = 3,
) -> CalendarInputs:
    """Return inputs; one person unless given."""
    figures = replace(field_work(), planning=replace(field_work().planning, free_days=free_days))
    return CalendarInputs(visits, (a_person(),) if crew is None else crew, closures, figures)


def a_season(number: int, people: int, seed: int, longest: int = 160) -> CalendarInputs:
    """Return a season of twelve weeks: farms around forty towns, people in some of them, leave and closed days.

    Work is 40 to `longest` minutes a visit; windows are two to six weeks around the preferred day.
    """
    random = Random(seed)
    towns = [(144.0 + 1.8 * random.random(), -38.0 + 1.2 * random.random()) for _ in range(5 * people)]
    crew = tuple(
        Crew(
            id=f"person-{index}",
            name=f"Person {index}",
            base=towns[5 * index],
            minutes_a_day=random.choice((450, 480, 510)),
            leave=(Span(on(away), on(away + 4)),) if (away := 7 * random.randrange(24)) < 84 else (),
        )
        for index in range(people)
    )
    return CalendarInputs(
        tuple(_season_visit(index, towns, crew, random, longest) for index in range(number)),
        crew,
        (Span(on(8), on(8)), Span(on(49), on(49))),
        field_work(),
    )


def _season_visit(
    index: int, towns: list[tuple[float, float]], crew: tuple[Crew, ...], random: Random, longest: int
) -> VisitToPlace:
    """Return a visit of the season."""
    town = random.choice(towns)
    preferred = random.randrange(84)
    first = max(0, preferred - random.randrange(7, 22))
    last = min(83, preferred + random.randrange(7, 22))
    return VisitToPlace(
        id=f"visit-{index:04}",
        client=f"client-{index:04}",
        farm="home",
        position=(town[0] + random.gauss(0, 0.12), town[1] + random.gauss(0, 0.1)),
        minutes=random.randrange(40, longest),
        spans=(Span(on(first), on(last)),),
        preferred=on(preferred),
        last_useful=on(min(83, preferred + 14)) if random.random() < 0.3 else None,
        priority=random.choice((1, 1, 1, 2, 3)),
        people=tuple(person.id for person in random.sample(crew, max(1, len(crew) // 2)))
        if random.random() < 0.1
        else (),
    )
