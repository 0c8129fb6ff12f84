"""The control chart of one laboratory, material and analysis, and the marks of its states."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from soilrota.documents.check_words import as_reported, figure_of, off_by, state_word, with_unit
from soilrota.documents.dates import digits, long_day, month_letters
from soilrota.documents.svg import (
    CLOSED,
    INK,
    LINE,
    MUTED,
    OPEN,
    PAPER,
    SEASON,
    circle,
    diamond,
    line,
    path,
    picture,
    polyline,
    rectangle,
    text,
)
from soilrota.language import marked, say
from soilrota.model.check_charts import CheckChart, CheckLimits, CheckPoint, CheckState

WIDTH, HEIGHT = 660.0, 182.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 10.0, 488.0, 10.0, 156.0
#: A check further off than this is drawn at the edge, with an arrow [sd].
_FURTHEST = 5.5
_LEAST_RANGE = 4.0
_LEAST_DAYS = 60
_MOST_TICKS = 8
_STEPS = (1, 3, 6, 12, 24, 60, 120)
#: Width of a label, and of the words in a band [px].
_LABEL, _WORDS = 46.0, 76.0
#: Height of a row of the key, width of a letter in it, and the least room between its entries [px].
_KEY_ROW, _LETTER, _BETWEEN = 17.0, 4.75, 6.0
#: Half of the largest mark [px].
_MARK = 5.2
#: A place on the chart [px].
_Spot = tuple[float, float]


def check_chart(chart: CheckChart, points: Sequence[CheckPoint], limits: CheckLimits, name: str, language: str) -> str:
    """Return the chart as SVG.

    Args:
        chart: what is shown.
        points: its last points, in order; at least one.
        limits: the figures of the rules, for the lines.
        name: what is shown, for the text alternative.
        language: language tag.
    """
    frame = _Frame(points)
    parts = [
        *_doubts(chart, points, frame),
        *_lines(chart, limits, frame),
        *_dates(frame, language),
        *_joined(points, frame),
        *(mark for point in points for mark in _mark(point, frame)),
        *_labels(chart, points, limits, frame),
    ]
    return picture(WIDTH, HEIGHT, _alternative(chart, points, name, language), parts)


class _Frame:
    """Where days and deviations stand."""

    def __init__(self, points: Sequence[CheckPoint]) -> None:
        room = timedelta(max((points[-1].day - points[0].day).days // 24, 10))
        self.first, self.last = points[0].day - room, points[-1].day + room
        short = max(_LEAST_DAYS - (self.last - self.first).days, 0)
        self.first -= timedelta(short // 2)
        self.last += timedelta(short - short // 2)
        reach = max((abs(point.z) for point in points if point.z is not None), default=0.0)
        self.range = min(max(reach + 0.4, _LEAST_RANGE), _FURTHEST + 0.5)

    def x(self, day: date) -> float:
        """Return where a day stands, kept inside the chart."""
        share = (day - self.first).days / (self.last - self.first).days
        return _LEFT + min(max(share, 0.0), 1.0) * (_RIGHT - _LEFT)

    def y(self, z: float) -> float:
        """Return where a deviation stands, kept inside the chart."""
        kept = min(max(z, -_FURTHEST), _FURTHEST)
        return (_TOP + _BOTTOM) / 2 - kept / self.range * (_BOTTOM - _TOP) / 2


def _doubts(chart: CheckChart, points: Sequence[CheckPoint], frame: _Frame) -> Iterator[str]:
    """Yield the times of which results carry a doubt, as pale bands with their name where there is room."""
    marks = [(frame.x(point.day), frame.y(point.z)) for point in points if point.z is not None]
    for spell in chart.spells:
        if spell.until is not None and spell.until <= frame.first:
            continue
        start = frame.x(spell.in_line_before) if spell.in_line_before else _LEFT
        end = frame.x(spell.until) if spell.until else _RIGHT
        yield rectangle(start, _TOP - 4, end - start, _BOTTOM - _TOP + 8, fill=SEASON)
        yield line(start, _TOP - 4, start, _BOTTOM + 4, stroke=CLOSED, stroke_width=0.9, stroke_dasharray="1.5 1.5")
        is_free = all(y < _BOTTOM - 14 for x, y in marks if start - 6 < x < start + _WORDS + 6)
        if end - start > _WORDS and is_free:
            yield text(start + 4, _BOTTOM + 1, say("results in doubt"), 8.5, fill=CLOSED, font_style="italic")


def _lines(chart: CheckChart, limits: CheckLimits, frame: _Frame) -> Iterator[str]:
    """Yield the lines with their words and figures at the right end."""
    for z, words, dashes, width in (
        (limits.action, marked("action line, {distance} sd above"), "", 1.0),
        (limits.warning, marked("warning line, {distance} sd above"), "4 2", 0.8),
        (0.0, marked("assigned value"), "", 1.0),
        (-limits.warning, marked("warning line, {distance} sd below"), "4 2", 0.8),
        (-limits.action, marked("action line, {distance} sd below"), "", 1.0),
    ):
        y = frame.y(z)
        more = {"stroke_dasharray": dashes} if dashes else {}
        stroke = OPEN if not z else CLOSED if abs(z) == limits.action else MUTED
        yield line(_LEFT, y, _RIGHT, y, stroke=stroke, stroke_width=width, **more)
        figure = with_unit(figure_of(chart.assigned + z * chart.sd, chart.sd), chart.unit)
        said = say(words, distance=digits(f"{abs(z):g}"))
        yield text(_RIGHT + 6, y + 3, f"{figure}: {said}", 8.5, font_weight="normal" if z else "bold")


def _dates(frame: _Frame, language: str) -> Iterator[str]:
    """Yield the axis of days: months with their years, as many as have room."""
    yield line(_LEFT, _BOTTOM + 5, _RIGHT, _BOTTOM + 5, stroke=MUTED)
    for day in _ticks(frame.first, frame.last):
        x = frame.x(day)
        yield line(x, _BOTTOM + 5, x, _BOTTOM + 9, stroke=MUTED)
        words = f"{month_letters(day, language)} {day.year}"
        anchor = "start" if x < _LEFT + _LABEL / 2 else "end" if x > _RIGHT - _LABEL / 2 else "middle"
        yield text(x, _BOTTOM + 19, words, 8.5, fill=MUTED, text_anchor=anchor)


def _ticks(first: date, last: date) -> list[date]:
    """Return first days of months at even steps, at most as many as have room."""
    months = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    for step in _STEPS:
        starts = [date(month // 12, month % 12 + 1, 1) for month in months if not month % step]
        inside = [day for day in starts if first <= day <= last]
        if len(inside) <= _MOST_TICKS:
            break
    return inside


def _joined(points: Sequence[CheckPoint], frame: _Frame) -> Iterator[str]:
    """Yield the line through the checks of which something can be told."""
    told = [(frame.x(point.day), frame.y(point.z)) for point in points if point.z is not None]
    if len(told) > 1:
        yield path(polyline(told), fill="none", stroke=INK, stroke_width=0.7)


def _mark(point: CheckPoint, frame: _Frame) -> Iterator[str]:
    """Yield the mark of one check; an arrow where it lies further off than is drawn, or than is known."""
    x = frame.x(point.day)
    if point.z is None:
        yield state_shape(point.state, x, _BOTTOM - 2)
        return
    y = frame.y(point.z)
    yield state_shape(point.state, x, y)
    if point.qualifier or abs(point.z) > _FURTHEST:
        way = -1 if point.z > 0 else 1
        tip = y + way * 10
        yield path(
            polyline([(x, y + way * 4), (x, tip)])
            + polyline([(x - 2.5, tip - way * 3), (x, tip), (x + 2.5, tip - way * 3)]),
            fill="none",
            stroke=INK,
            stroke_width=0.9,
        )


def _labels(chart: CheckChart, points: Sequence[CheckPoint], limits: CheckLimits, frame: _Frame) -> Iterator[str]:
    """Yield the reported figure beside the last check and those beyond the warning line, where there is room."""
    told = [(point, point.z) for point in points if point.z is not None]
    marks = [(frame.x(point.day), frame.y(z)) for point, z in told]
    last = marks[-1][0] if marks else _RIGHT
    free = _LEFT
    for point, z in told:
        x = frame.x(point.day)
        is_last = point is told[-1][0]
        has_room = x - _LABEL / 2 >= free and x + _LABEL <= last
        if not is_last and not (abs(z) > limits.warning and has_room):
            continue
        free = x + _LABEL / 2
        words = as_reported(point, chart.sd)
        wide = 5.4 * len(words)
        y = _beside((x, frame.y(z)), wide, marks, is_above=z > 0)
        yield rectangle(x - wide / 2, y - 7.5, wide, 9, fill=PAPER, fill_opacity=0.85)
        yield text(x, y, words, 8.5, text_anchor="middle", font_weight="bold")


def _beside(mark: _Spot, wide: float, marks: Sequence[_Spot], *, is_above: bool) -> float:
    """Return where the words beside a mark stand: outside it, or inside where the chart's edge or a mark is near."""
    x, y = mark
    sides = (y - 7, y + 14) if is_above else (y + 14, y - 7)
    inside = [side for side in sides if side - 7.5 >= _TOP - 6 and side <= _BOTTOM + 2]
    near = [other for at, other in marks if (at, other) != mark and abs(at - x) < wide / 2 + _MARK]
    free = [side for side in inside if not any(side - 7.5 - _MARK < other < side + 1.5 + _MARK for other in near)]
    return (free or inside)[0]


def state_shape(state: CheckState, x: float, y: float) -> str:
    """Return the mark of a state at a place: a disc in line, a ring to be watched, a diamond off, a query untold."""
    if state is CheckState.IN_LINE:
        return circle(x, y, 2.6, fill=INK)
    if state is CheckState.WATCH:
        return circle(x, y, 3.4, fill=PAPER, stroke=INK, stroke_width=1.4)
    if state is CheckState.OFF:
        return diamond(x, y, 5.2)
    ring = circle(x, y, 4.4, fill=PAPER, stroke=MUTED, stroke_width=0.9)
    return ring + text(x, y + 2.7, "?", 7.5, text_anchor="middle", font_weight="bold", fill=MUTED)


def state_mark(state: CheckState) -> str:
    """Return the mark of a state for a line of words."""
    shapes = {
        CheckState.IN_LINE: marked("disc"),
        CheckState.WATCH: marked("ring"),
        CheckState.OFF: marked("diamond"),
        CheckState.UNTOLD: marked("query"),
    }
    return picture(11, 11, say(shapes[state]), [state_shape(state, 5.5, 5.5)])


def chart_key() -> str:
    """Return the key of the charts: marks, the band, what sd means; a second row where words need one."""
    doubt, sd = say("results reported then carry a doubt"), say("sd: standard deviation between runs")
    marks = {CheckState.IN_LINE: 5.0, CheckState.WATCH: 70.0, CheckState.OFF: 135.0, CheckState.UNTOLD: 186.0}
    spots = _key_spots(
        [*((x - 5.0, 14.0, state_word(state)) for state, x in marks.items()), (264.0, 29.0, doubt), (478.0, 0.0, sd)]
    )
    parts = []
    for state, (left, down) in zip(marks, spots, strict=False):
        parts.append(state_shape(state, left + 5, down + 8.5))
        parts.append(text(left + 14, down + 12, state_word(state).lower(), 9.5))
    (left, down), (last, below) = spots[-2:]
    parts += [
        rectangle(left, down + 3, 24, 11, fill=SEASON, stroke=LINE, stroke_width=0.5),
        text(left + 29, down + 12, doubt, 9.5),
        text(last, below + 12, sd, 9.5, fill=MUTED),
    ]
    alternative = say("Key: disc in line, ring to be watched, diamond off, query cannot tell.")
    return picture(WIDTH, below + _KEY_ROW, alternative, parts)


def _key_spots(entries: Sequence[tuple[float, float, str]]) -> list[_Spot]:
    """Return where the entries of the key stand: where they are wanted, or further on or down where words are long.

    Args:
        entries: where each is wanted, the width of what stands before its words [px], its words.
    """
    spots, free, down = [], 0.0, 0.0
    for wanted, before, words in entries:
        width = before + _LETTER * len(words)
        left = max(wanted if not down else 0.0, free)
        if left + width > WIDTH:
            left, down = 0.0, down + _KEY_ROW
        spots.append((left, down))
        free = left + width + _BETWEEN
    return spots


def _alternative(chart: CheckChart, points: Sequence[CheckPoint], name: str, language: str) -> str:
    """Return what the chart shows, in words."""
    said = [
        ", ".join(
            filter(
                None,
                (
                    long_day(point.day, language),
                    with_unit(as_reported(point, chart.sd), chart.unit),
                    off_by(point),
                    state_word(point.state).lower(),
                ),
            )
        )
        for point in points
    ]
    centre = with_unit(figure_of(chart.assigned, chart.sd), chart.unit)
    return say(
        "Control chart of {analysis}, assigned value {value}. {checks}.",
        analysis=name,
        value=centre,
        checks="; ".join(said),
    )
