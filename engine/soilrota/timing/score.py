"""Which of the open days is best: the one measure of it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from soilrota.model.windows import Span

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
