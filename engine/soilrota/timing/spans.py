"""Arithmetic of spans of days.

Every function takes spans in any order, overlapping or touching, and returns them sorted, disjoint and not touching:
two spans of an answer have at least one day between them. Cost grows with the number of spans, not of days.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from itertools import pairwise

from soilrota.model.windows import Span

ONE_DAY = timedelta(days=1)


def union(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days that lie in at least one of the spans."""
    given = tuple(spans)
    if _tidy(given):
        return given
    merged: list[Span] = []
    for span in sorted(given):
        if merged and (span.first - merged[-1].last).days <= 1:
            merged[-1] = Span(merged[-1].first, max(merged[-1].last, span.last))
        else:
            merged.append(span)
    return tuple(merged)


def _tidy(spans: tuple[Span, ...]) -> bool:
    """Return whether the spans are sorted, disjoint and not touching already, as they mostly are."""
    return all(after.first.toordinal() - before.last.toordinal() > 1 for before, after in pairwise(spans))


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
    return cut(union(spans), union(others))


def cut(spans: Sequence[Span], allowed: Sequence[Span]) -> tuple[Span, ...]:
    """Return the days of `spans` that lie in `allowed`, both sorted and disjoint already.

    It walks through both once, from the first of `allowed` that matters.
    """
    found: list[Span] = []
    number = 0
    for span in spans:
        number = bisect_left(allowed, span.first, lo=number, key=_last)
        while number < len(allowed) and allowed[number].first <= span.last:
            limit = allowed[number]
            found.append(
                Span(
                    max(limit.first, span.first),
                    min(limit.last, span.last),
                )
            )
            if limit.last > span.last:
                break
            number += 1
    return tuple(found)


def _last(span: Span) -> date:
    """Return the last day of a span."""
    return span.last


def clip(spans: Iterable[Span], first: date = date.min, last: date = date.max) -> tuple[Span, ...]:
    """Return the days of the spans from `first` to `last`, both included; none when `first` is after `last`."""
    return tuple(
        span if first <= span.first and span.last <= last else Span(max(first, span.first), min(last, span.last))
        for span in union(spans)
        if first <= last and span.first <= last and span.last >= first
    )


def between(first: date, last: date) -> tuple[Span, ...]:
    """Return the one span from `first` to `last`, or none when `first` is after `last`."""
    return (Span(first, last),) if first <= last else ()
