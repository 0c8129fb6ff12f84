"""What a soil holds and a crop uses, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml

_FILE = Path(__file__).with_name("soil_water.yaml")


@dataclass(frozen=True, slots=True)
class WaterFigures:
    """Figures of the daily soil-water balance.

    Attributes:
        available_mm_per_m: water between field capacity and wilting point by texture [mm/m].
        unknown_mm_per_m: the same where the texture is not known [mm/m].
        coefficients: crop coefficient by land use [-].
        depletion_fraction: share of available water that plants use without stress [-].
        moist_low: lowest share of available water that counts as moist [-].
        moist_high: highest share that counts as moist [-].
        least_depth_cm: least depth of the balance [cm].
        settled_apart: distance [-] of the shares of a soil begun dry and begun full under which its state is known.
        longest_filled_days: longest gap of a record that is filled [d].
        around_days: days around a calendar day whose years are taken together [d]; odd.
        enough_years: years that a climatology should have [year]; fewer are said.
        mostly: share of years from which a day is 'mostly' as wanted [-].
        seldom: share of years under which a day is 'seldom' as wanted [-].
        source: where the figures come from.
    """

    available_mm_per_m: dict[str, float]
    unknown_mm_per_m: float
    coefficients: dict[str, float]
    depletion_fraction: float
    moist_low: float
    moist_high: float
    least_depth_cm: float
    settled_apart: float
    longest_filled_days: int
    around_days: int
    enough_years: int
    mostly: float
    seldom: float
    source: str


@cache
def water_figures() -> WaterFigures:
    """Return the figures of the soil-water balance, with their source."""
    content: dict[str, Any] = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return WaterFigures(
        available_mm_per_m={row["texture"]: float(row["mm"]) for row in content["available_mm_per_m"]},
        unknown_mm_per_m=float(content["unknown_texture_mm_per_m"]),
        coefficients={row["land_use"]: float(row["coefficient"]) for row in content["crop_coefficients"]},
        depletion_fraction=float(content["depletion_fraction"]),
        **content["house_defaults"],
        source=content["source"],
    )
