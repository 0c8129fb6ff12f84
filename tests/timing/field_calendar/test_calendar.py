"""The field calendar: against every plan on small inputs, and its promises on random seasons."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from itertools import pairwise, permutations, product
from math import asin, ceil, cos, radians, sin, sqrt
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.model.field_calendar import CalendarInputs, CalendarScore, Crew, Effort, LeftOut, VisitToPlace
from soilrota.model.ground import Position
from soilrota.model.windows import Span
from soilrota.timing.field_calendar import broken_promises, plan_calendar
from tests.timing.counts import RANDOM_TASKS
from tests.timing.field_calendar.making import a_person, a_season, a_visit, on, some_inputs

ROOT = Path(__file__).resolve().parents[3]
#: Small calendars held against every plan: few in an ordinary run.
SMALL_CALENDARS = RANDOM_TASKS // 30

days = st.integers(0, 3)
visits = st.builds(
    lambda ends, **other: a_visit(first=min(ends), last=max(ends), **other),
    ends=st.tuples(days, days),
    minutes=st.sampled_from([100, 190, 260]),
    preferred=days,
    last_useful=st.none() | days,
    east_km=st.sampled_from([None, -30.0, 5.0, 40.0]),
    priority=st.sampled_from([1, 2]),
    people=st.sampled_from([(), ("ada",)]),
)
crews = st.lists(
    st.builds(a_person, minutes=st.sampled_from([300, 480]), leave=st.sampled_from([(), (Span(on(1), on(1)),)])),
    min_size=1,
    max_size=2,
).map(lambda crew: tuple(replace(person, id=name) for person, name in zip(crew, ("ada", "bea"), strict=False)))


def _minutes(one: Position, two: Position) -> int:
    """Return minutes of driving between two places."""
    lon, lat, lon2, lat2 = map(radians, (*one, *two))
    half = sin((lat - lat2) / 2) ** 2 + cos(lat) * cos(lat2) * sin((lon - lon2) / 2) ** 2
    return ceil(1.3 * 2 * 6371.0088 * asin(sqrt(half)) - 1e-9)


def _round(person: Crew, some: tuple[VisitToPlace, ...]) -> int:
    """Return the minutes of the shortest round."""
    known = [visit.position for visit in some if visit.position is not None]
    orders = [[person.base, *order, person.base] for order in permutations(known)]
    shortest = min(sum(_minutes(one, two) for one, two in pairwise(order)) for order in orders)
    return shortest + 120 * (len(some) - len(known))


def _points(visit: VisitToPlace, day: int, free_days: int) -> int:
    """Return the points of a visit on a day."""
    away = max(0, abs((on(day) - visit.preferred).days) - free_days)
    late = 0 if visit.last_useful is None else (on(day) - visit.last_useful).days
    return away + (30 + late if late > 0 else 0)


def _best_by_trying(inputs: CalendarInputs) -> CalendarScore:
    """Return the best score of every plan: each visit on any day of any person, or on none."""
    free = inputs.figures.planning.free_days
    places = [(person, day) for person in inputs.crew for day in range(4)]
    options = [
        [None]
        + [
            (person, day)
            for person, day in places
            if on(day) in visit.spans[0]
            and not any(on(day) in away for away in (*person.leave, *inputs.closures))
            and (not visit.people or person.id in visit.people)
        ]
        for visit in inputs.visits
    ]
    best = CalendarScore(10**9, 0, 0)
    for plan in product(*options):
        unplaced = sum(visit.priority for visit, place in zip(inputs.visits, plan, strict=True) if place is None)
        points = sum(_points(v, place[1], free) for v, place in zip(inputs.visits, plan, strict=True) if place)
        if (unplaced, points) > (best.unplaced, best.points):
            continue
        travel = 0
        for person, day in set(filter(None, plan)):
            some = tuple(v for v, place in zip(inputs.visits, plan, strict=True) if place == (person, day))
            driving = _round(person, some)
            travel += driving if driving + sum(v.minutes for v in some) <= person.minutes_a_day else 10**9
        if travel < 10**9:
            best = min(best, CalendarScore(unplaced, points, travel))
    return best


@settings(max_examples=SMALL_CALENDARS, deadline=None)
@given(st.lists(visits, min_size=1, max_size=4), crews, st.sampled_from([0, 1]), st.booleans())
def test_small_calendars_are_the_best_of_all(
    some: list[VisitToPlace], crew: tuple[Crew, ...], free_days: int, closed: bool
) -> None:
    """Placed, days away and driving are those of trying every plan; the bound is met and proven."""
    named = [replace(visit, id=f"v{number}", farm=f"v{number}") for number, visit in enumerate(some)]
    closures = (Span(on(2), on(2)),) if closed else ()
    inputs = some_inputs(*named, crew=crew, closures=closures, free_days=free_days)
    inputs = replace(inputs, visits=tuple(v for v in inputs.visits if _somebody_can(v, crew)))
    calendar = plan_calendar(inputs, Effort(5.0))
    assert broken_promises(calendar, inputs) == ()
    assert calendar.score == _best_by_trying(inputs)
    assert calendar.proof.exact
    assert (calendar.proof.bound, calendar.proof.gap) == (calendar.proof.objective, 0)


def _somebody_can(visit: VisitToPlace, crew: tuple[Crew, ...]) -> bool:
    """Return whether the visit fits one day of someone, so that it is not split."""
    able = [person for person in crew if not visit.people or person.id in visit.people]
    return any(visit.minutes + _round(person, (visit,)) <= person.minutes_a_day for person in able)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("longest", [160, 420])
def test_random_seasons_keep_every_promise(seed: int, longest: int) -> None:
    """Windows, closures, leave, hours, long visits: nothing is broken, nothing worse than the greedy plan."""
    inputs = a_season(90, 2, seed=seed, longest=longest)
    calendar = plan_calendar(inputs, Effort(1.0, 20))
    assert broken_promises(calendar, inputs) == ()
    assert calendar.score <= calendar.greedy_score
    assert calendar.proof.bound <= calendar.proof.objective
    assert not calendar.proof.exact


def test_the_same_calendar_in_any_order_and_any_process() -> None:
    """The order of visits and people does not matter, nor does the process's hash seed."""
    inputs = a_season(70, 2, seed=11)
    calendar = plan_calendar(inputs, Effort(1.0, 15))
    random = Random(5)
    mixed = replace(
        inputs,
        visits=tuple(random.sample(inputs.visits, len(inputs.visits))),
        crew=tuple(reversed(inputs.crew)),
    )
    assert plan_calendar(mixed, Effort(1.0, 15)) == calendar
    code = (
        "from tests.timing.field_calendar.making import a_season\n"
        "from soilrota.model.field_calendar import Effort\n"
        "from soilrota.timing.field_calendar import plan_calendar\n"
        "print(repr(plan_calendar(a_season(70, 2, seed=11), Effort(1.0, 15))))"
    )
    command = [sys.executable, "-c", code]
    other = subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT, env={"PYTHONHASHSEED": "77"})
    assert other.stdout.strip() == repr(calendar)


def test_what_the_bound_leaves_out_is_said() -> None:
    """A calendar with a split visit is not proven best, and says why the bound may be low."""
    inputs = some_inputs(a_visit("a", minutes=700, preferred=-9), a_visit("b"))
    calendar = plan_calendar(inputs)
    assert calendar.proof.leaves_out == (LeftOut.DRIVES_SHARED, LeftOut.LONG_VISITS_FREE, LeftOut.TRAVEL_NOT_BOUNDED)
    assert not calendar.proof.exact
    parts = [(day.day, stop.part, stop.parts) for day in calendar.days for stop in day.stops if stop.visit == "a"]
    assert parts == [(on(0), 1, 2), (on(1), 2, 2)]


def test_nothing_to_plan() -> None:
    """No visits, or nobody to make them, is a calendar too."""
    assert plan_calendar(some_inputs()).days == ()
    alone = plan_calendar(some_inputs(a_visit(), crew=()))
    assert (len(alone.unplaced), alone.proof.gap) == (1, 0)
