"""A field calendar from its inputs."""

from __future__ import annotations

from soilrota.model.field_calendar import CalendarInputs, Effort, FieldCalendar, LeftOut, PersonDay, Proof, Stop
from soilrota.timing.field_calendar.bound import least_points
from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Frame, Slot, frame_of
from soilrota.timing.field_calendar.greedy import greedy_plan, may_split
from soilrota.timing.field_calendar.leftovers import late_visits, unplaced_visits
from soilrota.timing.field_calendar.search import Whole, improve, solve_whole

#: Deterministic time for the bound at most [-].
_LIMIT_OF_BOUND = 2.0


def plan_calendar(inputs: CalendarInputs, effort: Effort | None = None) -> FieldCalendar:
    """Return the visits on the days of the people.

    As many visits as possible have a day (by priority), then the fewest points (days away from the preferred day
    beyond the free ones; lateness), then the least driving. The plan is never worse than the greedy one that it starts
    from. A calendar small enough for one model is solved whole; a larger one part by part, and how far it can be from
    the best is stated against a model that leaves something out. Same inputs in any order, same calendar.

    Args:
        inputs: visits, people, closures and figures.
        effort: how hard to try; the default takes well under a minute for 1,000 visits.

    Raises:
        ValueError: ids repeat, or a priority is less than 1 (a fault of the caller).
    """
    effort = effort or Effort()
    frame = frame_of(inputs)
    greedy = greedy_plan(frame)
    draft = Draft(frame, dict(greedy.slots), dict(greedy.home), dict(greedy.splits), set(greedy.blocked))
    whole = solve_whole(draft, effort)
    if whole is None:
        improve(draft, effort)
    best = min((draft, greedy), key=lambda plan: plan.score())
    return FieldCalendar(
        days=_person_days(best),
        late=late_visits(best),
        unplaced=unplaced_visits(best),
        score=best.score(),
        greedy_score=greedy.score(),
        proof=_proof(best, whole, effort),
    )


def _proof(draft: Draft, whole: Whole | None, effort: Effort) -> Proof:
    """Return how far a plan can be from the best."""
    frame, score = draft.frame, draft.score()
    objective = score.unplaced * frame.unplaced_points + score.points
    bound, left_out = _bound(draft, whole, effort) if objective else (0, ())
    gap = (objective - bound) / objective if objective else 0.0
    exact = whole is not None and whole.proven
    return Proof(objective, bound, gap, frame.unplaced_points, exact, left_out)


def _bound(draft: Draft, whole: Whole | None, effort: Effort) -> tuple[int, tuple[LeftOut, ...]]:
    """Return the points that no calendar can beat, and what their model leaves out."""
    if whole is not None:
        return whole.least_points, ()
    bound, cut = least_points(draft, _LIMIT_OF_BOUND, effort.seed)
    distant = (LeftOut.DISTANT_DAYS_FREE,) if cut else ()
    return bound, (LeftOut.DRIVES_SHARED, *distant, *_long_visits(draft.frame), LeftOut.TRAVEL_NOT_BOUNDED)


def _long_visits(frame: Frame) -> tuple[LeftOut, ...]:
    """Return what the bound leaves out where visits are split over days."""
    return (LeftOut.LONG_VISITS_FREE,) if any(may_split(frame, visit) for visit in range(len(frame.visits))) else ()


def _person_days(draft: Draft) -> tuple[PersonDay, ...]:
    """Return the person-days with at least one stop, by day, then person."""
    stops = {slot: _stops(draft, slot) for slot in draft.slots}
    for visit, parts in draft.splits.items():
        for number, (slot, minutes) in enumerate(parts, start=1):
            stops[slot] = ((visit, Stop(draft.frame.visits[visit].id, minutes, number, len(parts))),)
    return tuple(
        _person_day(draft.frame, slot, stops[slot]) for slot in sorted(stops, key=lambda one: (one[1], one[0]))
    )


def _stops(draft: Draft, slot: Slot) -> tuple[tuple[int, Stop], ...]:
    """Return the visits of a person on a day in driving order."""
    visits = draft.frame.visits
    order = draft.frame.roads.round_order(slot[0], draft.slots[slot])
    return tuple((visit, Stop(visits[visit].id, visits[visit].minutes, 1, 1)) for visit in order)


def _person_day(frame: Frame, slot: Slot, stops: tuple[tuple[int, Stop], ...]) -> PersonDay:
    """Return one day of one person."""
    person, day = slot
    visits = tuple(visit for visit, _ in stops)
    return PersonDay(
        person=frame.people[person].id,
        day=frame.days[day],
        stops=tuple(stop for _, stop in stops),
        work_minutes=sum(stop.minutes for _, stop in stops),
        travel_minutes=frame.roads.round_minutes(person, tuple(sorted(visits))),
        travel_km=round(frame.roads.round_km(person, visits), 1),
    )
