"""Runs of days as numbers: what NumPy reckons seasons of the sun and of the calendar with."""

from __future__ import annotations

from datetime import date

import numpy as np
import numpy.typing as npt

Indices = npt.NDArray[np.int_]
#: NumPy counts days and years from this one.
_EPOCH = 1970
_FIRST_OF_MARCH = 59


def years_of(first: date, days: int) -> Indices:
    """Return the year of each of a run of days, shape (days,)."""
    years: Indices = _run(first, days).astype("datetime64[Y]").astype(int) + _EPOCH
    return years


def days_of_year(first: date, days: int) -> Indices:
    """Return the day of the year of each of a run of days, from 1 on 1 January, shape (days,)."""
    run = _run(first, days)
    numbers: Indices = (run - run.astype("datetime64[Y]").astype("datetime64[D]")).astype(int) + 1
    return numbers


def calendar_indices(first: date, days: int) -> Indices:
    """Return the place of each of a run of days in a calendar that has a 29 February, from 0 on 1 January.

    The same as `soilrota.model.moisture.calendar_index` of each day.
    """
    index, year = days_of_year(first, days) - 1, years_of(first, days)
    leap = (year % 4 == 0) & ((year % 100 != 0) | (year % 400 == 0))
    indices: Indices = index + (~leap & (index >= _FIRST_OF_MARCH))
    return indices


def _run(first: date, days: int) -> npt.NDArray[np.datetime64]:
    """Return consecutive days."""
    return np.datetime64(first, "D") + np.arange(days)
