"""The layouts of a client's tasks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.batch.layouts import layouts_for
from soilrota.model.issued import Issued, IssuedPoint
from soilrota.model.layout import LayoutRule, ZoneLayout
from soilrota.model.windows import TaskKey
from soilrota.timing import tasks_of
from tests.documents.made import CLIENTS, example


def _keys(name: str) -> list[TaskKey]:
    """Return the tasks of an example client."""
    return [task.key for task in tasks_of(example(name))]


def _given_out(key: TaskKey, layout: ZoneLayout, day: date) -> Issued:
    """Return a layout's points as given out on a day."""
    points = (
        IssuedPoint(*(key.farm, key.zone, key.protocol), "2026-01-20", point.number, point.position, point.in_row, day)
        for point in layout.points
    )
    return Issued(points=tuple(points))


def test_every_drawn_zone_has_one() -> None:
    """As many points as the layer with the most cores asks for, or a reason; none where the map draws nothing."""
    for name in CLIENTS:
        client = example(name)
        zones = {(zone.farm, zone.id): zone for farm in client.farms for zone in farm.zones}
        layouts = layouts_for(client, Issued(), _keys(name))
        assert layouts.keys() == {key for key in _keys(name) if zones[key.farm, key.zone].outline is not None}
        for key, layout in layouts.items():
            cores = max(layer.cores for layer in client.protocols[key.protocol].layers)
            assert len(layout.points) == cores or (not layout.points and layout.reasons)


def test_points_are_used_again_once_sampled() -> None:
    """Points given out before the last sampling come again, and the layout says so; later ones count for nothing."""
    client, key = example("anvil-creek"), TaskKey("home", "barn", "topsoil-pasture")
    first = layouts_for(client, Issued(), [key])[key]
    access = replace(client, farms=tuple(replace(farm, access=None) for farm in client.farms))
    sampled = max(note.day for note in client.field_notes if (note.farm, note.zone) == ("home", "barn"))
    shifted = replace(first, points=tuple(replace(point, in_row=False) for point in reversed(first.points)))
    issued = _given_out(key, replace(shifted, points=_numbered(shifted)), sampled)
    again = layouts_for(access, issued, [key])[key]
    assert LayoutRule.KEPT in [reason.rule for reason in again.reasons]
    assert [point.position for point in again.points] == [point.position for point in issued.points]
    later = _given_out(key, first, date(2099, 1, 1))
    assert LayoutRule.KEPT not in [reason.rule for reason in layouts_for(client, later, [key])[key].reasons]


def _numbered(layout: ZoneLayout) -> tuple[object, ...]:
    """Return the points numbered anew in their order."""
    return tuple(replace(point, number=number) for number, point in enumerate(layout.points, start=1))
