"""Arithmetic of spans of days.

Every function takes spans in any order, overlapping or touching, and returns them sorted, disjoint and not touching:
two spans of an answer have at least one day between them. Cost grows with the number of spans, not of days.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from operator import attrgetter

from soilrota.model.windows import Span

ONE_DAY = timedelta(days=1)
_first_day = attrgetter("first")
_last_day = attrgetter("last")


def union(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days that lie in at least one of the spans."""
    given = tuple(spans)
    if len(given) <= 1 or _tidy(given):
        return given
    merged: list[Span] = []
    for span in sorted(given, key=_first_day):
        if merged and (span.first - merged[-1].last).days <= 1:
            merged[-1] = Span(merged[-1].first, max(merged[-1].last, span.last))
        else:
            merged.append(span)
    return tuple(merged)


def _tidy(spans: tuple[Span, ...]) -> bool:
    """Return whether the spans are sorted, disjoint and not touching already, as they mostly are."""
    free_from = spans[0].last.toordinal() + 1
    for span in spans[1:]:
        if span.first.toordinal() <= free_from:
            return False
        free_from = span.last.toordinal() + 1
    return True


def subtract(spans: Iterable[Span], taken: Iterable[Span]) -> tuple[Span, ...]:
    """Return the days of `spans` that lie in none of `taken`."""
    return without(union(spans), union(taken))


def without(spans: tuple[Span, ...], holes: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return what `subtract` does, of spans and holes that are sorted and disjoint already."""
    if not holes:
        return spans
    return tuple([piece for span in spans for piece in _without(span, holes)])


def _without(span: Span, holes: tuple[Span, ...]) -> list[Span]:
    """Return the pieces of `span` between the holes, which are sorted and disjoint."""
    begin = bisect_left(holes, span.first, key=_last_day)
    end = bisect_right(holes, span.last, lo=begin, key=_first_day)
    if begin == end:
        return [span]
    pieces = []
    start = span.first
    for hole in holes[begin:end]:
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
        number = bisect_left(allowed, span.first, lo=number, key=_last_day)
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


def clip(spans: Iterable[Span], first: date = date.min, last: date = date.max) -> tuple[Span, ...]:
    """Return the days of the spans from `first` to `last`, both included; none when `first` is after `last`."""
    return trim(union(spans), first, last)


def trim(spans: tuple[Span, ...], first: date = date.min, last: date = date.max) -> tuple[Span, ...]:
    """Return what `clip` does, of spans that are sorted and disjoint already: only the ends are looked at."""
    if not spans or first > last:
        return ()
    cuts_first, cuts_last = spans[0].first < first, spans[-1].last > last
    if not cuts_first and not cuts_last:
        return spans
    begin = bisect_left(spans, first, key=_last_day) if cuts_first else 0
    end = bisect_right(spans, last, lo=begin, key=_first_day) if cuts_last else len(spans)
    found = list(spans[begin:end])
    if found and found[0].first < first:
        found[0] = Span(first, found[0].last)
    if found and found[-1].last > last:
        found[-1] = Span(found[-1].first, last)
    return tuple(found)


def between(first: date, last: date) -> tuple[Span, ...]:
    """Return the one span from `first` to `last`, or none when `first` is after `last`."""
    return (Span(first, last),) if first <= last else ()
