"""The limits that the rules hold the files against, read once from the table beside this module."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import lru_cache
from importlib.resources import files

import yaml


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits of the checks; the sources stand in `limits.yaml`.

    Attributes:
        topsoil_cores: cores of a composite whose layer starts at the surface [-].
        deep_cores, deep_cores_least: cores of a deeper layer [-]: wanted, and the least.
        tolerance_days: distance from the anniversary within which results compare, where not given [d].
        gap_months_least: shortest wait after an application of a class that counts [month].
        area_over_share: how far past the protocol's largest area a zone is let through with a warning [-].
        area_differs_warning, area_differs_error: stated against drawn area, as a share of the drawn [-].
        zone_area_unlikely_ha: area of a zone that looks like a slip of unit [ha].
        outside_farm_warning, outside_farm_error: share of a zone outside its farm's boundary [-].
        overlap_share, overlap_m2: overlap of two zones that is still the thickness of a line [-], [m2].
        mixed_share: share of a differing ground unit that makes a zone mixed [-].
        extent_km: diagonal of an outline that cannot be right [km].
        far_from_farm_km: distance of a place from its farm that cannot be right [km].
        earliest_year, latest_year: years between which every day of the book lies.
        logo_megapixels: largest logo [megapixel].
        rate_unlikely_kg_ha: rate that looks like a slip of unit, by class of material [kg/ha].
    """

    topsoil_cores: int
    deep_cores: int
    deep_cores_least: int
    tolerance_days: int
    gap_months_least: int
    area_over_share: float
    area_differs_warning: float
    area_differs_error: float
    zone_area_unlikely_ha: float
    outside_farm_warning: float
    outside_farm_error: float
    overlap_share: float
    overlap_m2: float
    mixed_share: float
    extent_km: float
    far_from_farm_km: float
    earliest_year: int
    latest_year: int
    logo_megapixels: float
    rate_unlikely_kg_ha: Mapping[str, float]


@lru_cache(maxsize=1)
def limits() -> Limits:
    """Return the limits of the checks.

    Raises:
        KeyError: where the table lacks one of them: a fault of the program.
    """
    table = yaml.safe_load(files(__package__).joinpath("limits.yaml").read_text(encoding="utf-8"))
    return Limits(**{field.name: table[field.name]["value"] for field in fields(Limits)})
