"""A monthly water balance that was published with all its columns, reckoned by the project's balance.

Ohio University, geography course of J. Dyer, water balance of Rockford (people.ohio.edu/dyer, water_balance_3.html):
capacity 90 mm, use without stress until the soil is empty. The page's own totals of potential evapotranspiration (531)
and surplus (258) do not add up from its months, which give 660 and 247; its months are what is held here.
"""

from __future__ import annotations

import numpy as np
import pytest

from soilrota.timing.soil_water import water_shares

CAPACITY = 90.0
RAIN = np.array([50, 49, 66, 78, 100, 106, 88, 84, 86, 73, 56, 45], dtype=float)
POTENTIAL = np.array([0, 0, 5, 40, 84, 123, 145, 126, 85, 44, 8, 0], dtype=float)
STORED = np.array([90, 90, 90, 90, 90, 73, 16, 0, 1, 30, 78, 90], dtype=float)
#: As good as 1: no stress until the soil is empty, which is what this table assumes.
WITHOUT_STRESS = 1 - 1e-12


#: Steps of a month: the balance takes stress from the beginning of a step, the table from the whole month.
PARTS = 1000


def test_rockford_month_by_month() -> None:
    """Stored water of every month; the deficit of August, the surplus of December, the year's evapotranspiration."""
    rain, demand = (np.repeat(column / PARTS, PARTS) for column in (RAIN, POTENTIAL))
    water = water_shares(rain, demand[:, None], np.array([CAPACITY]), WITHOUT_STRESS, 1.0)[:, 0] * CAPACITY
    assert water[PARTS - 1 :: PARTS] == pytest.approx(STORED, abs=0.2)
    gain = np.diff(np.concatenate(([CAPACITY], water)))
    room = CAPACITY - (water - gain)
    surplus = np.maximum(rain - demand - room, 0)
    actual = rain - gain - surplus
    deficits, surpluses = ((column.reshape(12, PARTS).sum(axis=1)) for column in (demand - actual, surplus))
    assert deficits[7] == pytest.approx(26, abs=0.5)
    assert surpluses[11] == pytest.approx(33, abs=0.5)
    assert actual.sum() == pytest.approx(634, abs=0.5)
    assert POTENTIAL.sum() == 660
    assert surplus.sum() == pytest.approx(247, abs=0.5)
