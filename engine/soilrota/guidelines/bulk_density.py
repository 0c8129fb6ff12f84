"""Bulk density of the fine earth where nobody measured it, from the shipped table."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp
from statistics import fmean
from typing import Any

from soilrota.guidelines.cited_tables import Figure, cited_table, status_of
from soilrota.model.guideline import Source, Status

_TABLE = "bulk_density"
_PEAT = "peat"


def stock_formula(quantity: str) -> tuple[Source, Status]:
    """Return where the formula of a quantity comes from, and whether it was read there."""
    return cited_table(_TABLE).formula(quantity)


def measured_density(value: float) -> Figure:
    """Return a measured bulk density with its doubt [g/cm3]."""
    table = cited_table(_TABLE)
    row = table.content["doubt_percent"]["measured"]
    share = row["value"] / 100
    return Figure(value, value * (1 - share), value * (1 + share), table.source(row))


def typical_density(texture: str) -> Figure | None:
    """Return the typical bulk density of a texture [g/cm3]; None where the table has none.

    >>> found = typical_density("loam")
    >>> found and found.value
    1.43
    """
    table = cited_table(_TABLE)
    if texture == _PEAT:
        return table.figure(table.content["organic"])
    value = table.content["typical"]["textures"].get(texture)
    return None if value is None else _typical(float(value), table.source(table.content["typical"]))


def density_of_organic_matter(percent: float) -> Figure | None:
    """Return the bulk density that organic matter [%] lets expect [g/cm3]; None where the formulas do not hold."""
    found = formula_densities(percent)
    low, high = _mineral()
    if not all(low <= value <= high for value in found.values()):
        return None
    return _typical(fmean(found.values()), cited_table(_TABLE).sources["cookbook"])


def formula_densities(percent: float) -> dict[str, float]:
    """Return by formula the bulk density [g/cm3] at so much organic matter [%]."""
    return {row["id"]: _formula(row, percent) for row in cited_table(_TABLE).content["from_organic_matter"]}


def gravel_share(percent: float) -> Figure:
    """Return a stated share of gravel by volume [-] with its doubt."""
    table = cited_table(_TABLE)
    row = table.content["doubt_percent"]["gravel"]
    share, doubt = percent / 100, row["value"] / 100
    return Figure(share, share * (1 - doubt), min(share * (1 + doubt), 1.0), table.source(row), status_of(row))


def _formula(row: Mapping[str, Any], percent: float) -> float:
    """Return what one formula gives [g/cm3]."""
    if row["kind"] == "line":
        return float(row["constant"] + row["factor"] * percent)
    if row["kind"] == "inverse":
        return float(1 / (row["constant"] + row["factor"] * percent))
    return float(row["constant"] + row["factor"] * exp(row["exponent"] * percent))


def _typical(value: float, source: Source) -> Figure:
    """Return a typical figure with its doubt, cut at the range of mineral soils [g/cm3]."""
    share = cited_table(_TABLE).content["doubt_percent"]["typical"]["value"] / 100
    low, high = _mineral()
    return Figure(value, max(value * (1 - share), low), min(value * (1 + share), high), source)


def _mineral() -> tuple[float, float]:
    """Return between what mineral soils lie [g/cm3]."""
    row = cited_table(_TABLE).content["mineral"]
    return float(row["low"]), float(row["high"])
