"""Which of the open days is best: the one measure of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from functools import lru_cache
from itertools import groupby

from soilrota.model.moisture import Likelihood, MoistureOutlook, calendar_index
from soilrota.model.windows import Span
from soilrota.timing.spans import clip, intersect

#: Smaller is better.
Score = tuple[int, date]


def score(day: date, target: date) -> Score:
    """Return how good a day is: its distance from the day aimed at [d], then the day itself; smaller is better.

    Same time each year comes first, because a trend mixes seasons otherwise; of two days equally far the earlier is
    preferred, because what is put off can still fail.
    """
    return abs((day - target).days), day


def best_day(spans: Iterable[Span], target: date) -> date | None:
    """Return the day of the spans with the smallest score; None where there is no day.

    The best day of one span is its nearest to the target, so one day a span is looked at.
    """
    best: date | None = None
    for span in spans:
        day = span.nearest(target)
        if best is None or score(day, target) < score(best, target):
            best = day
    return best


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
    years = range(spans[0].first.year, spans[-1].last.year + 1) if spans else ()
    for likelihood in sorted(Likelihood, reverse=True):
        runs = (run for year in years for run in _runs(outlook.likelihoods, likelihood, year))
        yield intersect(spans, runs)


@lru_cache(maxsize=4096)
def _runs(likelihoods: tuple[Likelihood, ...], likelihood: Likelihood, year: int) -> tuple[Span, ...]:
    """Return the runs of days of a year that have a likelihood."""
    first = date(year, 1, 1)
    days = [first + timedelta(days=number) for number in range((date(year, 12, 31) - first).days + 1)]
    runs = groupby(days, key=lambda day: likelihoods[calendar_index(day)])
    return tuple(Span(run[0], run[-1]) for found, group in runs if found is likelihood and (run := list(group)))
