"""Field packs made by hand on farms of the example book."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.bag_ids import bag_id
from soilrota.model.field_pack import Bag, FieldPack, PackTask, PackZone
from soilrota.model.ground import Outline, Position
from soilrota.model.layout import CorePoint, Pattern, ZoneLayout
from soilrota.model.protocol import Layer
from soilrota.problems import Place
from tests.documents.made import example

LAYERS = (Layer(0, 10, 4), Layer(10, 30, 2))
BAGS = 40


def some_points(corner: Position, number: int = 4) -> tuple[CorePoint, ...]:
    """Return points to the north-east of a corner; the deeper layer at every other, every third in a row."""
    return tuple(
        CorePoint(
            number=one,
            position=(corner[0] + one * 0.000_123_456_7, corner[1] + one * 0.000_1),
            layers=((0.0, 10.0), (10.0, 30.0)) if one % 2 else ((0.0, 10.0),),
            in_row=one % 3 == 0,
        )
        for one in range(1, number + 1)
    )


def a_layout(corner: Position = (150.0, -33.0)) -> ZoneLayout:
    """Return a layout of four points along a line."""
    points = some_points(corner)
    return ZoneLayout(
        wanted=Pattern.TRANSECT,
        pattern=Pattern.TRANSECT,
        points=points,
        walk=tuple(point.position for point in points),
        walk_m=45,
        approach_m=None,
        spacing_m=15,
        free=None,
        free_ha=1,
        kept_away=None,
        moved=(),
        reasons=(),
    )


def square(corner: Position, side: float = 0.01) -> Outline:
    """Return a square on a corner [degree], its ring the wrong way round (clockwise) on purpose."""
    (x, y), d = corner, side
    ring = ((x, y), (x, y + d), (x + d, y + d), (x + d, y), (x, y))
    return Outline(((ring,),), Place("map.geojson"))


def a_pack(
    names: tuple[str, ...] = ("Ridge", "Flat"), corner: Position = (150.0, -33.0), farm: str = "Home", first: int = 1
) -> FieldPack:
    """Return a pack with a zone a name, each with one task of two layers, the last without a layout."""
    client = example("anvil-creek")
    protocol = client.protocols["topsoil-pasture"]
    base = client.farms[0]
    zones = []
    for number, name in enumerate(names):
        zone = replace(base.zones[number], name=name, outline=square(corner))
        bags = tuple(
            Bag(bag_id(first + 2 * number + deep), base.id, zone.id, protocol.id, "2027", layer.top_cm, layer.bottom_cm)
            for deep, layer in enumerate(LAYERS)
        )
        laboratory = client.practice.laboratories[protocol.laboratory]
        task = PackTask(protocol, LAYERS, laboratory, bags, a_layout(corner), (), (), None)
        zones.append(PackZone("ABCDEFGHIJ"[number], zone, (task,)))
    if len(zones) > 1:
        last = zones[-1]
        zones[-1] = replace(last, tasks=(replace(last.tasks[0], layout=None),))
    return FieldPack(client, replace(base, name=farm), 1, date(2027, 3, 2), "Ned", tuple(zones), 120, None)
