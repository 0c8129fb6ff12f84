"""How a zone's page is filled: how large its map can be, and which sentences stand beside it, below it or elsewhere.

Heights here mirror `field_pack.css`; text is reckoned with the widths of the font's own letters, so that a page that
fits here fits on paper. The tests read the PDF back.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil

from soilrota.documents.fonts import width_em
from soilrota.documents.svg import figure

#: Room inside the page's margins [mm], and what a map may take of its width beside words [mm].
PAGE_WIDTH, PAGE_HEIGHT = 184.0, 267.0
_MAP_BESIDE, _WORDS_BESIDE = 116.0, 63.0
#: Heights [mm].
_HEAD_LINE, _FACT_LINE, _HEAD_ROOM = 6.8, 4.9, 5.0
_LAYER_HEAD, _LAYER_ROW = 6.0, 8.9
#: What is ticked before the first core: one line with its frame, and what frame and two boxes take of its width [mm].
_BEFORE_ROW, _BEFORE_BOXES = 8.0, 20.0
_POINTS_HEAD, _POINT_ROW = 6.0, 4.05
_BOXES = 45.0
#: The box for deviations [mm]: part of the above, and what it grows to where the page has room.
_LEAST_TO_WRITE, _MOST_TO_WRITE = 16.0, 90.0
_LINE, _AFTER = 4.85, 0.9
_MAP_ROOM = 4.0
#: A map lower than this is of no use in the rain; the table of points makes room for it [mm].
LEAST_MAP = 52.0
#: Grounds stay on the page while the zone is drawn at this share of the size it would have without them [-].
_WORTH = 0.85
#: What margins and key take of a map [px].
_FRAME, _KEY = 32.0, 38.0
POINT_COLUMNS = 3
#: The most points that a zone's page lists [-].
MOST_POINTS = 60
#: Sizes of letters [pt], and what is reckoned of a line's width, so that a rounding never costs a line [-].
_SIZE, _SIZE_HEAD, _MM_A_PT, _WORKING = 10.0, 15.0, 25.4 / 72, 0.985
#: Width of a blank [em].
_BLANK = 0.26
PX_A_MM = 96 / 25.4


@dataclass(frozen=True, slots=True)
class Words:
    """The sentences of a page.

    Attributes:
        walk: how to walk; always on the page, the first of them beside the map.
        why: grounds, the weightiest first; as many on the page as find room.
        moisture: what moisture is wanted and known; always on the page.
        last: said last, always on the page.
    """

    walk: tuple[str, ...]
    why: tuple[str, ...]
    moisture: tuple[str, ...]
    last: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PageParts:
    """What a page holds beside its map.

    Attributes:
        heading, facts: the page's heading and its line of facts.
        layers: rows of bags [-].
        before: what is ticked before the first core, in one text; empty where nothing is.
        point_lines: lines of the longest column of points [-].
        words: the sentences.
        land: width and height of the zone on the ground [m].
    """

    heading: str
    facts: str
    layers: int
    before: str
    point_lines: int
    words: Words
    land: tuple[float, float]


@dataclass(frozen=True, slots=True)
class PageFit:
    """How a page is filled.

    Attributes:
        map_width, map_height: the most that the map takes [px].
        beside: sentences beside the map; empty where it takes the whole width.
        below: sentences over the whole width, under the points.
        elsewhere: grounds without room on this page.
        lists_points: whether the page has room for its table of points; where not, it goes to the next page.
    """

    map_width: float
    map_height: float
    beside: tuple[str, ...]
    below: tuple[str, ...]
    elsewhere: tuple[str, ...] = ()
    lists_points: bool = True


def fit_page(parts: PageParts) -> PageFit:
    """Return how a page with a map is filled."""
    words = parts.words
    room = _room(parts)
    if parts.point_lines and _best(room, words.walk, words.last, parts.land).map_height < LEAST_MAP * PX_A_MM:
        return replace(fit_page(replace(parts, point_lines=0)), lists_points=False)
    without = _best(room, words.walk, words.last, parts.land)
    for said in range(len(words.why), 0, -1):
        fit = _best(room, (*words.walk, *words.why[:said]), words.last, parts.land)
        if _scale(fit, parts.land) >= _WORTH * _scale(without, parts.land):
            return replace(fit, elsewhere=words.why[said:])
    return replace(without, elsewhere=words.why)


def fit_without_map(parts: PageParts) -> PageFit:
    """Return how a page without a map is filled: words alone; what they leave is room to draw in."""
    words = parts.words
    said = (*words.walk, *words.why, *words.last)
    return PageFit(PAGE_WIDTH * PX_A_MM, (_room(parts) - _paragraphs(said, PAGE_WIDTH)) * PX_A_MM, (), said)


def room_to_write(fit: PageFit, drawn: float) -> str:
    """Return how high the box for deviations can be, as a length of the style.

    Args:
        fit: how the page is filled.
        drawn: height of the map that was drawn [px].
    """
    used = max(drawn / PX_A_MM, _paragraphs(fit.beside, _WORDS_BESIDE) if fit.beside else 0.0)
    spare = fit.map_height / PX_A_MM - used
    return f"{figure(min(_LEAST_TO_WRITE + max(spare, 0.0), _MOST_TO_WRITE))}mm"


def _room(parts: PageParts) -> float:
    """Return the height that is left for the map and the sentences [mm]."""
    return PAGE_HEIGHT - _fixed(parts) - _paragraphs(parts.words.moisture, PAGE_WIDTH)


def _best(room: float, sentences: tuple[str, ...], last: tuple[str, ...], land: tuple[float, float]) -> PageFit:
    """Return the better of words beside the map and below it: that with the larger map."""
    height = room - _paragraphs((*sentences, *last), PAGE_WIDTH) - _MAP_ROOM
    stacked = PageFit(PAGE_WIDTH * PX_A_MM, height * PX_A_MM, (), (*sentences, *last))
    return max((_beside(room, sentences, last), stacked), key=lambda fit: _scale(fit, land))


def _beside(room: float, sentences: tuple[str, ...], last: tuple[str, ...]) -> PageFit:
    """Return a page whose first sentences, as many as find room, stand beside the map."""
    fits = []
    for count in range(len(sentences) + 1):
        height = room - _paragraphs((*sentences[count:], *last), PAGE_WIDTH) - _MAP_ROOM
        if count and _paragraphs(sentences[:count], _WORDS_BESIDE) > height:
            break
        fits.append((height, count))
    height, count = max(fits)
    return PageFit(_MAP_BESIDE * PX_A_MM, height * PX_A_MM, sentences[:count], (*sentences[count:], *last))


def _scale(fit: PageFit, land: tuple[float, float]) -> float:
    """Return how large the zone can be drawn [px a metre]."""
    width, height = fit.map_width - _FRAME, fit.map_height - _FRAME - _KEY
    return max(min(width / max(land[0], 1.0), height / max(land[1], 1.0)), 0.0)


def _fixed(parts: PageParts) -> float:
    """Return the height of what has its place on every page [mm]."""
    heading = _lines(parts.heading, PAGE_WIDTH, _SIZE_HEAD, bold=True) * _HEAD_LINE
    facts = _lines(parts.facts, PAGE_WIDTH) * _FACT_LINE
    bags = _LAYER_HEAD + parts.layers * _LAYER_ROW
    more = _lines(parts.before, PAGE_WIDTH - _BEFORE_BOXES) - 1
    ticked = _BEFORE_ROW + more * _LINE if parts.before else 0.0
    table = _POINTS_HEAD + parts.point_lines * _POINT_ROW if parts.point_lines else 0.0
    return _HEAD_ROOM + heading + facts + bags + ticked + table + _BOXES


def _paragraphs(sentences: tuple[str, ...], width: float) -> float:
    """Return the height of sentences, each a paragraph of its own [mm]."""
    return sum(_lines(sentence, width) * _LINE + _AFTER for sentence in sentences)


def _lines(words: str, width: float, size: float = _SIZE, *, bold: bool = False) -> int:
    """Return on how many lines words stand.

    Args:
        words: the words.
        width: of the lines [mm].
        size: of the letters [pt].
        bold: whether they are bold.
    """
    room = width * _WORKING / (size * _MM_A_PT)
    lines, used = 1, 0.0
    for word in words.split():
        wide = width_em(f"{word} ", bold=bold)
        if used and used + wide - _BLANK > room:
            lines, used = lines + 1, 0.0
        # A word longer than a line is broken wherever the line ends.
        broken = max(ceil((wide - _BLANK) / room) - 1, 0)
        lines, used = lines + broken, used + wide - broken * room
    return lines
