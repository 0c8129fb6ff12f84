"""Which of the open days is best: the one measure of it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from functools import lru_cache
from itertools import groupby

from soilrota.model.moisture import Likelihood, MoistureOutlook, calendar_index
from soilrota.model.windows import Span
from soilrota.timing.spans import clip, cut

#: Smaller is better.
Score = tuple[int, date]


def score(day: date, target: date) -> Score:
    """Return how good a day is: its distance from the day aimed at [d], then the day itself; smaller is better.

    Same time each year comes first, because a trend mixes seasons otherwise; of two days equally far the earlier is
    preferred, because what is put off can still fail.
    """
    return abs((day - target).days), day


def best_day(spans: Sequence[Span], target: date) -> date | None:
    """Return the day of the spans with the smallest score; None where there is no day.

    The best day of one span is its nearest to the target, so of sorted, disjoint spans two are looked at: the last one
    that begins by the target, and the one after it.

    Args:
        spans: sorted, disjoint spans of days.
        target: the day aimed at.
    """
    after = bisect_right(spans, target, key=_first)
    near = spans[max(after - 1, 0) : after + 1]
    return min((span.nearest(target) for span in near), key=lambda day: score(day, target), default=None)


def _first(span: Span) -> date:
    """Return the first day of a span."""
    return span.first


def best_day_in_moisture(
    spans: tuple[Span, ...], target: date, outlook: MoistureOutlook | None, comparable: Span | None
) -> date | None:
    """Return the best day of the spans when moisture ranks them; None where there is no day.

    Days within the tolerance of the anniversary come first, so that moisture never moves a sampling out of its time
    of year; among them those that most often find the wanted soil; among those the smallest score.

    Args:
        spans: sorted, disjoint spans of days.
        target: the day aimed at.
        outlook: how likely each day finds the wanted soil; None without weather.
        comparable: the days within the tolerance of the anniversary; None for a task never sampled.
    """
    if outlook is None:
        return best_day(spans, target)
    near = spans if comparable is None else clip(spans, comparable.first, comparable.last)
    near = near or spans
    return next((best_day(days, target) for days in _bands(near, outlook) if days), None)


def _bands(spans: tuple[Span, ...], outlook: MoistureOutlook) -> Iterator[tuple[Span, ...]]:
    """Yield the days of the spans of each likelihood, the best first."""
    if not spans:
        return
    years = spans[0].first.year, spans[-1].last.year
    for runs in _runs(outlook.likelihoods, *years):
        yield cut(spans, runs)


@lru_cache(maxsize=1024)
def _runs(likelihoods: tuple[Likelihood, ...], first_year: int, last_year: int) -> tuple[tuple[Span, ...], ...]:
    """Return the runs of days of some years that have each likelihood, the best likelihood first."""
    first, last = date(first_year, 1, 1), date(last_year, 12, 31)
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    runs: dict[Likelihood, list[Span]] = {likelihood: [] for likelihood in sorted(Likelihood, reverse=True)}
    for found, group in groupby(days, key=lambda day: likelihoods[calendar_index(day)]):
        run = list(group)
        runs[found].append(Span(run[0], run[-1]))
    return tuple(map(tuple, runs.values()))
