"""Nitrogen: what the soil gives, what grain takes off, what a crop must find; from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table

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
