"""A daily balance of the water in the sampled soil, for many soils of one station at once.

References:
    [1] Allen, Pereira, Raes and Smith 1998, FAO Irrigation and Drainage Paper 56: equations 82 (total available
        water), 84 (water stress), 85 (daily balance). Runoff and capillary rise are left out; what exceeds field
        capacity drains on the day.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.float64]


def stress(depletion: Numbers, capacity: Numbers, depletion_fraction: float) -> Numbers:
    """Return the water stress coefficient [-], equation 84 of [1]: 1 without stress, 0 at wilting point.

    Args:
        depletion: water missing to field capacity [mm], shape (soils,).
        capacity: total available water [mm], shape (soils,).
        depletion_fraction: share of the capacity that is used without stress [-].
    """
    return np.clip((capacity - depletion) / ((1 - depletion_fraction) * capacity), 0, 1)


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
    shares = np.full(demand_mm.shape, np.nan)
    begin = (1 - start) * capacity_mm
    depletion = begin
    known = ~np.isnan(rain_mm)
    for day in range(len(rain_mm)):
        if not known[day]:
            depletion = begin
            continue
        use = stress(depletion, capacity_mm, depletion_fraction) * demand_mm[day]
        depletion = np.clip(depletion - rain_mm[day] + use, 0, capacity_mm)
        shares[day] = 1 - depletion / capacity_mm
    return shares


def settled_shares(
    rain_mm: Numbers, demand_mm: Numbers, capacity_mm: Numbers, depletion_fraction: float, apart: float = 0.02
) -> Numbers:
    """Return the shares of `water_shares` on the days on which it no longer matters how the balance began; else NaN.

    The balance is begun from a dry and from a full soil; where both still differ by more than `apart` [-], the state
    is not known.
    """
    dry = water_shares(rain_mm, demand_mm, capacity_mm, depletion_fraction, 0.0)
    full = water_shares(rain_mm, demand_mm, capacity_mm, depletion_fraction, 1.0)
    return np.where(np.abs(full - dry) <= apart, (full + dry) / 2, np.nan)
