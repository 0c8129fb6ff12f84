"""From weather to the outlook of each calendar day."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from soilrota.guidelines import water_figures
from soilrota.model.moisture import Likelihood, calendar_index
from soilrota.model.stations import Station
from soilrota.model.weather import Weather
from soilrota.problems import Place
from soilrota.timing.moisture import Soil, filled_gaps, outlooks, soil_shares

STATION = Station("merrow", "Merrow", -37.3, 143.4, Place("practice.yaml", 20))
FIRST = date(2014, 1, 1)
DAYS = (date(2026, 12, 31) - FIRST).days + 1
PASTURE = Soil("clay-loam", "pasture", 10, "moist")


def weather(*, dry_summers: bool = True) -> Weather:
    """Return thirteen years with rain in winter alone."""
    days = [FIRST + timedelta(days=number) for number in range(DAYS)]
    rain = np.array([4.5 if 5 <= day.month <= 9 and day.day % 3 == 0 else 0.0 for day in days])
    if not dry_summers:
        rain = np.full(DAYS, 6.0)
    low = np.array([12 - 6 * np.cos(2 * np.pi * (day.timetuple().tm_yday - 200) / 365) for day in days])
    return Weather(STATION, FIRST, rain, low, low + 11)


def test_winter_is_moist_and_summer_is_not() -> None:
    """The climate shows in the likelihoods, and turns round for a protocol that prefers dry soil."""
    dry_soil = Soil("clay-loam", "pasture", 10, "dry")
    found = outlooks(weather(), [PASTURE, dry_soil, PASTURE], water_figures())
    assert set(found) == {PASTURE, dry_soil}
    assert found[PASTURE].on(date(2027, 7, 15)) is Likelihood.MOSTLY
    assert found[PASTURE].on(date(2027, 2, 15)) is Likelihood.SELDOM
    assert found[dry_soil].on(date(2027, 2, 15)) is Likelihood.MOSTLY
    assert found[PASTURE].years == 12


def test_only_the_record_up_to_the_as_of_date_counts() -> None:
    """Later records change nothing, and the last day told is the as-of date."""
    early = weather().until(date(2020, 2, 20))
    found = outlooks(early, [PASTURE], water_figures())[PASTURE]
    assert found.recorded is not None
    assert found.recorded.day == date(2020, 2, 20)
    assert found.recorded.state == "dry"
    assert outlooks(weather().until(date(2013, 1, 1)), [PASTURE], water_figures()) == {}


def test_rain_every_day_is_too_wet() -> None:
    """A soil at field capacity is wet, which is not moist."""
    found = outlooks(weather(dry_summers=False), [PASTURE], water_figures())[PASTURE]
    assert found.recorded is not None
    assert found.recorded.state == "wet"
    assert found.on(date(2027, 7, 15)) is Likelihood.SELDOM


def test_short_gaps_are_filled_and_long_ones_are_not() -> None:
    """Five days are filled with the mean of their calendar days; six leave the state unknown for a while."""
    whole = weather()
    rain = whole.rain_mm.copy()
    rain[100:105] = np.nan
    rain[200:206] = np.nan
    filled = filled_gaps(Weather(STATION, FIRST, rain, whole.low_c, whole.high_c), 5)
    assert not np.isnan(filled.rain_mm[100:105]).any()
    assert np.isnan(filled.rain_mm[200:206]).all()
    index = calendar_index(FIRST + timedelta(days=100))
    others = [
        whole.rain_mm[number]
        for number in range(DAYS)
        if calendar_index(FIRST + timedelta(days=number)) == index and number != 100
    ]
    assert filled.rain_mm[100] == pytest.approx(np.mean(others))
    shares = soil_shares(Weather(STATION, FIRST, rain, whole.low_c, whole.high_c), [PASTURE], water_figures())
    assert np.isnan(shares[200:206, 0]).all()


def test_a_station_is_reckoned_once_for_all_its_soils() -> None:
    """Many zones of few soils give few columns."""
    shares = soil_shares(weather(), [PASTURE, Soil("sand", "crop", 60, "moist")], water_figures())
    assert shares.shape == (DAYS, 2)
