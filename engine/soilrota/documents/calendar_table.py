"""`field_calendar.csv`: every visit of every client, one stop a row, for a spreadsheet.

Columns, all text: `day` (ISO date; empty where the visit has none), `person`, `person_name`, `stop` (in driving order),
`client`, `client_name`, `farm`, `farm_name`, `zones` (joined by `; `), `work_minutes`, `driving_minutes` (of the whole
day, base to base), `part` and `parts` (of a visit split over days), `best_day`, `last_useful_day` (empty without one),
`days_late` (empty where it is not late), `why` (of no day or of a late one, in words).
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.documents.calendar_words import WHY_LATE, WHY_UNPLACED
from soilrota.files import safe_table
from soilrota.model.field_calendar import PlannedCalendar, VisitToPlace

COLUMNS = (
    "day",
    "person",
    "person_name",
    "stop",
    "client",
    "client_name",
    "farm",
    "farm_name",
    "zones",
    "work_minutes",
    "driving_minutes",
    "part",
    "parts",
    "best_day",
    "last_useful_day",
    "days_late",
    "why",
)


def calendar_table(plan: PlannedCalendar) -> bytes:
    """Return the calendar as CSV: stops by day and person, then visits without a day."""
    return safe_table(COLUMNS, _rows(plan))


def _rows(plan: PlannedCalendar) -> Iterator[dict[str, str]]:
    """Yield the rows."""
    visits = {visit.id: visit for visit in plan.inputs.visits}
    names = {person.id: person.name for person in plan.inputs.crew}
    late = {one.visit: one for one in plan.calendar.late}
    for planned in plan.calendar.days:
        for number, stop in enumerate(planned.stops, start=1):
            lateness = late.get(stop.visit)
            yield {
                **_visit(visits[stop.visit], plan),
                "day": planned.day.isoformat(),
                "person": planned.person,
                "person_name": names[planned.person],
                "stop": str(number),
                "work_minutes": str(stop.minutes),
                "driving_minutes": str(planned.travel_minutes),
                "part": str(stop.part),
                "parts": str(stop.parts),
                "days_late": str(lateness.days) if lateness else "",
                "why": WHY_LATE[lateness.reason] if lateness else "",
            }
    for left in plan.calendar.unplaced:
        yield {**_visit(visits[left.visit], plan), "why": WHY_UNPLACED[left.reason]}


def _visit(visit: VisitToPlace, plan: PlannedCalendar) -> dict[str, str]:
    """Return what is known of a visit whatever becomes of it."""
    label = plan.labels[visit.id]
    return {
        "client": visit.client,
        "client_name": label.client,
        "farm": visit.farm,
        "farm_name": label.farm,
        "zones": "; ".join(label.zones),
        "work_minutes": str(visit.minutes),
        "best_day": visit.preferred.isoformat(),
        "last_useful_day": visit.last_useful.isoformat() if visit.last_useful else "",
    }
