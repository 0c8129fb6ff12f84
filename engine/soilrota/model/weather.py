"""Weather of a station, day by day without holes in the calendar."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
import numpy.typing as npt

from soilrota.model.stations import Station

Days = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """Daily records of a station; a day without a record holds NaN.

    Attributes:
        station: the station.
        first: day of the first entry of each array.
        rain_mm: rain [mm], shape (days,).
        low_c: lowest temperature [°C], shape (days,).
        high_c: highest temperature [°C], shape (days,).
    """

    station: Station
    first: date
    rain_mm: Days
    low_c: Days
    high_c: Days

    @property
    def last(self) -> date:
        """The last day of the record."""
        return self.first + timedelta(days=len(self.rain_mm) - 1)

    def until(self, day: date) -> Weather:
        """Return the record up to a day, that day included; a record that begins later is empty."""
        days = max(min((day - self.first).days + 1, len(self.rain_mm)), 0)
        return Weather(self.station, self.first, self.rain_mm[:days], self.low_c[:days], self.high_c[:days])
