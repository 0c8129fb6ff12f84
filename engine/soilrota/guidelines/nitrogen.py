"""Nitrogen: what the soil gives, what grain takes off, what a crop must find; from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table
from soilrota.guidelines.crop_produce import plain
from soilrota.model.practice import Hemisphere

_TABLE = "nitrogen"


@dataclass(frozen=True, slots=True)
class NitrogenFigure:
    """One published figure.

    Attributes:
        id: its id, for instance `recovery`.
        value: the figure, or the middle of its range [unit].
        low, high: the published range; the same as `value` where one figure is printed.
        unit: unit and meaning, in words.
        cited: where it comes from.
    """

    id: str
    value: float
    low: float
    high: float
    unit: str
    cited: Cited


@cache
def nitrogen_figures() -> dict[str, NitrogenFigure]:
    """Return every figure by its id."""
    return {
        row["id"]: NitrogenFigure(
            id=row["id"],
            value=float(row["value"]),
            low=float(row.get("low", row["value"])),
            high=float(row.get("high", row["value"])),
            unit=row["unit"],
            cited=cited(_TABLE, row),
        )
        for row in shipped_table(_TABLE)["figures"]
    }


@dataclass(frozen=True, slots=True)
class NitrogenDemand:
    """How what a crop must find is reckoned.

    Attributes:
        by_protein: from target yield and protein; otherwise from target yield alone.
        figure: the figure that it is reckoned by.
    """

    by_protein: bool
    figure: NitrogenFigure


def demand_of(crop: str) -> NitrogenDemand | None:
    """Return how what a crop must find is reckoned; None for a crop of which no figure was read.

    >>> demand_of("Canola").figure.value
    80.0
    """
    for row in shipped_table(_TABLE)["demands"]:
        if plain(crop) in map(plain, row["names"]):
            return NitrogenDemand(row["by"] == "protein", nitrogen_figures()[row["figure"]])
    return None


def mineralisation_doubt() -> tuple[float, float]:
    """Return between which parts of itself the mineralisation of a season lies [-]: our own convention, no source."""
    row = shipped_table(_TABLE)["mineralisation_doubt"]
    return float(row["low"]), float(row["high"])


def fallow_ends(hemisphere: Hemisphere) -> tuple[int, int] | None:
    """Return by when what a legume leaves has gathered in the profile (month, day); None where nothing was read."""
    found = shipped_table(_TABLE)["fallow_ends"].get(hemisphere.value)
    return (int(found[0]), int(found[1])) if found else None


def mineralised(organic_carbon: float, rain_mm: float) -> float:
    """Return the nitrogen that the soil gives in a season [kg N/ha]. The study's own errors are as large as the answer.

    Source: Grains Research and Development Corporation, How good are in-crop mineralisation predictions?

    Args:
        organic_carbon: organic carbon [%].
        rain_mm: rain of the growing season [mm].

    >>> mineralised(1.0, 250)
    37.5
    """
    return nitrogen_figures()["mineralisation"].value * organic_carbon * rain_mm


def wheat_grain_nitrogen(grain: float, protein_percent: float) -> float:
    """Return the nitrogen in wheat grain [kg N/ha].

    Source: farm press, Nitrogen guidance for milling wheat (protein / 5.7).

    Args:
        grain: yield [t/ha], at the moisture that protein is given at: dry matter where protein is of dry matter.
        protein_percent: protein of the grain [%].

    >>> round(wheat_grain_nitrogen(8 * 0.85, 13), 1)
    155.1
    """
    return grain * 10 * protein_percent / nitrogen_figures()["wheat-protein-per-nitrogen"].value


def wheat_uptake(grain_nitrogen: float) -> float:
    """Return the nitrogen in the whole crop [kg N/ha] by that in the grain [kg N/ha].

    Source: farm press, Nitrogen guidance for milling wheat.
    """
    return grain_nitrogen / nitrogen_figures()["wheat-grain-share"].value
