"""The soil-water balance against a slow loop, a published table, and what must hold whatever the weather."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.timing.soil_water import settled_shares, stress, water_shares


def slow_balance(rain: list[float], demand: list[float], capacity: float, fraction: float, start: float) -> list[float]:
    """Reckon one soil day by day with plain numbers, as FAO 56 equations 84 and 85 say."""
    depletion = (1 - start) * capacity
    shares = []
    for wet, dry in zip(rain, demand, strict=True):
        factor = 1.0
        if depletion > fraction * capacity:
            factor = (capacity - depletion) / ((1 - fraction) * capacity)
        depletion = depletion - wet + factor * dry
        depletion = min(max(depletion, 0.0), capacity)
        shares.append(1 - depletion / capacity)
    return shares


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0, 80), st.floats(0, 12)), min_size=1, max_size=60),
    st.lists(st.tuples(st.floats(20, 300), st.floats(0.2, 1.2)), min_size=1, max_size=4),
    st.floats(0, 1),
)
def test_many_soils_at_once_equal_one_by_one(
    weather: list[tuple[float, float]], soils: list[tuple[float, float]], start: float
) -> None:
    """The vectorised balance equals the loop, soil by soil; water never leaves the soil's limits."""
    rain = np.array([wet for wet, _ in weather])
    capacity = np.array([size for size, _ in soils])
    demand = np.array([[dry * coefficient for _, coefficient in soils] for _, dry in weather])
    found = water_shares(rain, demand, capacity, 0.5, start)
    for number, (size, _) in enumerate(soils):
        expected = slow_balance(list(rain), list(demand[:, number]), size, 0.5, start)
        assert found[:, number] == pytest.approx(expected, abs=1e-9)
    assert found.min() >= 0
    assert found.max() <= 1


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(0, 30), min_size=5, max_size=40), st.integers(0, 39), st.floats(0, 40))
def test_more_rain_never_means_less_water(rain: list[float], day: int, more: float) -> None:
    """Rain added on one day leaves every later day at least as wet."""
    demand = np.full((len(rain), 1), 4.0)
    wetter = np.array(rain)
    wetter[day % len(rain)] += more
    capacity = np.array([60.0])
    before = water_shares(np.array(rain), demand, capacity, 0.5, 0.3)
    assert (water_shares(wetter, demand, capacity, 0.5, 0.3) >= before - 1e-12).all()


def random_weather(random: np.random.Generator, days: int) -> tuple[np.ndarray, np.ndarray]:
    """Return rain, with holes, and reference evapotranspiration [mm/d] of a climate that may be wet or dry."""
    rain = np.where(random.random(days) < random.uniform(0.02, 0.5), random.gamma(0.7, random.uniform(2, 9), days), 0)
    for _ in range(random.integers(0, 4)):
        first = random.integers(0, days)
        rain[first : first + random.integers(1, 120)] = np.nan
    return rain, 4 + 3 * np.cos(np.arange(days) / 365 * 2 * np.pi)


@pytest.mark.parametrize("seed", range(12))
def test_all_years_at_once_equal_one_long_walk(seed: int) -> None:
    """Years that go forward together give what a scalar loop over the whole record gives, to the last digit."""
    random = np.random.default_rng(seed)
    rain, evaporation = random_weather(random, int(random.integers(1, 3000)))
    capacity, factors = np.array([22.5, 50.1, 120.0]), np.array([0.8, 0.65, 1.0])
    demand = evaporation[:, None] * factors
    found = water_shares(rain, demand, capacity, 0.5, 0.25)
    for number, size in enumerate(capacity):
        first = 0
        for end in [*np.flatnonzero(np.isnan(rain)), len(rain)]:
            pieces = list(rain[first:end]), list(demand[first:end, number])
            assert found[first:end, number] == pytest.approx(slow_balance(*pieces, size, 0.5, 0.25), abs=1e-12)
            assert np.isnan(found[end : end + 1, number]).all()
            first = end + 1


def test_a_desert_never_forgets_how_it_began() -> None:
    """Where no year fills or empties the soil, each year still begins as the one before ended."""
    days = 4 * 365
    rain, demand = np.zeros(days), np.full((days, 1), 0.01)
    found = water_shares(rain, demand, np.array([100.0]), 0.5, 1.0)
    assert found[:, 0] == pytest.approx(slow_balance([0.0] * days, [0.01] * days, 100.0, 0.5, 1.0), abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 60), st.floats(0, 9)), min_size=2, max_size=80), st.floats(0, 1))
def test_the_balance_of_mass_closes(weather: list[tuple[float, float]], start: float) -> None:
    """Rain is what the soil gains, the crop uses and what drains: no use beyond demand, drainage from full soil."""
    rain, demand = (np.array(column) for column in zip(*weather, strict=True))
    capacity = 60.0
    water = np.concatenate(([start], water_shares(rain, demand[:, None], np.array([capacity]), 0.5, start)[:, 0]))
    water *= capacity
    use = stress(capacity - water[:-1], np.array([capacity]), 0.5) * demand
    left = rain - use - np.diff(water)
    assert (use <= demand + 1e-9).all()
    assert left == pytest.approx(np.maximum(rain - use - (capacity - water[:-1]), 0), abs=1e-9)
    assert rain.sum() == pytest.approx(water[-1] - water[0] + use.sum() + left.sum(), abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 60), st.floats(0, 20)), min_size=2, max_size=80))
def test_what_is_settled_stays_settled(weather: list[tuple[float, float]]) -> None:
    """A soil begun dry and one begun full never move apart again, for the least capacity and hotter than any day."""
    rain, demand = (np.array(column) for column in zip(*weather, strict=True))
    capacity = np.array([22.5])
    dry = water_shares(rain, demand[:, None], capacity, 0.5, 0.0)
    full = water_shares(rain, demand[:, None], capacity, 0.5, 1.0)
    assert (np.diff(np.abs(full - dry)[:, 0]) <= 1e-9).all()


def test_published_stress_sequence() -> None:
    """FAO 56, stress example (inputs from memory, unverified): capacity 160 mm, p 0.4, demand 6 mm, depletion 55 mm."""
    rain, demand, capacity = np.zeros(6), np.full((6, 1), 6.0), np.array([160.0])
    depletion = (1 - water_shares(rain, demand, capacity, 0.4, 1 - 55 / 160)[:, 0]) * 160
    assert depletion == pytest.approx([61.0, 67.0, 72.8, 78.3, 83.4, 88.2], abs=0.06)
    factors = [float(stress(np.array([one]), capacity, 0.4)[0]) for one in (55, 61, 67, 72.8, 78.3, 83.4)]
    assert factors == pytest.approx([1, 1, 0.97, 0.91, 0.85, 0.80], abs=0.005)


def test_an_unknown_day_leaves_the_state_unknown_until_it_no_longer_matters() -> None:
    """After a hole the state is not known, until heavy rain has filled the soil however it was."""
    rain = np.array([30.0, 0, np.nan, 0, 0, 100.0, 0])
    demand = np.full((7, 1), 3.0)
    known = ~np.isnan(settled_shares(rain, demand, np.array([60.0]), 0.5)[:, 0])
    assert known.tolist() == [False, False, False, False, False, True, True]
