"""The map of a farm: boundary, lettered zones, places to avoid, way in, north and scale; no imagery behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from soilrota.documents.label_places import Box, Places, word_width
from soilrota.documents.map_frame import (
    Frame,
    access_mark,
    crossings,
    level_lines,
    north_mark,
    positions_of,
    scale_bar,
)
from soilrota.documents.map_shades import Shade, is_patterned, shade_strokes
from soilrota.documents.svg import (
    CLOSED,
    INK,
    MUTED,
    PAPER,
    SEASON,
    circle,
    clip_words,
    path,
    picture,
    polyline,
    rectangle,
    text,
)
from soilrota.documents.words import AVOIDED
from soilrota.language import say
from soilrota.model.client import Farm, Zone
from soilrota.model.ground import AvoidedPlace, Outline

WIDTH, HEIGHT = 660.0, 400.0
_MARGIN = 14.0
#: Room for the scale bar below the land [px].
_FOOT = 14.0
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def zone_letters(count: int) -> tuple[str, ...]:
    """Return the letters of so many zones, A to Z, then AA, AB and so on.

    >>> zone_letters(3), zone_letters(28)[-2:]
    (('A', 'B', 'C'), ('AA', 'AB'))
    """
    return tuple(
        _LETTERS[index] if index < len(_LETTERS) else _LETTERS[index // len(_LETTERS) - 1] + _LETTERS[index % 26]
        for index in range(count)
    )


_NO_SHADES: Mapping[str, Shade] = {}


def farm_map(farm: Farm, route: Sequence[str] = (), shades: Mapping[str, Shade] = _NO_SHADES, subject: str = "") -> str:
    """Return the map of a farm as SVG; empty where the map file draws no zone of it.

    Args:
        farm: the farm.
        route: ids of the zones of one visit, in the order of the walk; empty for a map of the whole farm.
        shades: how zones are patterned, and the words in them, by id; a zone that is not named is blank.
        subject: what the shades show, for the text alternative.
    """
    drawn = [(letter, zone) for letter, zone in zip(zone_letters(len(farm.zones)), farm.zones, strict=True)]
    outlines = [zone.outline for _, zone in drawn if zone.outline is not None]
    if not outlines:
        return ""
    edges = [*outlines, *([farm.boundary] if farm.boundary else [])]
    frame = Frame.around(positions_of(edges), WIDTH, HEIGHT, _MARGIN)
    height = frame.height + _FOOT
    parts = []
    if farm.boundary is not None:
        parts.append(
            path(frame.outline(farm.boundary), fill=PAPER, stroke=MUTED, stroke_width=1, stroke_dasharray="6 3")
        )
    parts += [
        _surface(zone, frame, visited=zone.id in shades if shades else not route or zone.id in route)
        for _, zone in drawn
    ]
    parts += [
        shade_strokes(shades[zone.id].pattern, frame.rings(zone.outline))
        for _, zone in drawn
        if zone.outline is not None and zone.id in shades
    ]
    for place in farm.avoided:
        parts += avoided_mark(place, frame)
    places = _room_for_names(farm, frame, shades)
    for place in farm.avoided:
        parts += _avoided_name(place, frame, places, halo=4 if shades else 2)
    for letter, zone in drawn:
        if zone.outline is not None:
            parts += (
                _plate(zone.name, shades[zone.id].words, zone.outline, frame)
                if zone.id in shades and is_patterned(shades[zone.id].pattern)
                else ()
            )
            parts += _label(letter, zone.name, zone.outline, frame, visited=not route or zone.id in route)
            parts += _turn(route.index(zone.id) + 1, zone.outline, frame) if zone.id in route else []
            parts += _shade_words(shades[zone.id].words, zone.outline, frame) if zone.id in shades else []
    if farm.access is not None:
        parts += access_mark(frame.point(farm.access))
    parts += [*north_mark(WIDTH - 18, 12), *scale_bar(frame, 4, height - 6)]
    return picture(WIDTH, height, _alternative(farm, drawn, route, shades, subject), parts)


def _alternative(
    farm: Farm, drawn: list[tuple[str, Zone]], route: Sequence[str], shades: Mapping[str, Shade], subject: str
) -> str:
    """Return the map in words."""
    names = {zone.id: f"{letter} {zone.name}" for letter, zone in drawn}
    if shades:
        no_value = say("no value")
        said = [f"{name}: {shades[zone].words if zone in shades else no_value}" for zone, name in names.items()]
        return say("Map of {farm} by {subject}. {zones}.", farm=farm.name, subject=subject, zones="; ".join(said))
    if route:
        walked = ", ".join(names[one] for one in route)
        return say("Map of {farm}. Zones of this visit in their order: {zones}.", farm=farm.name, zones=walked)
    return say("Map of {farm}. Zones: {zones}.", farm=farm.name, zones=", ".join(names.values()))


def _surface(zone: Zone, frame: Frame, *, visited: bool) -> str:
    """Return the surface of a zone; one that is not visited is blank with a thin edge."""
    if zone.outline is None:
        return ""
    fill, stroke, width = (SEASON, INK, 1.1) if visited else (PAPER, MUTED, 0.6)
    return path(frame.outline(zone.outline), fill=fill, stroke=stroke, stroke_width=width, fill_rule="evenodd")


def _turn(number: int, outline: Outline, frame: Frame) -> Iterator[str]:
    """Yield when a zone's turn comes on the route: a number in a box beside its letter."""
    x, y, _ = _inner_point(outline, frame)
    yield rectangle(x + 11, y - 14, 19, 19, fill=PAPER, stroke=INK, stroke_width=1.1)
    yield text(x + 20.5, y, str(number), 12, text_anchor="middle", font_weight="bold")


def _inner_point(outline: Outline, frame: Frame) -> tuple[float, float, float]:
    """Return a point well inside the largest polygon, and how wide the polygon is there [px]."""
    ring = max((polygon[0] for polygon in outline.polygons), key=len)
    points = [frame.point(position) for position in ring]
    low, high = min(y for _, y in points), max(y for _, y in points)
    best = (points[0][0], points[0][1], 0.0)
    steps = 12
    for step in range(1, steps):
        y = low + (high - low) * step / steps
        found = sorted(crossings(points, y))
        for first, last in zip(found[::2], found[1::2], strict=False):
            favour = (last - first) * (1 - abs(step / steps - 0.5))
            if favour > best[2] * (1 - abs((best[1] - low) / (high - low) - 0.5)):
                best = ((first + last) / 2, y, last - first)
    return best


def _label(letter: str, name: str, outline: Outline, frame: Frame, *, visited: bool) -> Iterator[str]:
    """Yield a zone's letter, and its name where it fits."""
    x, y, width = _inner_point(outline, frame)
    yield circle(x, y - 4, 10, fill=INK if visited else MUTED)
    yield text(x, y, letter, 11.5, text_anchor="middle", font_weight="bold", fill=PAPER)
    words = clip_words(name, width - 10, 10)
    if words == name:
        halo = SEASON if visited else PAPER
        yield text(x, y + 18, name, 10, text_anchor="middle", stroke=halo, stroke_width=2)
        yield text(x, y + 18, name, 10, text_anchor="middle")


def _plate(name: str, words: str, outline: Outline, frame: Frame) -> Iterator[str]:
    """Yield a bare ground below a zone's name and words, as far as they fit, so that no pattern runs through them."""
    x, y, width = _inner_point(outline, frame)
    said = [(one, size) for one, size in ((name, 10.0), (words, 9.5)) if clip_words(one, width - 10, size) == one]
    if said:
        wide = max(word_width(one, size) for one, size in said) + 6
        top, bottom = (9 if (name, 10.0) in said else 21), (34 if (words, 9.5) in said else 22)
        yield rectangle(x - wide / 2, y + top, wide, bottom - top, fill=PAPER)


def _shade_words(words: str, outline: Outline, frame: Frame) -> Iterator[str]:
    """Yield the words of a zone's shade below its name, where they fit."""
    x, y, width = _inner_point(outline, frame)
    if clip_words(words, width - 10, 9.5) == words:
        yield text(x, y + 30, words, 9.5, text_anchor="middle", font_style="italic")


def _room_for_names(farm: Farm, frame: Frame, shades: Mapping[str, Shade]) -> Places:
    """Return the room that zones' letters and names, edges and the way in leave for the names of places."""
    places = Places(Box(2, 2, WIDTH - 2, frame.height - 2), [Box(WIDTH - 30, 0, WIDTH, 36)])
    for zone in farm.zones:
        if zone.outline is not None:
            x, y, _ = _inner_point(zone.outline, frame)
            half = word_width(zone.name, 10) / 2
            places.taken += [Box(x - 10, y - 15, x + 31, y + 7), Box(x - half, y + 9, x + half, y + 20)]
            if zone.id in shades:
                half = word_width(shades[zone.id].words, 9.5) / 2
                places.taken.append(Box(x - half, y + 21, x + half, y + 32))
            for ring in frame.rings(zone.outline):
                places.keep_clear(ring)
    for place in farm.avoided:
        points = [frame.point(position) for position in place.positions[0]]
        places.keep_clear(points)
        if place.shape != "line":
            xs, ys = [x for x, _ in points], [y for _, y in points]
            places.taken.append(Box(min(xs) - 4, min(ys) - 4, max(xs) + 4, max(ys) + 4))
    if farm.access is not None:
        x, y = frame.point(farm.access)
        places.taken.append(Box(x - 20, y - 20, x + 20, y))
    return places


def _avoided_name(place: AvoidedPlace, frame: Frame, places: Places, *, halo: float) -> Iterator[str]:
    """Yield the name of a place to avoid: near its middle where there is room, or else right of it."""
    name = place.name or say(AVOIDED.get(place.kind, place.kind))
    points = [frame.point(position) for position in place.positions[0]]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    if place.shape == "line":
        at, radius = points[len(points) // 2], 3.0
    else:
        at = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        radius = max(max(xs) - min(xs), max(ys) - min(ys)) / 2 + 4
    box = places.place(at, radius, name, 9)
    x, y = (box.left, box.top + 6.7) if box else (at[0] + radius + 4, at[1] + 3)
    x = max(min(x, WIDTH - 4 - len(name) * 5), 2)
    yield text(x, y, name, 9, fill=CLOSED, font_style="italic", stroke=SEASON, stroke_width=halo)
    yield text(x, y, name, 9, fill=CLOSED, font_style="italic")


def avoided_mark(place: AvoidedPlace, frame: Frame) -> Iterator[str]:
    """Yield a place to avoid: a crossed ring, a heavy broken line, or a crossed surface."""
    points = [frame.point(position) for position in place.positions[0]]
    if place.shape == "point":
        x, y = points[0]
        cross = f"M{x - 3:.1f} {y - 3:.1f}l6 6M{x + 3:.1f} {y - 3:.1f}l-6 6"
        yield circle(x, y, 4.4, fill=PAPER, stroke=CLOSED, stroke_width=1.2)
        yield path(cross, fill="none", stroke=CLOSED, stroke_width=1.2)
    elif place.shape == "line":
        yield path(polyline(points), fill="none", stroke=CLOSED, stroke_width=2.2, stroke_dasharray="7 3")
    else:
        yield path(polyline(points[:-1], closed=True), fill=PAPER, stroke=CLOSED, stroke_width=1.2)
        yield path("".join(level_lines([points], 3.5)), fill="none", stroke=CLOSED, stroke_width=0.8)
