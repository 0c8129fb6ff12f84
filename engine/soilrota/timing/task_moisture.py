"""Gives each task the outlook of its soil, reckoned once a station."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from soilrota.guidelines import water_figures
from soilrota.model.client import Client
from soilrota.model.windows import Task, TaskKey

if TYPE_CHECKING:
    from soilrota.model.weather import Weather
    from soilrota.timing.moisture import Soil

#: Moisture is judged over the cored depth down to this depth [cm]; deeper layers follow slowly. House default.
DEEPEST_CM = 30.0


def with_outlooks(client: Client, tasks: tuple[Task, ...], weather: Mapping[str, Weather]) -> tuple[Task, ...]:
    """Return the tasks with their outlooks; a task of a farm without weather stays as it is.

    Args:
        client: the client of the tasks.
        tasks: its tasks.
        weather: records up to the as-of date by station id.
    """
    from soilrota.timing.moisture import outlooks  # noqa: PLC0415  # numpy, only where a farm has weather

    soils = _soils(client, tasks, weather)
    by_station: defaultdict[str, list[Soil]] = defaultdict(list)
    for station, soil in soils.values():
        by_station[station].append(soil)
    found = {station: outlooks(weather[station], kinds, water_figures()) for station, kinds in by_station.items()}
    placed = {key: found[station].get(soil) for key, (station, soil) in soils.items()}
    return tuple(replace(task, moisture=placed.get(task.key)) for task in tasks)


def _soils(client: Client, tasks: tuple[Task, ...], weather: Mapping[str, Weather]) -> dict[TaskKey, tuple[str, Soil]]:
    """Return station and soil of each task of a farm that has weather."""
    from soilrota.timing.moisture import Soil  # noqa: PLC0415

    stations = {farm.id: farm.station for farm in client.farms if farm.station in weather}
    zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
    found = {}
    for task in tasks:
        if task.key.farm not in stations:
            continue
        zone, protocol = zones[(task.key.farm, task.key.zone)], client.protocols[task.key.protocol]
        depth = min(max(layer.bottom_cm for layer in protocol.layers), DEEPEST_CM)
        found[task.key] = (stations[task.key.farm], Soil(zone.texture, zone.land_use, depth, protocol.soil_state))
    return found
