"""From a station's weather to what each calendar day promises: computed once a station, for all its soils.

House defaults: a soil is moist between 40 and 90 % of its available water over the cored depth (at least 30 cm);
a gap of at most 5 days is filled with the mean of the calendar days, a longer one leaves the state unknown until it no
longer matters how the balance began; the share of a calendar day is taken over 15 days around it; a day is 'mostly' as
wanted from two thirds of the years on, 'seldom' under one third.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import timedelta

import numpy as np
import numpy.typing as npt

from soilrota.guidelines import WaterFigures
from soilrota.model.moisture import (
    CALENDAR_DAYS,
    Likelihood,
    MoistureOutlook,
    RecordedMoisture,
    calendar_index,
)
from soilrota.model.weather import Weather
from soilrota.timing.evapotranspiration import extraterrestrial_radiation, hargreaves
from soilrota.timing.soil_water import settled_shares

Numbers = npt.NDArray[np.float64]
#: Longest run of days without record that is filled [d]. House default.
LONGEST_FILLED = 5
#: Days around a calendar day whose shares are taken together [d]. House default.
AROUND = 15
#: Fewer years of record than this are said [year].
ENOUGH_YEARS = 10
_MOSTLY, _SELDOM = 2 / 3, 1 / 3
_CM_PER_M = 100


@dataclass(frozen=True, slots=True)
class Soil:
    """A soil under a land use: texture (may be empty), depth of the balance [cm], and what the protocol wants."""

    texture: str
    land_use: str
    depth_cm: float
    wanted: str


def outlooks(weather: Weather, soils: Sequence[Soil], figures: WaterFigures) -> dict[Soil, MoistureOutlook]:
    """Return the outlook of each soil under the weather of one station; nothing where there is no record.

    Args:
        weather: the record up to the as-of date.
        soils: soils of the zones of the station; repeats cost nothing.
        figures: what a soil holds and a crop uses.
    """
    kinds = list(dict.fromkeys(soils))
    if not kinds or not len(weather.rain_mm):
        return {}
    shares = soil_shares(weather, kinds, figures)
    index = np.array([calendar_index(weather.first + timedelta(days=number)) for number in range(len(shares))])
    found = {}
    for number, soil in enumerate(kinds):
        found[soil] = _outlook(weather, soil, shares[:, number], index, figures)
    return found


def soil_shares(weather: Weather, soils: Sequence[Soil], figures: WaterFigures) -> Numbers:
    """Return the share of available water in each soil at the end of each day [-]; NaN where it is not known.

    Shape (days, soils).
    """
    filled = filled_gaps(weather)
    days = [weather.first + timedelta(days=number) for number in range(len(filled.rain_mm))]
    day_of_year = np.array([float(day.timetuple().tm_yday) for day in days])
    radiation = extraterrestrial_radiation(weather.station.latitude, day_of_year)
    reference = hargreaves(filled.low_c, filled.high_c, radiation)
    rain = np.where(np.isnan(reference), np.nan, filled.rain_mm)
    capacity = np.array([_capacity_mm(soil, figures) for soil in soils])
    coefficients = np.array([figures.coefficients[soil.land_use] for soil in soils])
    demand = reference[:, None] * coefficients[None, :]
    return settled_shares(rain, demand, capacity, figures.depletion_fraction)


def _capacity_mm(soil: Soil, figures: WaterFigures) -> float:
    """Return the total available water of a soil over its depth [mm], equation 82 of FAO 56."""
    held = figures.available_mm_per_m.get(soil.texture, figures.unknown_mm_per_m)
    return held * max(soil.depth_cm, figures.least_depth_cm) / _CM_PER_M


def filled_gaps(weather: Weather) -> Weather:
    """Return the weather with short gaps filled by the mean of their calendar days over the other years."""
    columns = (weather.rain_mm, weather.low_c, weather.high_c)
    missing = np.isnan(columns[0]) | np.isnan(columns[1]) | np.isnan(columns[2])
    if not missing.any():
        return weather
    index = np.array([calendar_index(weather.first + timedelta(days=number)) for number in range(len(missing))])
    short = _short_runs(missing)
    filled = []
    for column in columns:
        known = ~np.isnan(column)
        totals = np.bincount(index[known], weights=column[known], minlength=CALENDAR_DAYS)
        counts = np.bincount(index[known], minlength=CALENDAR_DAYS)
        means = np.divide(totals, counts, out=np.full(CALENDAR_DAYS, np.nan), where=counts > 0)
        filled.append(np.where(short & np.isnan(column), means[index], column))
    return Weather(weather.station, weather.first, *filled)


def _short_runs(missing: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Return which missing days stand in runs that are short enough to fill."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], missing, [False])).astype(int)))
    short = np.zeros(len(missing), dtype=bool)
    for first, end in zip(edges[::2], edges[1::2], strict=True):
        short[first:end] = end - first <= LONGEST_FILLED
    return short


def _outlook(
    weather: Weather, soil: Soil, shares: Numbers, index: npt.NDArray[np.int_], figures: WaterFigures
) -> MoistureOutlook:
    """Return the outlook of one soil."""
    known = ~np.isnan(shares)
    wanted = shares <= figures.moist_high
    wanted &= (shares >= figures.moist_low) if soil.wanted == "moist" else (shares < figures.moist_low)
    good = _around(
        np.bincount(index[known], weights=wanted[known].astype(float), minlength=CALENDAR_DAYS).astype(float)
    )
    count = _around(_a_calendar_day(index[known], np.ones(int(known.sum()))))
    share = np.divide(good, count, out=np.full(CALENDAR_DAYS, 0.5), where=count > 0)
    likelihoods = tuple(
        Likelihood.MOSTLY if one >= _MOSTLY else Likelihood.SELDOM if one < _SELDOM else Likelihood.SOMETIMES
        for one in share
    )
    years = len({(weather.first + timedelta(days=int(day))).year for day in np.flatnonzero(known)})
    return MoistureOutlook(weather.station.id, years, soil.wanted, likelihoods, _recorded(weather, shares, figures))


def _a_calendar_day(index: npt.NDArray[np.int_], weights: Numbers) -> Numbers:
    """Return the sum of weights of each calendar day."""
    return np.bincount(index, weights=weights, minlength=CALENDAR_DAYS).astype(np.float64)


def _around(days: Numbers) -> Numbers:
    """Return sums over the days around each calendar day, across the year end."""
    half = AROUND // 2
    wrapped = np.concatenate((days[-half:], days, days[:half]))
    return np.convolve(wrapped, np.ones(AROUND), mode="valid")


def _recorded(weather: Weather, shares: Numbers, figures: WaterFigures) -> RecordedMoisture:
    """Return the soil on the last day of the record."""
    last = shares[-1]
    if np.isnan(last):
        return RecordedMoisture(weather.last, None, "not-known")
    state = "dry" if last < figures.moist_low else "wet" if last > figures.moist_high else "moist"
    return RecordedMoisture(weather.last, round(float(last), 2), state)
