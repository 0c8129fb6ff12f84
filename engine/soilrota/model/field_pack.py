"""What a crew takes along on one visit: zones, points, bags, kit and what to look out for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from soilrota.model.client import Client, Farm, Zone
    from soilrota.model.cores import CoreCount
    from soilrota.model.layout import ZoneLayout
    from soilrota.model.moisture import MoistureOutlook
    from soilrota.model.practice import Laboratory
    from soilrota.model.protocol import Layer, Protocol
    from soilrota.model.windows import Span


@dataclass(frozen=True, slots=True)
class Bag:
    """One bag: one zone, one protocol, one depth layer, one season.

    Attributes:
        id: its id, check character included, for instance `B0412-G`.
        farm, zone, protocol: ids.
        season: first day of the season of the task, ISO 8601: the same bag for the same season, however often planned.
        top_cm, bottom_cm: depth of the layer [cm].
    """

    id: str
    farm: str
    zone: str
    protocol: str
    season: str
    top_cm: float
    bottom_cm: float


@dataclass(frozen=True, slots=True)
class PackTask:
    """One zone under one protocol, to be sampled on the visit.

    Attributes:
        protocol: the protocol.
        layers: its depth layers with their cores.
        laboratory: where the bags go; None when none is named.
        bags: one a layer, from the top down.
        layout: where the cores come from; None where the map does not draw the zone.
        counts: what the planned cores can tell, the most demanding analyte first; may be empty.
        open_days: the days of the window that are left.
        moisture: what is known of the soil's moisture; None without a weather station.
    """

    protocol: Protocol
    layers: tuple[Layer, ...]
    laboratory: Laboratory | None
    bags: tuple[Bag, ...]
    layout: ZoneLayout | None
    counts: tuple[CoreCount, ...]
    open_days: tuple[Span, ...]
    moisture: MoistureOutlook | None


@dataclass(frozen=True, slots=True)
class PackZone:
    """One zone of the visit, with its tasks; `letter` is its letter on the farm's map in the programme."""

    letter: str
    zone: Zone
    tasks: tuple[PackTask, ...]


@dataclass(frozen=True, slots=True)
class FieldPack:
    """Everything of one visit.

    Attributes:
        client, farm: where.
        number: the visit's number on the farm, from 1.
        day: the day planned in the field calendar, or else in the farm's own plan.
        person: who goes, by name; empty where the field calendar names nobody.
        zones: in the order of the route.
        work_minutes: cores, set-up and walking on the farm [min].
        walk_m: walking, from the way in through all zones and back, straight between points [m]; None without a map.
    """

    client: Client
    farm: Farm
    number: int
    day: date
    person: str
    zones: tuple[PackZone, ...]
    work_minutes: int
    walk_m: float | None
