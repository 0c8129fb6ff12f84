"""Why a visit has no day, or a late one."""

from __future__ import annotations

from soilrota.model.field_calendar import LateVisit, UnplacedVisit, WhyLate, WhyUnplaced
from soilrota.timing.field_calendar.draft import Draft
from soilrota.timing.field_calendar.frame import Frame
from soilrota.timing.field_calendar.greedy import may_split


def unplaced_visits(draft: Draft) -> tuple[UnplacedVisit, ...]:
    """Return the visits without a day, in order of id, each with the first reason that holds."""
    frame = draft.frame
    return tuple(UnplacedVisit(frame.visits[visit].id, _why_unplaced(frame, visit)) for visit in draft.unplaced())


def late_visits(draft: Draft) -> tuple[LateVisit, ...]:
    """Return the visits after their last useful day, in order of id."""
    found = []
    for number, visit in enumerate(draft.frame.visits):
        day = draft.day_of(number)
        if day is not None and visit.last_useful is not None and draft.frame.days[day] > visit.last_useful:
            when = draft.frame.days[day]
            late = (when - visit.last_useful).days
            found.append(LateVisit(visit.id, when, late, _why_late(draft.frame, number)))
    return tuple(found)


def _why_unplaced(frame: Frame, number: int) -> WhyUnplaced:
    """Return why a visit has no day."""
    visit = frame.visits[number]
    if not visit.spans:
        return WhyUnplaced.NO_OPEN_DAY
    if not frame.points[number]:
        return WhyUnplaced.ONLY_CLOSED_DAYS
    if not any(not visit.people or person.id in visit.people for person in frame.people):
        return WhyUnplaced.NOBODY_QUALIFIED
    if not frame.allowed[number]:
        return WhyUnplaced.TOO_FAR
    people = frame.able[number] or frame.allowed[number]
    if not any(day in frame.at_work[person] for person in people for day in frame.points[number]):
        return WhyUnplaced.NOBODY_AT_WORK
    if frame.able[number]:
        return WhyUnplaced.DAYS_FULL
    return WhyUnplaced.NO_RUN_OF_DAYS if may_split(frame, number) else WhyUnplaced.TOO_LONG


def _why_late(frame: Frame, number: int) -> WhyLate:
    """Return why a visit stands after its last useful day."""
    last = frame.visits[number].last_useful
    in_time = [day for day in frame.points[number] if last is not None and frame.days[day] <= last]
    if not in_time:
        return WhyLate.OPENS_LATE
    people = frame.able[number] or frame.allowed[number]
    if not any(day in frame.at_work[person] for person in people for day in in_time):
        return WhyLate.NOBODY_EARLIER
    return WhyLate.EARLIER_DAYS_FULL
