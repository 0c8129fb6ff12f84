"""Values of one analysis over the years: each with its interval, against the target as a band and the line drawn in.

Values that do not compare with the last one stand as hollow squares below the scale, behind a broken line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise

from soilrota.documents.svg import (
    INK,
    LINE,
    MUTED,
    OPEN,
    PAPER,
    TARGET,
    circle,
    line,
    path,
    picture,
    polyline,
    rectangle,
    text,
)
from soilrota.language import say

WIDTH, HEIGHT = 236.0, 70.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 12.0, 96.0, 12.0, 47.0
#: Least room between two labels [px].
_APART, _ROW = 27.0, 9.0


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """One value of a chart.

    Attributes:
        day: day of sampling.
        value: the number [unit of the chart].
        ends: what it may be [unit]; None where that is not known, or the value is censored.
        words: the value as tables print it, with its unit.
        qualifier: empty, `<` or `>`.
        ends_words: what it may be as tables print it, `25` and `48 mg/kg`; None where that is not known.
        why_not: why it does not compare with the last value, in words; empty where it does.
    """

    day: date
    value: float
    ends: tuple[float, float] | None
    words: str
    qualifier: str = ""
    ends_words: tuple[str, str] | None = None
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class Against:
    """What values are held against: ends of the target and the line [unit], each with its words; None where open.

    `line_label` stands for the line in the picture, where there is no room for its status.
    """

    low: float | None = None
    high: float | None = None
    target_words: str = ""
    line: float | None = None
    line_words: str = ""
    line_label: str = ""


class _Scale:
    """Where days and values stand."""

    def __init__(self, points: Sequence[ChartPoint], against: Against) -> None:
        compared = [point for point in points if not point.why_not]
        ends = [end for point in compared for end in (point.ends or (point.value,))]
        edges = [edge for edge in (against.low, against.high, against.line) if edge is not None]
        low, high = min([*ends, *edges]), max([*ends, *edges])
        room = (high - low) * 0.08 or max(abs(high) * 0.1, 0.1)
        self._low, self._high = low - room, high + room
        days = [point.day for point in points]
        self._first, self._days = min(days), (max(days) - min(days)).days

    def x(self, day: date) -> float:
        """Return where a day stands [px]; a single day in the middle."""
        width = WIDTH - _LEFT - _RIGHT
        return _LEFT + (width * (day - self._first).days / self._days if self._days else width / 2)

    def y(self, value: float) -> float:
        """Return where a value stands [px]."""
        return _BOTTOM - (value - self._low) / (self._high - self._low) * (_BOTTOM - _TOP)


def value_chart(points: Sequence[ChartPoint], against: Against, name: str) -> str:
    """Return the chart as SVG.

    Args:
        points: in order of day; at least one compares.
        against: what they are held against.
        name: what is shown, for the text alternative.
    """
    scale = _Scale(points, against)
    compared = [point for point in points if not point.why_not]
    others = [point for point in points if point.why_not]
    parts = [*_band(against, scale), *_breaks(others, compared, scale)]
    if len(compared) > 1:
        data = polyline((scale.x(point.day), scale.y(point.value)) for point in compared)
        parts.append(path(data, fill="none", stroke=MUTED, stroke_width=0.9))
    for point in compared:
        parts += _value(point, scale)
    parts += [*_labels(compared, scale), *_right(compared[-1], against, scale), *_years(points, scale)]
    return picture(WIDTH, HEIGHT, _alternative(points, against, name), parts)


def _band(against: Against, scale: _Scale) -> Iterator[str]:
    """Yield the target as a band, open ends running to the edge, and the line."""
    right = WIDTH - _RIGHT + 8
    if against.low is not None or against.high is not None:
        upper = _TOP - 6 if against.high is None else scale.y(against.high)
        lower = _BOTTOM + 4 if against.low is None else scale.y(against.low)
        yield rectangle(0, upper, right, max(lower - upper, 1), fill=TARGET)
    if against.line is not None:
        y = scale.y(against.line)
        yield line(0, y, right, y, stroke=OPEN, stroke_width=1, stroke_dasharray="4 2")


def _breaks(others: Sequence[ChartPoint], compared: Sequence[ChartPoint], scale: _Scale) -> Iterator[str]:
    """Yield the values that do not compare, and the broken line between them and those that do."""
    if others:
        between = (scale.x(others[-1].day) + scale.x(compared[0].day)) / 2
        if others[-1].day < compared[0].day:
            yield line(between, 2, between, _BOTTOM + 6, stroke=MUTED, stroke_dasharray="2 2")
        for point in others:
            yield rectangle(scale.x(point.day) - 2, _BOTTOM + 1, 4, 4, fill=PAPER, stroke=MUTED, stroke_width=0.9)


def _value(point: ChartPoint, scale: _Scale) -> Iterator[str]:
    """Yield a value with its interval; a censored one is hollow, with an arrow to where it may lie."""
    x, y = scale.x(point.day), scale.y(point.value)
    if point.ends is not None:
        low, high = (scale.y(end) for end in point.ends)
        yield line(x, low, x, high, stroke=INK, stroke_width=1)
        for end in (low, high):
            yield line(x - 2.5, end, x + 2.5, end, stroke=INK, stroke_width=1)
    if point.qualifier:
        tip = y + (8 if point.qualifier == "<" else -8)
        yield line(x, y, x, tip, stroke=INK, stroke_width=1)
        back = tip + (-3 if point.qualifier == "<" else 3)
        yield path(polyline([(x - 2.5, back), (x, tip), (x + 2.5, back)]), fill="none", stroke=INK, stroke_width=1)
    yield circle(x, y, 2.4, fill=PAPER if point.qualifier else INK, stroke=INK, stroke_width=1)


def _figure_of(point: ChartPoint) -> str:
    """Return the number of a value without its unit."""
    return point.words.split(" ")[0]


def _labels(compared: Sequence[ChartPoint], scale: _Scale) -> Iterator[str]:
    """Yield the numbers of the earlier values beside their points, as far as there is room."""
    taken = scale.x(compared[-1].day)
    for point, after in reversed(list(pairwise(compared))):
        x, y = scale.x(point.day), scale.y(point.value)
        if taken - x >= _APART:
            # On the side that the line to the next value leaves free.
            yield text(x + 4, y + (9.5 if scale.y(after.value) < y else -3.5), _figure_of(point), 8, fill=MUTED)
            taken = x


def _right(last: ChartPoint, against: Against, scale: _Scale) -> Iterator[str]:
    """Yield the last value, the line and the target in words at the right, none upon another."""
    wanted = [(scale.y(last.value) + 3, last.words, {"font_weight": "bold"}, 9.0)]
    if against.line is not None:
        wanted.append((scale.y(against.line) + 3, against.line_label, {"fill": OPEN}, 8.0))
    if against.target_words:
        edges = [edge for edge in (against.low, against.high) if edge is not None]
        wanted.append((scale.y(sum(edges) / len(edges)) + 3, against.target_words, {"fill": MUTED}, 8.0))
    x = WIDTH - _RIGHT + 12
    least = 8.0
    placed = sorted(wanted, key=lambda one: one[0])
    for number, (y, words, more, size) in enumerate(placed):
        most = HEIGHT - 4 - _ROW * (len(placed) - 1 - number)
        at = min(max(y, least), most)
        yield text(x, at, words, size, **more)
        least = at + _ROW + 1


def _years(points: Sequence[ChartPoint], scale: _Scale) -> Iterator[str]:
    """Yield the axis and the years below it, as far as there is room; the last one always."""
    yield line(0, _BOTTOM + 8, WIDTH - _RIGHT + 8, _BOTTOM + 8, stroke=LINE)
    last = scale.x(points[-1].day)
    yield text(last, HEIGHT - 5, str(points[-1].day.year), 8, fill=MUTED, text_anchor="middle")
    taken, said = last, points[-1].day.year
    for point in reversed(points[:-1]):
        x = scale.x(point.day)
        if taken - x >= _APART and point.day.year != said:
            yield text(x, HEIGHT - 5, str(point.day.year), 8, fill=MUTED, text_anchor="middle")
            taken, said = x, point.day.year


def _alternative(points: Sequence[ChartPoint], against: Against, name: str) -> str:
    """Return what the chart shows, in words."""
    said = []
    for point in points:
        value, why = _value_in_year(point), point.why_not
        said.append(say("{value}, not comparable: {reason}", value=value, reason=why) if why else value)
    held = "; ".join(words for words in (against.line_words, against.target_words) if words)
    shown = f"{name}: {'; '.join(said)}."
    return " ".join((shown, say("Held against: {line}.", line=held))) if held else shown


def _value_in_year(point: ChartPoint) -> str:
    """Return a value with its interval and its year."""
    if point.ends_words is None:
        return say("{value} in {year}", value=point.words, year=point.day.year)
    low, high = point.ends_words
    return say(
        "{value} (between {low} and {high}) in {year}", value=point.words, low=low, high=high, year=point.day.year
    )
