"""From a client's visits to the values of its field packs."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.batch.values import PlacedRow, VisitRow
from soilrota.batch.visit_rows import bags_of
from soilrota.documents import zone_letters
from soilrota.model.client import Client, Farm
from soilrota.model.cores import CoreCount
from soilrota.model.field_pack import Bag, FieldPack, PackTask, PackZone
from soilrota.model.ground import Position
from soilrota.model.layout import ZoneLayout
from soilrota.model.moisture import MoistureOutlook
from soilrota.model.windows import TaskKey, Window


@dataclass(frozen=True, slots=True)
class PackGrounds:
    """What the packs of a client are made of, besides its visits.

    Attributes:
        client: the client.
        windows: the answers for its tasks.
        moisture: what is known of the soil's moisture, by task.
        layouts: where cores come from, by task; without those of zones that the map does not draw.
        counts: what the planned cores can tell, by task.
        bags: the bags with their ids.
    """

    client: Client
    windows: Mapping[TaskKey, Window]
    moisture: Mapping[TaskKey, MoistureOutlook | None]
    layouts: Mapping[TaskKey, ZoneLayout]
    counts: Mapping[TaskKey, tuple[CoreCount, ...]]
    bags: Sequence[Bag]


def field_pack(grounds: PackGrounds, visit: VisitRow, placed: PlacedRow | None) -> FieldPack:
    """Return the pack of one visit.

    Args:
        grounds: what the client's packs are made of.
        visit: the visit's row.
        placed: its day and person; None where the field calendar has none for it.
    """
    client = grounds.client
    farm = next(farm for farm in client.farms if farm.id == visit["farm"])
    keys = tuple(dict.fromkeys(TaskKey(bag.farm, bag.zone, bag.protocol) for bag in bags_of(visit)))
    wanted = {(bag.farm, bag.zone, bag.protocol, bag.season) for bag in bags_of(visit)}
    bags = [bag for bag in grounds.bags if (bag.farm, bag.zone, bag.protocol, bag.season) in wanted]
    zones = _in_route(
        farm, [_zone(grounds, farm, zone, keys, bags) for zone in dict.fromkeys(key.zone for key in keys)]
    )
    return FieldPack(
        client=client,
        farm=farm,
        number=int(visit["visit"].rpartition("/")[2]),
        day=date.fromisoformat(placed["day"] if placed else visit["preferred"]),
        person=placed["person"] if placed else "",
        zones=zones,
        work_minutes=int(visit["minutes"]),
        walk_m=_walk_m(farm, zones),
    )


def _zone(grounds: PackGrounds, farm: Farm, zone_id: str, keys: Sequence[TaskKey], bags: Sequence[Bag]) -> PackZone:
    """Return one zone with its tasks of the visit."""
    letters = zone_letters(len(farm.zones))
    letter, zone = next((letter, zone) for letter, zone in zip(letters, farm.zones, strict=True) if zone.id == zone_id)
    return PackZone(letter, zone, tuple(_task(grounds, key, bags) for key in keys if key.zone == zone_id))


def _task(grounds: PackGrounds, key: TaskKey, bags: Sequence[Bag]) -> PackTask:
    """Return one task."""
    protocol = grounds.client.protocols[key.protocol]
    return PackTask(
        protocol=protocol,
        layers=protocol.layers,
        laboratory=grounds.client.practice.laboratories.get(protocol.laboratory),
        bags=tuple(bag for bag in bags if (bag.zone, bag.protocol) == (key.zone, key.protocol)),
        layout=grounds.layouts.get(key),
        counts=grounds.counts.get(key, ()),
        open_days=grounds.windows[key].workable,
        moisture=grounds.moisture.get(key),
    )


def _in_route(farm: Farm, zones: list[PackZone]) -> tuple[PackZone, ...]:
    """Return the zones in the order of a short way; those without a place on the map last, in the order of the file."""
    order = {zone.id: number for number, zone in enumerate(farm.zones)}
    zones = sorted(zones, key=lambda one: order[one.zone.id])
    places = [(zone, place) for zone in zones if (place := _begins(zone)) is not None]
    if not places:
        return tuple(zones)
    from soilrota.layout.route import route  # noqa: PLC0415 - only where a map exists

    drawn = [places[index][0] for index in route([place for _, place in places], farm.access)]
    return (*drawn, *(zone for zone in zones if _begins(zone) is None))


def _begins(zone: PackZone) -> Position | None:
    """Return where the walk of a zone begins; None where there is none."""
    return next((task.layout.walk[0] for task in zone.tasks if task.layout is not None and task.layout.walk), None)


def _walk_m(farm: Farm, zones: Sequence[PackZone]) -> float | None:
    """Return the walk on the farm [m]; None where no zone is drawn."""
    walks = [(task.layout.walk, task.layout.walk_m) for zone in zones for task in zone.tasks if task.layout is not None]
    if not walks:
        return None
    from soilrota.layout.route import walk_on_farm_m  # noqa: PLC0415 - only where a map exists

    return walk_on_farm_m(walks, farm.access)
