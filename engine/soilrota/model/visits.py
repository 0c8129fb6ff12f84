"""Visits of one farm: what is to be taken, which tasks go together on which day, and what else would cost."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from soilrota.model.protocol import Layer
from soilrota.model.windows import Span, TaskKey


@dataclass(frozen=True, slots=True)
class ZoneWork:
    """What is to be taken in one zone: its area [ha] and the layers with their cores."""

    farm: str
    zone: str
    area_ha: float
    layers: tuple[Layer, ...]


@dataclass(frozen=True, slots=True)
class WorkMinutes:
    """How long field work takes.

    Attributes:
        arrival: once a visit: gate, cleaning down, safety talk [min].
        zone_set_up: once a zone: marks, bags, labels, mixing [min].
        walking_a_hectare: once a zone [min/ha].
        topsoil_core: one core of a layer that starts at the surface [min].
        deep_core_each_30_cm: one deeper core, every 30 cm of depth begun, closing the hole included [min].
    """

    arrival: float
    zone_set_up: float
    walking_a_hectare: float
    topsoil_core: float
    deep_core_each_30_cm: float


@dataclass(frozen=True, slots=True)
class TaskToVisit:
    """A task of a farm that wants a day.

    Attributes:
        key: which task.
        spans: open days; any order.
        target: the day aimed at.
        last_useful: last day on which the results still come in time for a decision; None without one.
        work: what is to be taken.
    """

    key: TaskKey
    spans: tuple[Span, ...]
    target: date
    last_useful: date | None
    work: ZoneWork


@dataclass(frozen=True, slots=True)
class VisitDay:
    """One visit to a farm: its day, its tasks in order, minutes on the farm [min], those of its tasks that are late."""

    day: date
    tasks: tuple[TaskKey, ...]
    minutes: int
    late: tuple[TaskKey, ...]


@dataclass(frozen=True, slots=True)
class OneMoreVisit:
    """What one visit more would bring: the days, and by how much the total penalty would fall (0: nothing)."""

    days: tuple[date, ...]
    gain: int


@dataclass(frozen=True, slots=True)
class OneFewerVisit:
    """What one visit fewer would cost: the days that would be left, and the tasks that would go without one."""

    days: tuple[date, ...]
    missed: tuple[TaskKey, ...]


@dataclass(frozen=True, slots=True)
class VisitPlan:
    """A farm's tasks in as few visits as their windows allow, and the best of those.

    Attributes:
        visits: in order of day.
        without_day: tasks that have no open day.
        penalty: total penalty of the chosen days; smaller is better.
        witness: tasks with the days they can use, that need as many visits by themselves; empty for one visit or none.
        witness_apart: whether no two of the witness share a day (else: not all of them can share the days of fewer).
        one_more: what one visit more would bring; None without visits.
        one_fewer: what one visit fewer would cost; None without visits.
        proven: whether the solver proved every number; False where it met its limit.
    """

    visits: tuple[VisitDay, ...]
    without_day: tuple[TaskKey, ...]
    penalty: int
    witness: tuple[tuple[TaskKey, tuple[Span, ...]], ...]
    witness_apart: bool
    one_more: OneMoreVisit | None
    one_fewer: OneFewerVisit | None
    proven: bool


@dataclass(frozen=True, slots=True)
class SharedDays:
    """Tasks on one zone that can share a visit, and the days on which all of them are open."""

    keys: tuple[TaskKey, ...]
    spans: tuple[Span, ...]


@dataclass(frozen=True, slots=True)
class FarmVisits:
    """The visits of one farm, and the tasks on one zone that could share one."""

    farm: str
    plan: VisitPlan
    sharing: tuple[SharedDays, ...]
