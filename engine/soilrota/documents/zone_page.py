"""The page of one zone under one protocol: bags, map, points, words, boxes to fill."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from soilrota.documents.dates import counted, number
from soilrota.documents.layout_sentences import layout_sentences, moved_sentences
from soilrota.documents.map_frame import land_size
from soilrota.documents.pack_fit import (
    MOST_POINTS,
    POINT_COLUMNS,
    PageParts,
    Words,
    fit_page,
    fit_without_map,
    room_to_write,
)
from soilrota.documents.pack_map import CLOSE_SHARE, zone_map
from soilrota.documents.pack_views import LayerRow, PointColumn, PointRow, ZonePage
from soilrota.documents.pack_words import (
    count_sentence,
    degrees,
    feel_classes,
    feel_sentence,
    is_deep_layer,
    is_deep_point,
    mixed_sentence,
    no_map_sentences,
    outlook_sentences,
    point_depth,
    shortened,
    walk_sentences,
)
from soilrota.documents.protocols import layer_words
from soilrota.documents.words import LAND_USES, POSITIONS
from soilrota.language import marked, say
from soilrota.model.client import Zone
from soilrota.model.field_pack import FieldPack, PackTask, PackZone
from soilrota.model.layout import CorePoint, Pattern, ZoneLayout

_BEFORE_DEEP = (marked("Buried services located and marked"), marked("Farmer asked for private pipes and cables"))
_LONGEST_ZONE, _LONGEST_PROTOCOL = 60, 45
#: Depths longer than this take two lines in the table of points [-].
_LONGEST_DEPTH = 6
#: Moved points that are named on a page [-].
_MOST_MOVED = 5


def zone_anchor(zone: PackZone, task: PackTask) -> str:
    """Return the name of a page inside the document."""
    return f"zone-{zone.letter}-{task.protocol.id}"


def zone_page(pack: FieldPack, zone: PackZone, task: PackTask) -> tuple[ZonePage, tuple[str, ...]]:
    """Return the page of a zone under a protocol, and the grounds that have no room on it.

    Args:
        pack: the visit.
        zone: the zone.
        task: the task.
    """
    language = pack.client.language
    layout = task.layout
    facts = _facts(zone.zone, language)
    head = (
        f"{zone.letter} {shortened(zone.zone.name, _LONGEST_ZONE)} {shortened(task.protocol.name, _LONGEST_PROTOCOL)}"
    )
    is_deep = any(is_deep_layer(layer) for layer in task.layers)
    before = tuple(say(line) for line in _BEFORE_DEEP) if is_deep else ()
    words = _words(pack, zone.zone, task)
    all_points = layout.points if layout is not None else ()
    points, rest = all_points[:MOST_POINTS], all_points[MOST_POINTS:]
    columns = point_columns(points, task, language)
    lines, land = _point_lines(columns), _land(zone.zone, layout)
    parts = PageParts(head, facts, len(task.layers), " ".join(before), lines, words, land)
    is_drawn = layout is not None and zone.zone.outline is not None
    fit = fit_page(parts) if is_drawn else fit_without_map(parts)
    drawn = zone_map(zone.zone, task, pack.farm, fit.map_width, fit.map_height)
    page = ZonePage(
        anchor=zone_anchor(zone, task),
        letter=zone.letter,
        zone=shortened(zone.zone.name, _LONGEST_ZONE),
        protocol=shortened(task.protocol.name, _LONGEST_PROTOCOL),
        facts=facts,
        layers=tuple(
            LayerRow(bag.id, layer_words(layer, language), counted(layer.cores, "core", "cores"))
            for bag, layer in zip(task.bags, task.layers, strict=True)
        ),
        before=before,
        map=drawn.svg,
        beside=fit.beside,
        below=fit.below,
        columns=columns if fit.lists_points else (),
        more_points=_more_points(rest, is_listed=fit.lists_points),
        more=point_columns(rest if fit.lists_points else (*points, *rest), task, language),
        feel=feel_classes(),
        moisture=words.moisture,
        room_to_write=room_to_write(fit, drawn.height),
    )
    return page, fit.elsewhere


def point_columns(points: tuple[CorePoint, ...], task: PackTask, language: str) -> tuple[PointColumn, ...]:
    """Return points in columns as even as can be, running down each column first."""
    rows = [_point_row(point, task, language) for point in points]
    each = ceil(len(rows) / POINT_COLUMNS)
    return tuple(tuple(rows[start : start + each]) for start in range(0, len(rows), each)) if rows else ()


def _more_points(rest: tuple[CorePoint, ...], *, is_listed: bool) -> str:
    """Return which points stand on a page of their own; empty where none do."""
    if not is_listed:
        return say("where the points lie")
    if not rest:
        return ""
    return say("points {first} to {last}", first=rest[0].number, last=rest[-1].number)


def _point_lines(columns: tuple[PointColumn, ...]) -> int:
    """Return how many lines the longest column has; a long list of depths takes two."""
    return max((sum(1 + (len(row.depth) > _LONGEST_DEPTH) for row in column) for column in columns), default=0)


def _point_row(point: CorePoint, task: PackTask, language: str) -> PointRow:
    """Return the line of a point."""
    longitude, latitude = point.position
    deep = is_deep_point(point.layers, task)
    return PointRow(
        number=say("{number} row", number=point.number) if point.in_row else str(point.number),
        mark=f"{'square' if deep else 'circle'} {'hollow' if point.in_row else 'filled'}",
        latitude=degrees(latitude),
        longitude=degrees(longitude),
        depth=point_depth(point.layers, language),
    )


def _words(pack: FieldPack, zone: Zone, task: PackTask) -> Words:
    """Return the sentences of a page."""
    language, layout = pack.client.language, task.layout
    walk = tuple(_walk(zone, task, layout, language))
    if layout is not None and not layout.points:
        return Words(walk, layout_sentences(layout), (), ())
    known = outlook_sentences(task.moisture, pack.day, language)
    clean = say(
        "Brush tools clean before this zone. Mix each layer's cores well; about half a kilogram goes into its bag."
    )
    return Words(walk, (*_why(task, layout), *known), (feel_sentence(task.protocol),), (clean,))


def _walk(zone: Zone, task: PackTask, layout: ZoneLayout | None, language: str) -> Iterator[str]:
    """Yield how the zone is walked."""
    if layout is None:
        yield from no_map_sentences(task, zone, language)
    elif layout.points:
        yield from walk_sentences(layout, task, language)
        yield from moved_sentences(layout, most=_MOST_MOVED)
    else:
        yield say("No cores here as the zone is drawn now. Take none, and tell the office.")
    yield from filter(None, (mixed_sentence(zone),))


def _why(task: PackTask, layout: ZoneLayout | None) -> Iterator[str]:
    """Yield why the points lie where they lie, and what they can tell."""
    if layout is not None:
        yield from layout_sentences(layout)
    yield from (count_sentence(count) for count in task.counts[:1])


def _facts(zone: Zone, language: str) -> str:
    """Return the line of facts below the heading."""
    facts = (
        f"{number(zone.area_ha, language)} ha",
        zone.soil_type,
        say(LAND_USES.get(zone.land_use, zone.land_use)),
        say(POSITIONS.get(zone.landscape_position, zone.landscape_position)),
    )
    return " · ".join(facts)


def _land(zone: Zone, layout: ZoneLayout | None) -> tuple[float, float]:
    """Return how wide and high the land of a map is [m]; wider where a cluster is drawn beside it, 0 without a map."""
    if zone.outline is None or layout is None:
        return 0.0, 0.0
    width, height = land_size(zone.outline)
    return (width / (1 - CLOSE_SHARE) if layout.pattern is Pattern.CLUSTER else width), height
