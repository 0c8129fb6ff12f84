"""A daily balance of the water in the sampled soil, for all years and all soils of one station at once.

References:
    [1] Allen, Pereira, Raes and Smith 1998, FAO Irrigation and Drainage Paper 56: equations 82 (total available
        water), 84 (water stress), 85 (daily balance), 88 (drainage). Runoff and capillary rise are left out; what
        exceeds field capacity drains on the day.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.float64]
_MM_PER_M = 1000
#: A record is cut into lanes of this many days, and all lanes go forward together.
_LANE_DAYS = 365


def total_available_water(held: float, depth_m: float) -> float:
    """Return the total available water [mm], equation 82 of [1].

    Args:
        held: water between field capacity and wilting point [m3/m3].
        depth_m: depth of the soil [m].
    """
    return _MM_PER_M * held * depth_m


def stress(depletion: Numbers, capacity: Numbers, depletion_fraction: float) -> Numbers:
    """Return the water stress coefficient [-], equation 84 of [1]: 1 without stress, 0 at wilting point.

    Args:
        depletion: water missing to field capacity [mm], from 0 to the capacity, shape (…, soils).
        capacity: total available water [mm], shape (soils,).
        depletion_fraction: share of the capacity that is used without stress [-], under 1.
    """
    return np.minimum((capacity - depletion) / ((1 - depletion_fraction) * capacity), 1)


def water_shares(
    rain_mm: Numbers, demand_mm: Numbers, capacity_mm: Numbers, depletion_fraction: float, start: float
) -> Numbers:
    """Return the water in each soil at the end of each day, as a share of its capacity [-], shape (days, soils).

    A day without record (NaN) leaves the share unknown; the balance begins again from `start` on the next day.

    Args:
        rain_mm: rain [mm], shape (days,).
        demand_mm: crop demand without stress [mm], shape (days, soils).
        capacity_mm: total available water of each soil [mm], shape (soils,).
        depletion_fraction: share of the capacity that is used without stress [-].
        start: share of the capacity with which the balance begins [-].
    """
    return _shares(rain_mm, demand_mm, capacity_mm, depletion_fraction, np.array([start]))[:, 0]


def settled_shares(
    rain_mm: Numbers, demand_mm: Numbers, capacity_mm: Numbers, depletion_fraction: float, apart: float = 0.02
) -> Numbers:
    """Return the shares of `water_shares` on the days on which it no longer matters how the balance began; else NaN.

    The balance is begun from a dry and from a full soil; where both still differ by more than `apart` [-], the state
    is not known. Their distance never grows again while demand stays under `2 (1 - depletion_fraction)` of the capacity
    a day (22 mm for 30 cm of sand), because the drier one uses less.
    """
    both = _shares(rain_mm, demand_mm, capacity_mm, depletion_fraction, np.array([0.0, 1.0]))
    dry, full = both[:, 0], both[:, 1]
    return np.where(np.abs(full - dry) <= apart, (full + dry) / 2, np.nan)


@dataclass(frozen=True, slots=True)
class _Soils:
    """Soils of a station.

    Attributes:
        capacity: total available water [mm], shape (soils,).
        depletion_fraction: share of the capacity that is used without stress [-].
        begin: depletion with which the balance begins, at first and after a day without record [mm], shape
            (starts, soils).
    """

    capacity: Numbers
    depletion_fraction: float
    begin: Numbers


def _shares(
    rain_mm: Numbers, demand_mm: Numbers, capacity_mm: Numbers, depletion_fraction: float, starts: Numbers
) -> Numbers:
    """Return the shares of water for several starts at once [-], shape (days, starts, soils).

    The lanes of a record go forward together, each from a guess of its first state; lanes whose first state turns out
    to differ from the last one of the lane before go again. A soil that fills up, or that a hole in the record
    interrupts, forgets how it began, so that two or three rounds do, and the result is exactly that of one long walk.
    """
    days, soils = demand_mm.shape
    lanes = max(-(-days // _LANE_DAYS), 1)
    padding = lanes * _LANE_DAYS - days
    rain = np.pad(rain_mm, (0, padding), constant_values=np.nan).reshape(lanes, _LANE_DAYS)
    demand = np.pad(demand_mm, ((0, padding), (0, 0))).reshape(lanes, _LANE_DAYS, soils)
    kinds = _Soils(capacity_mm, depletion_fraction, (1 - starts)[:, None] * capacity_mm)
    first = np.repeat(kinds.begin[None], lanes, axis=0)
    depletion = np.empty((lanes, _LANE_DAYS, *kinds.begin.shape))
    again = np.arange(lanes)
    while again.size:
        depletion[again] = _walk(rain[again], demand[again], kinds, first[again])
        ends = depletion[:-1, -1]
        again = 1 + np.flatnonzero((first[1:] != ends).any(axis=(1, 2)))
        first[1:] = ends
    depletion[np.isnan(rain)] = np.nan
    return 1 - depletion.reshape(lanes * _LANE_DAYS, *kinds.begin.shape)[:days] / capacity_mm


def _walk(rain_mm: Numbers, demand_mm: Numbers, soils: _Soils, first: Numbers) -> Numbers:
    """Return the depletion at the end of each day [mm], shape (lanes, days, starts, soils); equation 85 of [1].

    Args:
        rain_mm: rain [mm], shape (lanes, days).
        demand_mm: crop demand without stress [mm], shape (lanes, days, soils).
        soils: the soils.
        first: depletion before the first day [mm], shape (lanes, starts, soils).
    """
    known: npt.NDArray[np.bool_] = ~np.isnan(rain_mm)
    rain = np.where(known, rain_mm, 0)[:, :, None, None]
    demand = np.where(known[:, :, None], demand_mm, 0)[:, :, None, :]
    found = np.empty((*rain_mm.shape, *first.shape[1:]))
    depletion = first
    whole: npt.NDArray[np.bool_] = np.asarray(known.all(axis=0))
    for day in range(rain_mm.shape[1]):
        use = stress(depletion, soils.capacity, soils.depletion_fraction) * demand[:, day]
        depletion = np.minimum(np.maximum(depletion - rain[:, day] + use, 0), soils.capacity)
        if not whole[day]:
            depletion = np.where(known[:, day, None, None], depletion, soils.begin)
        found[:, day] = depletion
    return found
