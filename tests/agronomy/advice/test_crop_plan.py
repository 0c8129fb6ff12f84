"""Which harvests a need makes good."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from soilrota.agronomy.advice.crop_plan import harvests_between, next_harvest, season_end
from soilrota.model.practice import Hemisphere
from tests.agronomy.advice.nutrient_cases import crop

PLAN = (crop("wheat", 3.0, year=2025), crop("canola", 1.8, year=2027), crop("field peas", 1.5, year=2026))


@pytest.mark.parametrize(
    ("sampled", "on", "years"),
    [
        (date(2027, 2, 10), date(2027, 3, 1), [2027]),
        (date(2025, 2, 10), date(2027, 3, 1), [2025, 2026, 2027]),
        (date(2025, 12, 1), date(2027, 3, 1), [2026, 2027]),
        (date(2027, 2, 10), date(2026, 3, 1), [2027]),
    ],
)
def test_harvests_since_the_sampling(sampled: date, on: date, years: list[int]) -> None:
    """From the first after the sampling to the first after the advice, each with its own rows."""
    found = harvests_between(PLAN, sampled, on, Hemisphere.SOUTHERN)
    assert [one.year for one in found] == years
    assert all(row.year == one.year for one in found for row in one.rows)


def test_earlier_harvests_without_a_plan_are_not_made_good() -> None:
    """Only the one that is asked for stands without rows."""
    found = harvests_between(PLAN[:1], date(2024, 1, 1), date(2028, 3, 1), Hemisphere.SOUTHERN)
    assert [(one.year, len(one.rows)) for one in found] == [(2025, 1), (2028, 0)]


@pytest.mark.parametrize("hemisphere", list(Hemisphere))
def test_a_season_ends_where_the_next_harvest_is_another_years(hemisphere: Hemisphere) -> None:
    """In both hemispheres, to the day."""
    last = season_end(2027, hemisphere)
    assert next_harvest(last, hemisphere) == 2027
    assert next_harvest(last + timedelta(1), hemisphere) == 2028
