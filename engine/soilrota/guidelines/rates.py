"""Published rates of phosphate and potash by class of the soil test, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table

_TABLE = "rates"


@dataclass(frozen=True, slots=True)
class IndexRate:
    """What an Index changes in the United Kingdom.

    Attributes:
        index: id of the class, as the guideline sets have it.
        add: added to what the harvest takes off [kg/ha of P2O5 or K2O]; nought where `is_nil`.
        is_nil: whether nothing is spread at all.
        cited: where it comes from.
    """

    index: str
    add: float
    is_nil: bool
    cited: Cited


@dataclass(frozen=True, slots=True)
class ClassRate:
    """The rate that a class of the soil test calls for in Iowa (2013).

    Attributes:
        nutrient: `P2O5` or `K2O`.
        crop: `corn`, `soybean`, or `corn-soybean` for two years together.
        name: id of the class, as the guideline set has it.
        rate: the rate [lb/ac]; None where it is what the harvest takes off.
        cited: where it comes from.
    """

    nutrient: str
    crop: str
    name: str
    rate: float | None
    cited: Cited


@dataclass(frozen=True, slots=True)
class TriStateFigures:
    """Constants of the formulas of Michigan, Ohio and Indiana (1995).

    Attributes:
        years: over which the soil is built up [years].
        phosphate_per_unit: phosphate for each ppm below the critical level, a year [lb P2O5/ac].
        maintenance: how far above the critical level the harvest's share is still given back [ppm].
        drawdown: how much further the rate falls to nought [ppm].
        potash_per_unit: potash for each ppm below the critical level, a year, on soil without any capacity [lb K2O/ac].
        potash_per_capacity: share more of it for each unit of exchange capacity [1/(cmol(+)/kg)].
        potash_extra: added to the harvest's share of potash [lb K2O/ac].
        cited: where they come from.
    """

    years: int
    phosphate_per_unit: float
    maintenance: float
    drawdown: float
    potash_per_unit: float
    potash_per_capacity: float
    potash_extra: float
    cited: Cited

    def potash_for_one(self, capacity: float) -> float:
        """Return the potash for each ppm below the critical level, a year [lb K2O/ac], by capacity [cmol(+)/kg]."""
        return self.potash_per_unit * (1 + self.potash_per_capacity * capacity)


@cache
def index_rates() -> dict[str, IndexRate]:
    """Return what each Index changes in the United Kingdom, by the id of the class.

    >>> index_rates()["index-1"].add, index_rates()["index-3"].is_nil
    (30.0, True)
    """
    table = shipped_table(_TABLE)["united-kingdom"]
    return {
        row["index"]: IndexRate(
            row["index"], float(row.get("add", 0)), row.get("nil", False), cited(_TABLE, row, table)
        )
        for row in table["indices"]
    }


def iowa_rate(nutrient: str, crop: str, name: str) -> ClassRate | None:
    """Return the rate that a class calls for in Iowa (2013); None where the table says nothing.

    Args:
        nutrient: `P2O5` or `K2O`.
        crop: `corn`, `soybean`, or `corn-soybean` for two years together.
        name: id of the class in the set `iowa-2013`.

    >>> iowa_rate("K2O", "corn", "low").rate
    90.0
    """
    table = shipped_table(_TABLE)["iowa-2013"]
    for row in table["rates"]:
        if (row["nutrient"], row["crop"]) == (nutrient, crop) and name in table["classes"]:
            rate = row["rates"][table["classes"].index(name)]
            return ClassRate(
                nutrient, crop, name, None if rate == "removal" else float(rate), cited(_TABLE, row, table)
            )
    return None


@cache
def tri_state_figures() -> TriStateFigures:
    """Return the constants of the formulas of Michigan, Ohio and Indiana (1995)."""
    table = shipped_table(_TABLE)["tri-state-1995"]
    phosphate, potash = table["phosphate"], table["potash"]
    return TriStateFigures(
        years=table["years"],
        phosphate_per_unit=float(phosphate["per_unit"]),
        maintenance=float(phosphate["maintenance"]),
        drawdown=float(phosphate["drawdown"]),
        potash_per_unit=float(potash["per_unit"]),
        potash_per_capacity=float(potash["per_capacity"]),
        potash_extra=float(potash["extra"]),
        cited=cited(_TABLE, table),
    )
