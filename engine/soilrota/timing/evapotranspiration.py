"""Reference evapotranspiration from temperature alone (Hargreaves and Samani).

References:
    [1] Allen, Pereira, Raes and Smith 1998, Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, Rome:
        equations 21 to 25 (extraterrestrial radiation), 34 (daylight hours), 52 (Hargreaves-Samani).
"""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.float64]
#: Solar constant [MJ/m2/min], FAO 56 below equation 21.
SOLAR_CONSTANT = 0.0820
#: Radiation [MJ/m2] to the depth of water that it evaporates [mm], FAO 56 equation 20.
MM_PER_MJ = 0.408
_MINUTES_A_DAY = 24 * 60


def inverse_distance(day_of_year: Numbers) -> Numbers:
    """Return the inverse relative distance from earth to sun [-], equation 23 of [1]; days from 1 on 1 January."""
    return 1 + 0.033 * np.cos(2 * math.pi / 365 * day_of_year)


def declination(day_of_year: Numbers) -> Numbers:
    """Return the solar declination [rad], equation 24 of [1]."""
    return 0.409 * np.sin(2 * math.pi / 365 * day_of_year - 1.39)


def sunset_angle(latitude: float, day_of_year: Numbers) -> Numbers:
    """Return the sunset hour angle [rad], equation 25 of [1]; within the polar circles the whole or no day.

    Args:
        latitude: of the place [degree], south negative.
        day_of_year: shape (n,).
    """
    cosine = -math.tan(math.radians(latitude)) * np.tan(declination(day_of_year))
    return np.arccos(np.clip(cosine, -1, 1))


def daylight_hours(latitude: float, day_of_year: Numbers) -> Numbers:
    """Return the daylight hours [h], equation 34 of [1]; arguments are those of `sunset_angle`."""
    return 24 / math.pi * sunset_angle(latitude, day_of_year)


def extraterrestrial_radiation(latitude: float, day_of_year: Numbers) -> Numbers:
    """Return the extraterrestrial radiation [MJ/m2/d], equation 21 of [1]; arguments are those of `sunset_angle`."""
    angle, tilt, place = sunset_angle(latitude, day_of_year), declination(day_of_year), math.radians(latitude)
    height = angle * math.sin(place) * np.sin(tilt) + math.cos(place) * np.cos(tilt) * np.sin(angle)
    return _MINUTES_A_DAY / math.pi * SOLAR_CONSTANT * inverse_distance(day_of_year) * height


def hargreaves(low_c: Numbers, high_c: Numbers, radiation: Numbers) -> Numbers:
    """Return the reference evapotranspiration [mm/d], equation 52 of [1]; never under 0.

    Args:
        low_c: lowest temperature of each day [°C], shape (n,).
        high_c: highest temperature [°C], shape (n,).
        radiation: extraterrestrial radiation [MJ/m2/d], shape (n,).
    """
    mean, spread = (low_c + high_c) / 2, np.maximum(high_c - low_c, 0)
    return np.maximum(0.0023 * (mean + 17.8) * np.sqrt(spread) * MM_PER_MJ * radiation, 0)
