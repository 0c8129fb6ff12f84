"""Evapotranspiration: what must hold whatever the weather. Published examples stand in `tests/published_values`."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from soilrota.timing.evapotranspiration import daylight_hours, extraterrestrial_radiation, hargreaves

DAYS = np.arange(1.0, 366.0)


@given(st.floats(-89, 89))
def test_radiation_and_daylight_are_possible(latitude: float) -> None:
    """Never negative, never more than a day has; the two halves of the world mirror each other by half a year."""
    radiation = extraterrestrial_radiation(latitude, DAYS)
    assert radiation.min() >= -1e-9
    assert radiation.max() < 50
    hours = daylight_hours(latitude, DAYS)
    assert hours.min() >= 0
    assert hours.max() <= 24


@given(st.floats(-30, 50), st.floats(0, 30), st.floats(0, 45))
def test_evaporation_grows_with_radiation_and_spread(low: float, spread: float, radiation: float) -> None:
    """More sun or a wider range of temperature never means less; frost and equal temperatures give nothing."""

    def depth(more_spread: float, more_sun: float) -> float:
        high = np.array([low + spread + more_spread])
        return float(hargreaves(np.array([low]), high, np.array([radiation + more_sun]))[0])

    assert 0 <= depth(0, 0) <= depth(0, 5)
    assert depth(0, 0) <= depth(5, 0) or low + spread < -17
    assert hargreaves(np.array([low]), np.array([low]), np.array([radiation]))[0] == 0
