"""Which harvests of the cropping plan a need is for: from the sampling to the season that is asked for.

A soil test tells what was there on its day. Every harvest since has taken something off, every dressing since has put
something back; so the need of the coming season makes good all harvests from the first after the sampling to the first
after the day of the advice, and what was spread in between is taken off it. Straight after a sampling that is one. An
earlier harvest of which the plan says nothing is not made good: that could only be guessed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from soilrota.guidelines.nutrient_regions import next_harvest_from
from soilrota.model.cropping import CropYear
from soilrota.model.practice import Hemisphere


@dataclass(frozen=True, slots=True)
class Harvest:
    """The harvest of a year: what the plan has for it; empty where it has nothing."""

    year: int
    rows: tuple[CropYear, ...]


def next_harvest(day: date, hemisphere: Hemisphere) -> int:
    """Return the year of the first harvest after a day.

    >>> next_harvest(date(2026, 10, 6), Hemisphere.NORTHERN), next_harvest(date(2027, 2, 1), Hemisphere.SOUTHERN)
    (2027, 2027)
    """
    return day.year + (day.month >= next_harvest_from(hemisphere))


def season_end(year: int, hemisphere: Hemisphere) -> date:
    """Return the last day on which the harvest of a year is still the next.

    >>> season_end(2027, Hemisphere.NORTHERN)
    datetime.date(2027, 7, 31)
    """
    return date(year, next_harvest_from(hemisphere), 1) - timedelta(days=1)


def harvests_between(plan: Iterable[CropYear], sampled: date, on: date, hemisphere: Hemisphere) -> tuple[Harvest, ...]:
    """Return the harvests that a need makes good, the last the one that is asked for; at least that one.

    Args:
        plan: rows of one zone.
        sampled: day of the sampling.
        on: day of the advice.
        hemisphere: northern or southern.
    """
    rows = tuple(plan)
    last = next_harvest(max(on, sampled), hemisphere)
    first = next_harvest(sampled, hemisphere)
    found = (Harvest(year, tuple(row for row in rows if row.year == year)) for year in range(first, last + 1))
    return tuple(one for one in found if one.rows or one.year == last)
