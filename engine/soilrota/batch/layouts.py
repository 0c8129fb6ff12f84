"""The layouts of a client: where the cores of each task come from, with the points of the sampling before."""

from __future__ import annotations

from collections.abc import Iterable

from soilrota.batch.issued import earlier_points
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.issued import Issued
from soilrota.model.layout import LayoutWish, Pattern, ZoneLayout
from soilrota.model.windows import TaskKey


def layouts_for(client: Client, issued: Issued, keys: Iterable[TaskKey]) -> dict[TaskKey, ZoneLayout]:
    """Return the layout of each task of which the map draws the zone.

    Args:
        client: the client.
        issued: what was given out for it.
        keys: tasks of the client.
    """
    farms = {farm.id: farm for farm in client.farms}
    zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
    wishes = {
        key: wish
        for key in keys
        if (wish := _wish(client, issued, key, farms[key.farm], zones[key.farm, key.zone])) is not None
    }
    if not wishes:
        return {}
    from soilrota.guidelines.layout import layout_figures  # noqa: PLC0415 - only where a map exists
    from soilrota.layout import layout_of  # noqa: PLC0415 - as above

    return {key: layout_of(wish, layout_figures()) for key, wish in wishes.items()}


def _wish(client: Client, issued: Issued, key: TaskKey, farm: Farm, zone: Zone) -> LayoutWish | None:
    """Return what is wanted of one task; None where the map does not draw its zone."""
    protocol = client.protocols[key.protocol]
    if zone.outline is None:
        return None
    return LayoutWish(
        outline=zone.outline,
        avoided=farm.avoided,
        access=farm.access,
        pattern=Pattern(protocol.pattern),
        layers=protocol.layers,
        spacing_m=protocol.spacing_m,
        edge_m=protocol.edge_m,
        fixed_point=zone.fixed_point,
        rows=zone.rows,
        earlier=earlier_points(client, issued, key),
        seed=f"{client.id}/{key.farm}/{key.zone}/{key.protocol}",
    )
