"""Which of the open days is best: the one measure of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from itertools import groupby

from soilrota.model.moisture import Likelihood, MoistureOutlook
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
    return min((span.nearest(target) for span in spans), key=lambda day: score(day, target), default=None)


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
    bands = ((likelihood, intersect(near, days)) for likelihood, days in _bands(near, outlook))
    return next((best_day(days, target) for _, days in bands if days), None)


def _bands(spans: tuple[Span, ...], outlook: MoistureOutlook) -> Iterator[tuple[Likelihood, list[Span]]]:
    """Yield each likelihood, the best first, with the days that have it among those of the spans."""
    runs = [run for span in spans for run in _runs(span, outlook)]
    for likelihood in sorted(Likelihood, reverse=True):
        yield likelihood, [days for found, days in runs if found is likelihood]


def _runs(span: Span, outlook: MoistureOutlook) -> Iterator[tuple[Likelihood, Span]]:
    """Yield the runs of days of one likelihood in a span."""
    days = (span.first + timedelta(days=offset) for offset in range(span.days))
    for likelihood, run in groupby(days, key=outlook.on):
        first, *rest = run
        yield likelihood, Span(first, rest[-1] if rest else first)
