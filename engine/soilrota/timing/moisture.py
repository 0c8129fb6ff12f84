"""From a station's weather to what each calendar day promises: computed once a station, for all its soils.

A soil is moist within a band of its available water over the cored depth. A short gap of the record is filled with the
means of its calendar days; a longer one leaves the state unknown until it no longer matters how the balance began. What
days to come promise is taken from past years alone, up to the last 31 December of the record, so that it stands still
from night to night; recorded days of this year give the state of the soil, no promise. The figures, all house defaults,
stand with their sources in `guidelines/soil_water.yaml`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
import numpy.typing as npt

from soilrota.guidelines import WaterFigures
from soilrota.model.moisture import CALENDAR_DAYS, Likelihood, MoistureOutlook, RecordedMoisture, calendar_index
from soilrota.model.weather import Weather
from soilrota.timing.day_numbers import Indices, calendar_indices, days_of_year
from soilrota.timing.evapotranspiration import extraterrestrial_radiation, hargreaves
from soilrota.timing.soil_water import settled_shares, total_available_water

Numbers = npt.NDArray[np.float64]
_CM_PER_M, _MM_PER_M = 100, 1000
_LEAP_DAY = calendar_index(date(2024, 2, 29))
_SHARE_DECIMALS = 3


@dataclass(frozen=True, slots=True)
class Soil:
    """A soil under a land use: texture (may be empty), depth of the balance [cm], and what the protocol wants."""

    texture: str
    land_use: str
    depth_cm: float
    wanted: str


def outlooks(weather: Weather, soils: Sequence[Soil], figures: WaterFigures) -> dict[Soil, MoistureOutlook]:
    """Return the outlook of each soil under the weather of one station.

    A soil has none where the record does not give every calendar day at least once in past years: nothing can be said
    then of days to come.

    Args:
        weather: the record up to the as-of date.
        soils: soils of the zones of the station; repeats cost nothing.
        figures: what a soil holds and a crop uses, and the house defaults.
    """
    kinds = list(dict.fromkeys(soils))
    past = _past_days(weather)
    if not kinds or not past:
        return {}
    shares = soil_shares(weather, kinds, figures)
    index = calendar_indices(weather.first, past)
    found = ((soil, _outlook(weather, soil, shares[:, number], index, figures)) for number, soil in enumerate(kinds))
    return {soil: outlook for soil, outlook in found if outlook is not None}


def soil_shares(weather: Weather, soils: Sequence[Soil], figures: WaterFigures) -> Numbers:
    """Return the share of available water in each soil at the end of each day [-]; NaN where it is not known.

    Shape (days, soils).
    """
    filled = filled_gaps(weather, figures.longest_filled_days)
    day_of_year = days_of_year(weather.first, len(filled.rain_mm)).astype(np.float64)
    radiation = extraterrestrial_radiation(weather.station.latitude, day_of_year)
    reference = hargreaves(filled.low_c, filled.high_c, radiation)
    rain = np.where(np.isnan(reference), np.nan, filled.rain_mm)
    capacity = np.array([capacity_mm(soil, figures) for soil in soils])
    coefficients = np.array([figures.coefficients[soil.land_use] for soil in soils])
    demand = reference[:, None] * coefficients[None, :]
    return settled_shares(rain, demand, capacity, figures.depletion_fraction, figures.settled_apart)


def capacity_mm(soil: Soil, figures: WaterFigures) -> float:
    """Return the total available water of a soil over its depth [mm], equation 82 of FAO 56."""
    held = figures.available_mm_per_m.get(soil.texture, figures.unknown_mm_per_m) / _MM_PER_M
    return float(total_available_water(held, max(soil.depth_cm, figures.least_depth_cm) / _CM_PER_M))


def filled_gaps(weather: Weather, longest: int) -> Weather:
    """Return the weather with short gaps filled by the mean of their calendar days over past years.

    Args:
        weather: the record.
        longest: the longest gap that is filled [d].
    """
    columns = (weather.rain_mm, weather.low_c, weather.high_c)
    missing = np.isnan(columns[0]) | np.isnan(columns[1]) | np.isnan(columns[2])
    if not missing.any():
        return weather
    index = calendar_indices(weather.first, len(missing))
    short = _short_runs(missing, longest)
    filled = []
    for column in columns:
        means = _means(column[: _past_days(weather)], index)
        filled.append(np.where(short & np.isnan(column), means[index], column))
    return Weather(weather.station, weather.first, *filled)


def _means(column: Numbers, index: Indices) -> Numbers:
    """Return the mean of each calendar day; NaN where it was never recorded."""
    known = np.flatnonzero(~np.isnan(column))
    totals = np.bincount(index[known], weights=column[known], minlength=CALENDAR_DAYS)
    counts = np.bincount(index[known], minlength=CALENDAR_DAYS)
    means: Numbers = np.divide(totals, counts, out=np.full(CALENDAR_DAYS, np.nan), where=counts > 0)
    return means


def _short_runs(missing: npt.NDArray[np.bool_], longest: int) -> npt.NDArray[np.bool_]:
    """Return which missing days stand in runs that are short enough to fill."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], missing, [False])).astype(int)))
    short = np.zeros(len(missing), dtype=bool)
    for first, end in zip(edges[::2], edges[1::2], strict=True):
        short[first:end] = end - first <= longest
    return short


def _past_days(weather: Weather) -> int:
    """Return how many days of the record lie on or before its last 31 December."""
    if not len(weather.rain_mm):
        return 0
    last = weather.last
    end = last if (last.month, last.day) == (12, 31) else date(last.year - 1, 12, 31)
    return max((end - weather.first).days + 1, 0)


def _outlook(
    weather: Weather, soil: Soil, shares: Numbers, index: Indices, figures: WaterFigures
) -> MoistureOutlook | None:
    """Return the outlook of one soil; `index` holds the calendar day of each day of the past years."""
    past = shares[: len(index)]
    known = np.flatnonzero(~np.isnan(past))
    counts = np.bincount(index[known], minlength=CALENDAR_DAYS).astype(np.float64)
    years = int(np.delete(counts, _LEAP_DAY).min())
    if not years:
        return None
    wanted = _is_wanted(past[known], soil.wanted, figures).astype(np.float64)
    good = np.bincount(index[known], weights=wanted, minlength=CALENDAR_DAYS).astype(np.float64)
    often = _around(good, figures.around_days) / _around(counts, figures.around_days)
    likelihoods = tuple(
        Likelihood.MOSTLY
        if one >= figures.mostly
        else Likelihood.SELDOM
        if one < figures.seldom
        else Likelihood.SOMETIMES
        for one in often
    )
    return MoistureOutlook(
        station=weather.station.id,
        years=years,
        wanted=soil.wanted,
        likelihoods=likelihoods,
        recorded=_recorded(weather, shares, figures),
        shares=tuple(round(float(one), _SHARE_DECIMALS) for one in often),
        enough_years=years >= figures.enough_years,
    )


def _is_wanted(shares: Numbers, wanted: str, figures: WaterFigures) -> npt.NDArray[np.bool_]:
    """Return whether each share of available water is what a protocol wants: moist, or dry."""
    if wanted == "dry":
        return shares < figures.moist_low
    return (shares >= figures.moist_low) & (shares <= figures.moist_high)


def _around(days: Numbers, width: int) -> Numbers:
    """Return sums over an odd number of days around each calendar day, across the year end."""
    half = width // 2
    wrapped = np.concatenate((days[-half:], days, days[:half]))
    return np.convolve(wrapped, np.ones(width), mode="valid")


def _recorded(weather: Weather, shares: Numbers, figures: WaterFigures) -> RecordedMoisture:
    """Return the soil on the last day of the record."""
    last = shares[-1]
    if np.isnan(last):
        return RecordedMoisture(weather.last, None, "not-known")
    state = "dry" if last < figures.moist_low else "wet" if last > figures.moist_high else "moist"
    return RecordedMoisture(weather.last, round(float(last), 2), state)
