"""Arithmetic of spans of days.

Every function takes spans in any order, overlapping or touching, and returns them sorted, disjoint and not touching:
two spans of an answer have at least one day between them. Cost grows with the number of spans, not of days.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from soilrota.model.windows import Span

ONE_DAY = timedelta(days=1)


def union(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days that lie in at least one of the spans."""
    merged: list[Span] = []
    for span in sorted(spans):
        if merged and (span.first - merged[-1].last).days <= 1:
            merged[-1] = Span(merged[-1].first, max(merged[-1].last, span.last))
        else:
            merged.append(span)
    return tuple(merged)


def subtract(spans: Iterable[Span], taken: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days of `spans` that lie in none of `taken`."""
    holes = union(taken)
    return tuple(piece for span in union(spans) for piece in _without(span, holes))


def _without(span: Span, holes: tuple[Span, ...]) -> list[Span]:
    """Return the pieces of `span` between the holes, which are sorted and disjoint."""
    pieces = []
    start = span.first
    for hole in holes:
        if hole.last < start:
            continue
        if hole.first > span.last:
            break
        if hole.first > start:
            pieces.append(Span(start, hole.first - ONE_DAY))
        if hole.last >= span.last:
            return pieces
        start = hole.last + ONE_DAY
    return [*pieces, Span(start, span.last)]


def intersect(spans: Iterable[Span], others: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days that lie both in `spans` and in `others`."""
    limits = union(others)
    return tuple(piece for span in union(spans) for piece in _within(span, limits))


def _within(span: Span, limits: tuple[Span, ...]) -> list[Span]:
    """Return the pieces of `span` inside the limits, which are sorted and disjoint."""
    pairs = ((max(span.first, limit.first), min(span.last, limit.last)) for limit in limits)
    return [Span(first, last) for first, last in pairs if first <= last]


def clip(spans: Iterable[Span], first: date = date.min, last: date = date.max) -> tuple[Span, ...]:
    """Return the days of the spans from `first` to `last`, both included; none when `first` is after `last`."""
    return intersect(spans, (Span(first, last),)) if first <= last else ()


def between(first: date, last: date) -> tuple[Span, ...]:
    """Return the one span from `first` to `last`, or none when `first` is after `last`."""
    return (Span(first, last),) if first <= last else ()
