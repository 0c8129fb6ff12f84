"""Field packs made by hand over the example book: layouts drawn here, so that nothing else must work first."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable
from datetime import date

import shapely

from soilrota.geometry.projection import LocalGrid, grid_for, to_degrees, to_metres
from soilrota.model.client import Client, Farm, Zone
from soilrota.model.cores import CoreCount, Precision, Spread
from soilrota.model.field_pack import Bag, FieldPack, PackTask, PackZone
from soilrota.model.ground import AvoidedPlace, Outline
from soilrota.model.layout import (
    CorePoint,
    LayoutReason,
    LayoutRule,
    MovedPoint,
    Pattern,
    ZoneLayout,
)
from soilrota.model.moisture import CALENDAR_DAYS, Likelihood, MoistureOutlook, RecordedMoisture
from soilrota.model.protocol import Layer, Protocol
from soilrota.model.windows import Span
from soilrota.problems import Place
from tests.documents.made import example

DAY = date(2027, 2, 18)
PLACE = Place("map.geojson")
EDGE_M = 10.0
BUFFER_M = 25.0
LETTERS = "ABCDEFGHIJ"


def a_count(planned: int, *, needed: int | None = 31) -> CoreCount:
    """Return what so many cores can tell of Colwell P."""
    spread = Spread("phosphorus", 28.0, 6.0, None, "made for a test")
    return CoreCount(spread, Precision(10.0, 0.9), planned, 20, needed, 11.3, 16.8, 9.6)


def an_outlook(wanted: str = "moist") -> MoistureOutlook:
    """Return an outlook of twenty years with a recorded day."""
    recorded = RecordedMoisture(date(2027, 2, 14), 0.22, "dry")
    return MoistureOutlook("merrow", 20, wanted, (Likelihood.SOMETIMES,) * CALENDAR_DAYS, recorded)


def a_layout(
    zone: Zone, farm: Farm, layers: tuple[Layer, ...], pattern: Pattern = Pattern.ZIGZAG, **more: object
) -> ZoneLayout:
    """Return a layout of a drawn zone: points along the pattern, deep layers at points evenly chosen.

    Args:
        zone: a zone with an outline.
        farm: its farm.
        layers: depth layers with their cores.
        pattern: how the points lie.
        more: fields of the layout that are to be otherwise.
    """
    assert zone.outline is not None
    grid = grid_for(zone.outline)
    whole = to_metres(zone.outline, grid)
    kept = shapely.intersection(_kept(farm.avoided, grid), whole)
    free = whole.buffer(-EDGE_M) - kept
    largest = max(getattr(free, "geoms", [free]), key=lambda part: part.area)
    count = max(layer.cores for layer in layers)
    spots = _spots(largest, count, pattern)
    positions = grid.degrees(spots)
    points = tuple(
        CorePoint(
            index + 1,
            position,
            tuple((layer.top_cm, layer.bottom_cm) for layer in layers if _taken(index, layer.cores, count)),
        )
        for index, position in enumerate(positions)
    )
    lengths = [math.dist(*pair) for pair in itertools.pairwise(spots)]
    start = grid.metres([farm.access])[0] if farm.access is not None else None
    values: dict[str, object] = {
        "wanted": pattern,
        "pattern": pattern,
        "points": points,
        "walk": tuple(positions),
        "walk_m": sum(lengths),
        "approach_m": math.dist(start, spots[0]) if start is not None else None,
        "spacing_m": min((math.dist(*pair) for pair in itertools.combinations(spots, 2)), default=0.0),
        "free": Outline(to_degrees(largest, grid), PLACE),
        "free_ha": largest.area / 10_000,
        "kept_away": None if kept.is_empty else Outline(_polygons(kept, grid), PLACE),
        "moved": (),
        "reasons": (
            LayoutReason(LayoutRule.TAKEN_OUT, {"places": 2, "edge_m": EDGE_M, "taken_share": 0.14}),
            LayoutReason(LayoutRule.ALL_NEW, {}),
        ),
    }
    return ZoneLayout(**{**values, **more})  # type: ignore[arg-type]


def no_points(zone: Zone) -> ZoneLayout:
    """Return the layout of a zone of which nothing is left."""
    reason = LayoutReason(LayoutRule.NOTHING_LEFT, {"edge_m": EDGE_M, "area_ha": zone.area_ha})
    return ZoneLayout(Pattern.ZIGZAG, None, (), (), 0.0, None, 0.0, None, 0.0, zone.outline, (), (reason,))


def _taken(index: int, cores: int, count: int) -> bool:
    """Return whether the layer is taken at a point: as even as can be."""
    return (index + 1) * cores // count > index * cores // count


def _polygons(shape: shapely.Geometry, grid: LocalGrid) -> tuple[tuple[tuple[tuple[float, float], ...], ...], ...]:
    """Return the polygons of any shape."""
    parts = [part for part in getattr(shape, "geoms", [shape]) if isinstance(part, shapely.Polygon)]
    return to_degrees(shapely.MultiPolygon(parts), grid)


def _kept(avoided: Iterable[AvoidedPlace], grid: LocalGrid) -> shapely.Geometry:
    """Return the places with their buffers [m]."""
    makers = {"point": lambda ring: shapely.Point(ring[0]), "line": shapely.LineString, "area": shapely.Polygon}
    return shapely.union_all(
        [
            makers[place.shape](grid.metres(ring)).buffer(place.buffer_m or BUFFER_M)
            for place in avoided
            for ring in place.positions
        ]
    )


def _spots(free: shapely.Polygon, count: int, pattern: Pattern) -> list[tuple[float, float]]:
    """Return so many points in a surface along a pattern [m]."""
    west, south, east, north = free.bounds
    if pattern is Pattern.CLUSTER:
        middle = free.representative_point()
        angles = [index * 2.39996 for index in range(count)]
        spots = [
            (
                middle.x + 5 * math.sqrt((i + 1) / count) * math.cos(a),
                middle.y + 5 * math.sqrt((i + 1) / count) * math.sin(a),
            )
            for i, a in enumerate(angles)
        ]
        return sorted(spots, key=lambda spot: math.atan2(spot[1] - middle.y, spot[0] - middle.x))
    if pattern is Pattern.STRATA:
        side = math.sqrt(free.area / count)
        while True:
            rows = [south + side * (row + 0.5) for row in range(int((north - south) / side) + 1)]
            spots = []
            for number, y in enumerate(rows):
                line = [west + side * (step + 0.5) for step in range(int((east - west) / side) + 1)]
                row = [(x, y) for x in line if free.contains(shapely.Point(x, y))]
                spots += row[:: -1 if number % 2 else 1]
            if len(spots) >= count:
                return spots[:count]
            side *= 0.97
    turns = 4 if pattern is Pattern.ZIGZAG else 1
    corners = [(west + (east - west) * turn / turns, north if turn % 2 else south) for turn in range(turns + 1)]
    line = shapely.intersection(shapely.LineString(corners), free)
    pieces = [piece for piece in getattr(line, "geoms", [line]) if piece.length > 1]
    total = sum(piece.length for piece in pieces)
    spots = []
    for index in range(count):
        at = total * (index + 0.5) / count
        for piece in pieces:
            if at <= piece.length:
                point = piece.interpolate(at)
                spots.append((point.x, point.y))
                break
            at -= piece.length
    return spots


def a_task(
    client: Client,
    farm: Farm,
    zone: Zone,
    protocol: Protocol,
    *,
    number: int = 1,
    layout: ZoneLayout | None = None,
    **more: object,
) -> PackTask:
    """Return a task with its bags; `more` are fields that are to be otherwise."""
    bags = tuple(
        Bag(f"B{number:04d}-{index}", farm.id, zone.id, protocol.id, "2027", layer.top_cm, layer.bottom_cm)
        for index, layer in enumerate(protocol.layers)
    )
    values: dict[str, object] = {
        "protocol": protocol,
        "layers": protocol.layers,
        "laboratory": client.practice.laboratories.get(protocol.laboratory),
        "bags": bags,
        "layout": layout,
        "counts": (a_count(max(layer.cores for layer in protocol.layers)),),
        "open_days": (Span(date(2027, 2, 15), date(2027, 2, 27)),),
        "moisture": an_outlook(protocol.soil_state),
    }
    return PackTask(**{**values, **more})  # type: ignore[arg-type]


def a_pack(name: str = "brolga-plains", *, zones: int = 6) -> FieldPack:
    """Return a pack of the first zones of an example client's first farm, under all their protocols."""
    client = example(name)
    farm = client.farms[0]
    numbers = itertools.count(1)
    made = []
    for letter, zone in list(zip(LETTERS, farm.zones, strict=False))[:zones]:
        tasks = []
        for one in zone.protocols:
            protocol = client.protocols[one]
            layout = (
                a_layout(zone, farm, protocol.layers, Pattern(protocol.pattern)) if zone.outline is not None else None
            )
            tasks.append(a_task(client, farm, zone, protocol, number=next(numbers), layout=layout))
        made.append(PackZone(letter, zone, tuple(tasks)))
    return a_visit(client, farm, tuple(made))


def a_visit(client: Client, farm: Farm, zones: tuple[PackZone, ...]) -> FieldPack:
    """Return the pack of a visit to such zones."""
    return FieldPack(client, farm, 1, DAY, "Ned Marlow", zones, 215, 4210.0)


def moved(layout: ZoneLayout, count: int) -> tuple[MovedPoint, ...]:
    """Return the first points of a layout as moved, each a little farther."""
    return tuple(MovedPoint(point.number, 3.0 + point.number) for point in layout.points[:count])
