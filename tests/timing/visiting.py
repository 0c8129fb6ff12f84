"""Short ways to write tasks that want a visit: days of February 2027 by number."""

from __future__ import annotations

from datetime import date

from soilrota.model.protocol import Layer
from soilrota.model.visits import TaskToVisit, WorkMinutes, ZoneWork
from soilrota.model.windows import Span, TaskKey

FIGURES = WorkMinutes(arrival=20, zone_set_up=10, walking_a_hectare=1.5, topsoil_core=1, deep_core_each_30_cm=4)


def february(number: int) -> date:
    """Return a day of February 2027."""
    return date(2027, 2, number)


def a_task_to_visit(
    zone: str, *days: int, target: int | None = None, last_useful: int | None = None, protocol: str = "topsoil"
) -> TaskToVisit:
    """Return a task of the home block; `days` are first and last days of its spans, one after the other."""
    spans = tuple(Span(february(first), february(last)) for first, last in zip(days[::2], days[1::2], strict=True))
    return TaskToVisit(
        TaskKey("home", zone, protocol),
        spans,
        february(target or (days[0] if days else 1)),
        None if last_useful is None else february(last_useful),
        ZoneWork("home", zone, 10.0, (Layer(0, 10, 25),)),
    )
