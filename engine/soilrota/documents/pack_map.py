"""The map of one zone for the crew: numbered points, the walk, ground to keep away from, the way in, north and scale.

Everything reads in grey: marks differ by shape and filling, ground by hatching.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from soilrota.documents.label_places import Box, Places, around
from soilrota.documents.layout_sentences import metres_words
from soilrota.documents.map_frame import Frame, Point, north_mark, positions_of, scale_bar, slanting_lines
from soilrota.documents.maps import avoided_mark
from soilrota.documents.pack_map_key import KEY_ROW, map_key
from soilrota.documents.pack_points import BIG, SMALL, claim_points, draw_points, draw_words, spread
from soilrota.documents.svg import CLOSED, INK, MUTED, PAPER, SEASON, circle, path, picture, polyline, rectangle
from soilrota.documents.words import AVOIDED
from soilrota.language import say, say_count
from soilrota.model.client import Farm, Zone
from soilrota.model.field_pack import PackTask
from soilrota.model.ground import Outline, Position
from soilrota.model.layout import ZoneLayout

_MARGIN = 16.0
_HATCH = 7.0
#: Room for the words of the scale bar, right of it in the first row of the key [px].
_BAR_WORDS = 68.0
#: Points that lie closer together than this on the map are drawn again in a picture of their own [px].
_TOO_CLOSE = 90.0
#: Share of the width that this picture takes [-], and the room between the two [px].
CLOSE_SHARE = 0.56
_BETWEEN = 8.0
#: A way in farther from the zone than this share of the zone's size is pointed at from the edge of the map [-].
_NEAR = 0.15


@dataclass(frozen=True, slots=True)
class _Zone:
    """What every part of the map needs."""

    zone: Zone
    outline: Outline
    task: PackTask
    layout: ZoneLayout
    farm: Farm


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture as SVG, and how high it is [px]."""

    svg: str
    height: float


def zone_map(zone: Zone, task: PackTask, farm: Farm, width: float, height: float) -> Drawn:
    """Return the map of a zone of at most a size [px]; nothing where the map does not draw the zone.

    Args:
        zone: the zone.
        task: what is sampled, with its layout.
        farm: the zone's farm, for its places to avoid and its way in.
        width: width of the picture [px].
        height: largest height of the picture [px].
    """
    if zone.outline is None or task.layout is None:
        return Drawn("", 0.0)
    one = _Zone(zone, zone.outline, task, task.layout, farm)
    _, most = map_key(task.layout, task, width, width)
    land = height - most
    frame = Frame.around(_shown(one), width, land, _MARGIN)
    points = [frame.point(point.position) for point in task.layout.points]
    close = len(points) > 1 and spread(points) < _TOO_CLOSE
    key, key_height = map_key(task.layout, task, width, width if close else width / 5 + _BAR_WORDS)
    parts, bottom = _two_pictures(one, width, land) if close else _one_picture(one, frame)
    parts.append(f'<g transform="translate(0 {bottom:.1f})">{"".join(key)}</g>')
    return Drawn(picture(width, bottom + key_height, _alternative(one), parts), bottom + key_height)


def _shown(one: _Zone) -> list[Position]:
    """Return the positions that the map must hold: the zone, and its way in where that is near."""
    positions = list(positions_of([one.outline]))
    if one.farm.access is None:
        return positions
    frame = Frame.around(positions, 100, 100, 0)
    corners = [frame.point(position) for position in positions]
    x, y = frame.point(one.farm.access)
    right, bottom = max(x for x, _ in corners), max(y for _, y in corners)
    left, top = min(x for x, _ in corners), min(y for _, y in corners)
    away = max(left - x, x - right, top - y, y - bottom)
    return [*positions, one.farm.access] if away < _NEAR * 100 else positions


def _one_picture(one: _Zone, frame: Frame) -> tuple[list[str], float]:
    """Return the map with its points, and how high it is [px]."""
    corner = _free_corner(one, frame)
    places = Places(Box(2, 2, frame.width - 2, frame.height - 2), [corner])
    _claim(one, frame, places)
    parts = [*_ground(one, frame), *_north_in(corner), *_way_in(one, frame, places)]
    parts += draw_points(one.layout, one.task, frame, places)
    parts += _names(one, frame, places)
    parts += scale_bar(frame, 4, frame.height + KEY_ROW / 2, BIG)
    return parts, frame.height


def _two_pictures(one: _Zone, width: float, height: float) -> tuple[list[str], float]:
    """Return a map of the zone with the spot of its cores, the spot drawn large beside it, and their height [px]."""
    side = min(width * CLOSE_SHARE, height)
    overview = Frame.around(_shown(one), width - side - _BETWEEN, height, _MARGIN)
    spot_positions = [point.position for point in one.layout.points]
    spot = Frame.around(spot_positions, side, height, 2.5 * _MARGIN)
    bottom = max(overview.height, spot.height)
    left = width - side
    spot = replace(spot, left=spot.left + left, top=spot.top + (bottom - spot.height) / 2)
    places = Places(Box(left + 3, 3, width - 3, bottom - 3))
    corner = _free_corner(one, overview)
    xs, ys = zip(*(overview.point(position) for position in spot_positions), strict=True)
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    whole = Places(Box(2, 2, overview.width - 2, bottom - 2), [around(middle, 10), corner])
    parts = [*_ground(one, overview), *_north_in(corner), circle(*middle, 8, fill=PAPER, stroke=INK, stroke_width=2)]
    parts += [
        circle(*middle, 2.5, fill=INK),
        path(polyline([middle, (left, bottom / 2)]), stroke=INK, stroke_width=0.6),
    ]
    parts += _way_in(one, overview, whole)
    parts += _names(one, overview, whole)
    parts += [rectangle(left, 1, side - 1, bottom - 2, fill=SEASON, stroke=INK, stroke_width=1)]
    claim_points(one.layout, spot, places)
    parts += draw_points(one.layout, one.task, spot, places)
    parts += scale_bar(replace(overview, width=width / 2), 4, bottom + KEY_ROW / 2, BIG)
    parts += scale_bar(replace(spot, width=width / 2), left, bottom + KEY_ROW / 2, BIG)
    return parts, bottom


def _claim(one: _Zone, frame: Frame, places: Places) -> None:
    """Take the room of the marks, and keep words clear of the walk, the zone's edge and the way in."""
    claim_points(one.layout, frame, places)
    for ring in frame.rings(one.outline):
        places.keep_clear(ring)
    places.taken += [
        around(frame.point(place.positions[0][0]), 5) for place in one.farm.avoided if place.shape == "point"
    ]
    if one.farm.access is not None and one.layout.points:
        places.keep_clear([frame.point(one.layout.points[0].position), frame.point(one.farm.access)])


def _free_corner(one: _Zone, frame: Frame) -> Box:
    """Return the corner of a map for the north arrow: the first that holds no point and no way in, if any is free."""
    wide, high = 22.0, 36.0
    right, bottom = frame.width - wide, frame.height - high
    corners = [Box(x, y, x + wide, y + high) for x, y in ((right, 0.0), (0.0, 0.0), (right, bottom), (0.0, bottom))]
    positions = [point.position for point in one.layout.points]
    seen = [frame.point(position) for position in positions]
    if one.farm.access is not None:
        there = frame.point(one.farm.access)
        seen.append((_edge(seen[0], there, frame) if seen else None) or there)
    free = [corner for corner in corners if not any(corner.covers(around(at, 12)) for at in seen)]
    return free[0] if free else corners[0]


def _north_in(corner: Box) -> Iterator[str]:
    """Yield the north arrow inside a corner."""
    return north_mark((corner.left + corner.right) / 2, corner.top + 11)


def _ground(one: _Zone, frame: Frame) -> list[str]:
    """Return the zone, the ground that is used, what is kept away from, and the places themselves."""
    # An id of its own: all maps of a pack stand in one document.
    land = f"land-{one.zone.id}-{one.task.protocol.id}"
    parts = [
        f'<clipPath id="{land}"><rect width="{frame.width:.1f}" height="{frame.height:.1f}"/></clipPath>',
        f'<g clip-path="url(#{land})">',
        path(frame.outline(one.outline), fill=PAPER, stroke="none", fill_rule="evenodd"),
    ]
    if one.layout.free is not None:
        free = frame.outline(one.layout.free)
        parts.append(
            path(free, fill=SEASON, stroke=MUTED, stroke_width=0.8, stroke_dasharray="4 3", fill_rule="evenodd")
        )
    if one.layout.kept_away is not None:
        kept = slanting_lines(frame.rings(one.layout.kept_away), _HATCH)
        parts.append(path(kept, fill="none", stroke=CLOSED, stroke_width=1))
    parts.append(path(frame.outline(one.outline), fill="none", stroke=INK, stroke_width=1.8))
    for place in one.farm.avoided:
        parts += avoided_mark(place, frame)
    return [*parts, "</g>"]


def _names(one: _Zone, frame: Frame, places: Places) -> Iterator[str]:
    """Yield the names of the places to avoid that the map shows, where there is room."""
    room = Box(0, 0, frame.width, frame.height)
    for place in one.farm.avoided:
        seen = [at for at in map(frame.point, place.positions[0]) if around(at, 0).inside(room)]
        if seen:
            name = place.name or say(AVOIDED.get(place.kind, place.kind))
            at = seen[len(seen) // 2]
            yield from draw_words(name, at, 6, places, SMALL + 1, font_style="italic")


def _way_in(one: _Zone, frame: Frame, places: Places) -> Iterator[str]:
    """Yield the way in: its mark where the map holds it, or else an arrow at the map's edge that points to it."""
    if one.farm.access is None or not one.layout.points:
        return
    there, first = frame.point(one.farm.access), frame.point(one.layout.points[0].position)
    edge = _edge(first, there, frame)
    ends = edge is not None
    x, y = there if edge is None else edge
    yield path(polyline([first, (x, y)]), stroke=INK, stroke_width=0.9, stroke_dasharray="2 4", fill="none")
    if ends:
        yield from _head(first, (x, y))
    else:
        yield rectangle(x - 5, y - 5, 10, 10, fill=PAPER, stroke=INK, stroke_width=2)
        yield circle(x, y, 1.6, fill=INK)
    places.taken.append(around((x, y), 6))
    words = (
        say("way in, {distance}", distance=metres_words(one.layout.approach_m))
        if ends and one.layout.approach_m is not None
        else say("way in")
    )
    yield from draw_words(words, (x, y), 8, places, BIG, font_weight="bold")


def _edge(first: Point, there: Point, frame: Frame) -> Point | None:
    """Return where the straight line to a place leaves the map; None where the place lies on the map."""
    inset = 4.0
    run = (there[0] - first[0], there[1] - first[1])
    shares = [1.0]
    for start, step, most in ((first[0], run[0], frame.width), (first[1], run[1], frame.height)):
        if step > 0:
            shares.append((most - inset - start) / step)
        elif step < 0:
            shares.append((inset - start) / step)
    share = min(shares)
    return None if share >= 1 else (first[0] + share * run[0], first[1] + share * run[1])


def _head(first: Point, last: Point) -> Iterator[str]:
    """Yield an arrow head at the end of a line."""
    length = math.hypot(last[0] - first[0], last[1] - first[1]) or 1.0
    ux, uy = (last[0] - first[0]) / length, (last[1] - first[1]) / length
    x, y = last
    head = [(x, y), (x - 10 * ux + 5 * uy, y - 10 * uy - 5 * ux), (x - 10 * ux - 5 * uy, y - 10 * uy + 5 * ux)]
    yield path(polyline(head, closed=True), fill=INK)


def _alternative(one: _Zone) -> str:
    """Return the map in words."""
    points = len(one.layout.points)
    said = [say("Map of {name}.", name=one.zone.name)]
    if points:
        said.append(
            say_count(
                "{count} point in walking order, {walk} to walk.",
                "{count} points in walking order, {walk} to walk.",
                points,
                walk=metres_words(one.layout.walk_m),
            )
        )
    else:
        said.append(say("No points."))
    if one.layout.kept_away is not None:
        said.append(say("Hatched ground is kept away from."))
    return " ".join(said)
