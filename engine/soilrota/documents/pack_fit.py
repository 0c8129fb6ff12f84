"""How a zone's page is filled: how large its map can be, and which sentences stand beside it, below it or elsewhere.

Heights here mirror `field_pack.css`; text is reckoned with letters a little wider than they are, so that a page that
fits here fits on paper. The tests read the PDF back.
"""

from __future__ import annotations

import textwrap
from dataclasses import dataclass, replace
from math import ceil

from soilrota.documents.svg import figure

#: Room inside the page's margins [mm], and what a map may take of its width beside words [mm].
PAGE_WIDTH, PAGE_HEIGHT = 184.0, 267.0
_MAP_BESIDE, _WORDS_BESIDE = 116.0, 64.0
#: Heights [mm].
_HEAD_LINE, _FACT_LINE, _HEAD_ROOM = 6.8, 4.9, 5.0
_LAYER_HEAD, _LAYER_ROW = 5.5, 9.4
_BEFORE_ROW = 8.0
_POINTS_HEAD, _POINT_ROW = 6.5, 4.05
_BOXES = 56.0
_LINE, _AFTER = 4.85, 0.9
_MAP_ROOM = 4.0
#: Under this height a map is too small for gloves and rain, and grounds go elsewhere [mm].
LEAST_MAP = 92.0
POINT_COLUMNS = 3
#: The most points that a zone's page lists [-].
MOST_POINTS = 60
#: Letters on a line of 10 pt beside the map and over the whole width [-]; heads are larger.
_LETTERS_BESIDE, _LETTERS, _LETTERS_HEAD = 33, 98, 58
PX_A_MM = 96 / 25.4


@dataclass(frozen=True, slots=True)
class Words:
    """The sentences of a page.

    Attributes:
        walk: how to walk; always on the page, the first of them beside the map.
        why: grounds; on the page where there is room.
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
        before: lines to tick before the first core [-].
        points: points in the table [-].
        words: the sentences.
        land: width and height of the zone on the ground [m].
    """

    heading: str
    facts: str
    layers: int
    before: int
    points: int
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
    """

    map_width: float
    map_height: float
    beside: tuple[str, ...]
    below: tuple[str, ...]
    elsewhere: tuple[str, ...] = ()


def fit_page(parts: PageParts) -> PageFit:
    """Return how a page with a map is filled."""
    words = parts.words
    room = PAGE_HEIGHT - _fixed(parts) - _paragraphs(words.moisture, _LETTERS)
    with_why = _best(room, (*words.walk, *words.why), words.last, parts.land)
    if with_why.map_height >= LEAST_MAP * PX_A_MM or not words.why:
        return with_why
    return replace(_best(room, words.walk, words.last, parts.land), elsewhere=words.why)


def fit_without_map(words: Words) -> PageFit:
    """Return how a page without a map is filled: words alone."""
    return PageFit(PAGE_WIDTH * PX_A_MM, 0.0, (), (*words.walk, *words.why, *words.last))


def _best(room: float, sentences: tuple[str, ...], last: tuple[str, ...], land: tuple[float, float]) -> PageFit:
    """Return the better of words beside the map and below it: that with the larger map."""
    height = room - _paragraphs((*sentences, *last), _LETTERS) - _MAP_ROOM
    stacked = PageFit(PAGE_WIDTH * PX_A_MM, height * PX_A_MM, (), (*sentences, *last))
    return max((_beside(room, sentences, last), stacked), key=lambda fit: _scale(fit, land))


def _beside(room: float, sentences: tuple[str, ...], last: tuple[str, ...]) -> PageFit:
    """Return a page whose first sentences, as many as find room, stand beside the map."""
    fits = []
    for count in range(len(sentences) + 1):
        height = room - _paragraphs((*sentences[count:], *last), _LETTERS) - _MAP_ROOM
        if count and _paragraphs(sentences[:count], _LETTERS_BESIDE) > height:
            break
        fits.append((height, count))
    height, count = max(fits)
    return PageFit(_MAP_BESIDE * PX_A_MM, height * PX_A_MM, sentences[:count], (*sentences[count:], *last))


def _scale(fit: PageFit, land: tuple[float, float]) -> float:
    """Return how large the zone can be drawn [px a metre]."""
    return min(fit.map_width / max(land[0], 1.0), fit.map_height / max(land[1], 1.0))


def _fixed(parts: PageParts) -> float:
    """Return the height of what has its place on every page [mm]."""
    heading = _lines(parts.heading, _LETTERS_HEAD) * _HEAD_LINE + _lines(parts.facts, _LETTERS) * _FACT_LINE
    bags = _LAYER_HEAD + parts.layers * _LAYER_ROW + parts.before * _BEFORE_ROW
    table = _POINTS_HEAD + ceil(parts.points / POINT_COLUMNS) * _POINT_ROW if parts.points else 0.0
    return _HEAD_ROOM + heading + bags + table + _BOXES


def _paragraphs(sentences: tuple[str, ...], letters: int) -> float:
    """Return the height of sentences, each a paragraph of its own [mm]."""
    return sum(_lines(sentence, letters) * _LINE + _AFTER for sentence in sentences)


def _lines(words: str, letters: int) -> int:
    """Return on how many lines words stand.

    >>> _lines("a b", 58), _lines("word " * 20, 33)
    (1, 4)
    """
    return max(len(textwrap.wrap(words, letters)), 1)


def millimetres(pixels: float) -> str:
    """Return pixels as millimetres for a style.

    >>> millimetres(96)
    '25.4mm'
    """
    return f"{figure(pixels / PX_A_MM)}mm"
