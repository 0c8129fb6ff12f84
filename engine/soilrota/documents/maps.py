"""The map of a farm: boundary, lettered zones, places to avoid, way in, north and scale; no imagery behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product

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
#: Where a zone's letter and words stand, and how wide the zone is there [px].
_Spot = tuple[float, float, float]
#: Heights and shares of the width that are tried for them; the middle first.
_STEPS, _SHARES = 12, (0.5, 0.35, 0.65, 0.25, 0.75)
#: What is left of the favour of a spot where a mark would be written over [-].
_WRITTEN_OVER = 0.3
#: What is left of it where the words find no room and are left out [-].
_WITHOUT_WORDS = 0.1
#: What is left of it where the lowest words would run over the zone's edge [-].
_OVER_THE_EDGE = 0.5
#: Width of a letter with the number of its turn beside it [px].
_LETTER_AND_TURN = 62.0
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
    spots = _spots(farm, frame, shades)
    places = _room_for_names(farm, frame, shades, spots)
    for place in farm.avoided:
        parts += _avoided_name(place, frame, places, halo=4 if shades else 2)
    for letter, zone in drawn:
        if zone.id in spots:
            spot = spots[zone.id]
            parts += (
                _plate(zone.name, shades[zone.id].words, spot)
                if zone.id in shades and is_patterned(shades[zone.id].pattern)
                else ()
            )
            parts += _label(letter, zone.name, spot, visited=not route or zone.id in route)
            parts += _turn(route.index(zone.id) + 1, spot) if zone.id in route else []
            parts += _shade_words(shades[zone.id].words, spot) if zone.id in shades else []
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


def _turn(number: int, spot: _Spot) -> Iterator[str]:
    """Yield when a zone's turn comes on the route: a number in a box beside its letter."""
    x, y, _ = spot
    yield rectangle(x + 11, y - 14, 19, 19, fill=PAPER, stroke=INK, stroke_width=1.1)
    yield text(x + 20.5, y, str(number), 12, text_anchor="middle", font_weight="bold")


def _spots(farm: Farm, frame: Frame, shades: Mapping[str, Shade]) -> dict[str, _Spot]:
    """Return by zone where its letter and words stand, clear of the places drawn in it where there is room."""
    marks = [_mark_box(place, frame) for place in farm.avoided if place.shape != "line"]
    spots = {}
    for zone in farm.zones:
        if zone.outline is not None:
            words = shades[zone.id].words if zone.id in shades else ""
            half = max(word_width(zone.name, 10), word_width(words, 9.5), _LETTER_AND_TURN) / 2
            low = 33.0 if words else 21.0
            spots[zone.id] = _inner_point(zone.outline, frame, marks, half, low)
    return spots


def _mark_box(place: AvoidedPlace, frame: Frame) -> Box:
    """Return the room that the mark of a place takes."""
    points = [frame.point(position) for position in place.positions[0]]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs) - 4, min(ys) - 4, max(xs) + 4, max(ys) + 4)


def _inner_point(outline: Outline, frame: Frame, marks: Sequence[Box], half: float, low: float) -> _Spot:
    """Return a point well inside the largest polygon, and how wide the polygon is there [px].

    Args:
        outline: of the zone.
        frame: of the map.
        marks: what should not be written over.
        half: half the width of what is written at the point [px].
        low: how far that reaches below it [px].
    """
    ring = max((polygon[0] for polygon in outline.polygons), key=len)
    points = [frame.point(position) for position in ring]
    top, bottom = min(y for _, y in points), max(y for _, y in points)
    best, most = (points[0][0], points[0][1], 0.0), 0.0
    for step, share in product(range(1, _STEPS), _SHARES):
        y = top + (bottom - top) * step / _STEPS
        found = sorted(crossings(points, y))
        for first, last in zip(found[::2], found[1::2], strict=False):
            x = first + (last - first) * share
            width = 2 * min(x - first, last - x)
            favour = width * (1 - abs(step / _STEPS - 0.5))
            written = Box(x - half, y - 15, x + half, y + low)
            if any(written.covers(box) for box in marks):
                favour *= _WRITTEN_OVER
            if not _holds(points, x, y + low - 6, half):
                favour *= _OVER_THE_EDGE
            if width < 2 * half + 10:
                favour *= _WITHOUT_WORDS
            if favour > most:
                best, most = (x, y, width), favour
    return best


def _holds(points: Sequence[tuple[float, float]], x: float, y: float, half: float) -> bool:
    """Return whether a line of words round a point stays inside a polygon."""
    found = sorted(crossings(points, y))
    return any(first <= x - half and x + half <= last for first, last in zip(found[::2], found[1::2], strict=False))


def _label(letter: str, name: str, spot: _Spot, *, visited: bool) -> Iterator[str]:
    """Yield a zone's letter, and its name where it fits."""
    x, y, width = spot
    yield circle(x, y - 4, 10, fill=INK if visited else MUTED)
    yield text(x, y, letter, 11.5, text_anchor="middle", font_weight="bold", fill=PAPER)
    words = clip_words(name, width - 10, 10)
    if words == name:
        halo = SEASON if visited else PAPER
        yield text(x, y + 18, name, 10, text_anchor="middle", stroke=halo, stroke_width=2)
        yield text(x, y + 18, name, 10, text_anchor="middle")


def _plate(name: str, words: str, spot: _Spot) -> Iterator[str]:
    """Yield a bare ground below a zone's name and words, as far as they fit, so that no pattern runs through them."""
    x, y, width = spot
    said = [(one, size) for one, size in ((name, 10.0), (words, 9.5)) if clip_words(one, width - 10, size) == one]
    if said:
        wide = max(word_width(one, size) for one, size in said) + 6
        top, bottom = (9 if (name, 10.0) in said else 21), (34 if (words, 9.5) in said else 22)
        yield rectangle(x - wide / 2, y + top, wide, bottom - top, fill=PAPER)


def _shade_words(words: str, spot: _Spot) -> Iterator[str]:
    """Yield the words of a zone's shade below its name, where they fit."""
    x, y, width = spot
    if clip_words(words, width - 10, 9.5) == words:
        yield text(x, y + 30, words, 9.5, text_anchor="middle", font_style="italic", stroke=SEASON, stroke_width=2)
        yield text(x, y + 30, words, 9.5, text_anchor="middle", font_style="italic")


def _room_for_names(farm: Farm, frame: Frame, shades: Mapping[str, Shade], spots: Mapping[str, _Spot]) -> Places:
    """Return the room that zones' letters and names, edges and the way in leave for the names of places."""
    places = Places(Box(2, 2, WIDTH - 2, frame.height - 2), [Box(WIDTH - 30, 0, WIDTH, 36)])
    for zone in farm.zones:
        if zone.outline is not None:
            x, y, _ = spots[zone.id]
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
            places.taken.append(_mark_box(place, frame))
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
