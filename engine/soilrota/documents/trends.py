"""A small trend of one analysis: comparable values joined, the target as a band, breaks where methods changed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from soilrota.documents.dates import digits
from soilrota.documents.svg import INK, LINE, MUTED, TARGET, circle, line, path, picture, polyline, rectangle, text
from soilrota.language import say

WIDTH, HEIGHT = 150.0, 40.0
_LEFT, _RIGHT, _TOP, _BOTTOM = 8.0, 44.0, 7.0, 27.0


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One value of a trend.

    Attributes:
        day: day of sampling.
        value: the number, in its own unit.
        is_comparable: whether it may be compared with the last one.
        is_censored: whether it lies outside what is reported.
        words: the value as it is printed.
        why_not: why it may not be compared, in words that follow the value and its year; empty for another method.
    """

    day: date
    value: float
    is_comparable: bool
    is_censored: bool
    words: str
    why_not: str = ""


def trend(points: Sequence[TrendPoint], low: float | None, high: float | None, name: str) -> str:
    """Return the trend as SVG.

    Values that may not be compared with the last one stand as squares and are never joined to it.

    Args:
        points: in order of day; at least two.
        low: lower end of the target, in the unit of the comparable values; None where it is open.
        high: upper end of the target; None where it is open.
        name: what is shown, for the text alternative.
    """
    comparable = [point for point in points if point.is_comparable]
    values = [point.value for point in comparable] + [edge for edge in (low, high) if edge is not None]
    bottom, top = _range(values)
    days = (points[-1].day - points[0].day).days or 1

    def x(day: date) -> float:
        return _LEFT + (day - points[0].day).days / days * (WIDTH - _LEFT - _RIGHT)

    def y(value: float) -> float:
        return _BOTTOM - (value - bottom) / (top - bottom) * (_BOTTOM - _TOP)

    parts = list(_band(low, high, bottom, top))
    others = [point for point in points if not point.is_comparable]
    if others and comparable:
        between = (x(others[-1].day) + x(comparable[0].day)) / 2
        parts.append(line(between, 2, between, _BOTTOM + 3, stroke=MUTED, stroke_dasharray="2 2"))
    parts += [rectangle(x(point.day) - 1.6, _BOTTOM - 4, 3.2, 3.2, fill="none", stroke=MUTED) for point in others]
    if len(comparable) > 1:
        data = polyline((x(point.day), y(point.value)) for point in comparable)
        parts.append(path(data, fill="none", stroke=INK, stroke_width=1.1))
    for point in comparable:
        fill = "#ffffff" if point.is_censored else INK
        parts.append(circle(x(point.day), y(point.value), 2, fill=fill, stroke=INK, stroke_width=0.8))
    last = points[-1]
    parts.append(text(x(last.day) + 5, y(last.value) + 3, last.words, 9, font_weight="bold"))
    parts += list(_years(points, x(points[0].day), x(last.day)))
    return picture(WIDTH, HEIGHT, _alternative(points, low, high, name), parts)


def _range(values: list[float]) -> tuple[float, float]:
    """Return the lowest and highest value drawn, with some room."""
    bottom, top = min(values), max(values)
    room = (top - bottom) * 0.15 or max(abs(top) * 0.1, 0.1)
    return bottom - room, top + room


def _band(low: float | None, high: float | None, bottom: float, top: float) -> Iterator[str]:
    """Yield the target as a band; open ends run to the edge."""
    if low is None and high is None:
        return
    edges = [bottom if low is None else low, top if high is None else high]
    first, last = (_BOTTOM - (edge - bottom) / (top - bottom) * (_BOTTOM - _TOP) for edge in edges)
    upper = min(last, _TOP) if high is None else last
    lower = max(first, _BOTTOM) if low is None else first
    yield rectangle(0, upper, WIDTH - _RIGHT + 6, max(lower - upper, 1), fill=TARGET)
    for edge, stands in ((low, first), (high, last)):
        if edge is not None:
            yield line(0, stands, WIDTH - _RIGHT + 6, stands, stroke=LINE)


def _years(points: Sequence[TrendPoint], first: float, last: float) -> Iterator[str]:
    """Yield the first and the last year below the line."""
    yield text(max(first - 8, 0), HEIGHT - 1.5, str(points[0].day.year), 8, fill=MUTED)
    if points[0].day.year != points[-1].day.year:
        yield text(last, HEIGHT - 1.5, str(points[-1].day.year), 8, fill=MUTED, text_anchor="middle")


def _alternative(points: Sequence[TrendPoint], low: float | None, high: float | None, name: str) -> str:
    """Return what the trend shows, in words."""
    values = ", ".join(map(_said, points))
    if low is not None and high is not None:
        return say(
            "{name}: {values}; target {low} to {high}.",
            name=name,
            values=values,
            low=digits(f"{low:g}"),
            high=digits(f"{high:g}"),
        )
    if low is not None:
        return say("{name}: {values}; target {low} or more.", name=name, values=values, low=digits(f"{low:g}"))
    if high is not None:
        return say("{name}: {values}; target {high} or less.", name=name, values=values, high=digits(f"{high:g}"))
    return f"{name}: {values}."


def _said(point: TrendPoint) -> str:
    """Return a value and its year in words, and why it may not be compared."""
    words = say("{value} in {year}", value=point.words, year=point.day.year)
    if point.is_comparable:
        return words
    why_not = point.why_not or say("by another method")
    return f"{words} {why_not}"
