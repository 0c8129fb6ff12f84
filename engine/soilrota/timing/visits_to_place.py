"""From the visits of each farm to what the field calendar places: one entry a visit, with its days and its work."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from functools import reduce

from soilrota.model.client import Client, Farm
from soilrota.model.field_calendar import VisitToPlace
from soilrota.model.ground import Position
from soilrota.model.visits import FarmVisits, VisitDay
from soilrota.model.windows import Rule, Span, TaskKey, Window
from soilrota.timing.spans import intersect


def visits_to_place(
    client: Client, visits: Sequence[FarmVisits], windows: Sequence[Window]
) -> tuple[VisitToPlace, ...]:
    """Return the visits of a client that want a person and a day, farm by farm, in order of day.

    A visit may be made on the days that all its tasks share; it is late after the last useful day of any that is not
    late already. It aims at its day in the farm's plan; where that is the first day there is because a best day has
    passed, at the earliest day that its tasks aimed at, so that sooner is better and the aim stands still.

    Args:
        client: the client.
        visits: the visits of its farms.
        windows: the answers for its tasks.
    """
    answers = {window.key: window for window in windows}
    farms = {farm.id: farm for farm in client.farms}
    return tuple(
        _to_place(client, farms[of_farm.farm], visit, number, answers)
        for of_farm in visits
        for number, visit in enumerate(of_farm.plan.visits, start=1)
    )


def _to_place(
    client: Client, farm: Farm, visit: VisitDay, number: int, answers: Mapping[TaskKey, Window]
) -> VisitToPlace:
    """Return one visit."""
    windows = [answers[key] for key in visit.tasks]
    shared: tuple[Span, ...] = reduce(intersect, (window.workable for window in windows))
    limits = [
        window.last_useful for window in windows if window.last_useful is not None and window.key not in visit.late
    ]
    return VisitToPlace(
        id=f"{client.id}/{farm.id}/{number}",
        client=client.id,
        farm=farm.id,
        position=place_of(farm),
        minutes=visit.minutes,
        spans=shared,
        preferred=_aim(visit, windows, shared),
        last_useful=min(limits, default=None),
        people=client.samplers,
    )


def _aim(visit: VisitDay, windows: Sequence[Window], shared: tuple[Span, ...]) -> date:
    """Return the day that a visit aims at."""
    passed = any(reason.rule is Rule.BEST_DAY_PASSED for window in windows for reason in window.reasons)
    if passed and visit.day == shared[0].first:
        return min(window.target for window in windows)
    return visit.day


def place_of(farm: Farm) -> Position | None:
    """Return where a crew starts on a farm [degree]: its way in, or the middle of what is drawn; None where nothing is.

    Args:
        farm: the farm.
    """
    if farm.access is not None:
        return farm.access
    drawn = [outline for outline in (farm.boundary, *(zone.outline for zone in farm.zones)) if outline is not None]
    if not drawn:
        return None
    from soilrota.geometry import projection  # noqa: PLC0415  # only where a map exists

    west, south, east, north = projection.bounds(*drawn)
    return projection.beside((west + east) / 2, 0.0), (south + north) / 2
