"""What a harvest takes off, by product and by edition of the source, from the shipped table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

from soilrota.guidelines.cited import Cited, cited, shipped_table

_TABLE = "removal"
_NUTRIENTS = ("N", "P", "K", "S", "Ca", "Mg", "P2O5", "K2O", "MgO")


class Per(StrEnum):
    """What one unit of produce is; amounts are kg per t or kL, and lb per bushel."""

    TONNE = "t"
    KILOLITRE = "kL"
    BUSHEL = "bu"


@dataclass(frozen=True, slots=True)
class Removal:
    """Nutrients in one unit of a product.

    Attributes:
        edition: id of the edition, for instance `united-kingdom-2020`.
        product: id of the product, for instance `wheat-winter-grain`.
        per: the unit of produce.
        amounts: lowest and highest published amount by nutrient [kg per t or kL; lb per bushel]; mostly the same.
        cited: where they come from.
    """

    edition: str
    product: str
    per: Per
    amounts: Mapping[str, tuple[float, float]]
    cited: Cited

    def taken(self, nutrient: str, produce: float) -> float:
        """Return what some produce holds of a nutrient, by the middle of the published range.

        Args:
            nutrient: a key of `amounts`; `P` and `P2O5` are not the same.
            produce: how much of it [t/ha, kL/ha or bu/ac]; the answer is then in kg/ha or lb/ac.

        Raises:
            KeyError: the edition prints no figure for that nutrient.
        """
        return sum(self.amounts[nutrient]) / 2 * produce


@cache
def removals(edition: str) -> dict[str, Removal]:
    """Return an edition's rows by product.

    Raises:
        KeyError: there is no such edition: a fault of the program.

    >>> removals("united-kingdom-2020")["wheat-winter-grain"].taken("P2O5", 8)
    52.0
    """
    content = {row["id"]: row for row in shipped_table(_TABLE)["editions"]}[edition]
    return {
        row["id"]: Removal(
            edition=edition,
            product=row["id"],
            per=Per(row.get("per", content["per"])),
            amounts={nutrient: _range(row[nutrient]) for nutrient in _NUTRIENTS if nutrient in row},
            cited=cited(_TABLE, row, content),
        )
        for row in content["products"]
    }


@cache
def removal_editions() -> dict[str, str]:
    """Return the printed name of every edition by its id."""
    return {row["id"]: row["name"] for row in shipped_table(_TABLE)["editions"]}


def removal(edition: str, product: str) -> Removal | None:
    """Return what an edition says of a product; None where it says nothing. Editions never fill each other's gaps."""
    return removals(edition).get(product)


@cache
def straw_per_grain(edition: str) -> float | None:
    """Return how much straw an edition counts in `grain and straw` [t/t]; None where it does not say."""
    row = next(row for row in shipped_table(_TABLE)["editions"] if row["id"] == edition)
    return float(row["straw_per_grain"]) if "straw_per_grain" in row else None


def drought_phosphorus(replacement: float) -> float:
    """Return the least phosphorus after a drought, once, where the soil test exceeds its critical value [kg P/ha].

    Source: Grains Research and Development Corporation 2020, Budgeting phosphorus: a third, never below 5 kg.

    Args:
        replacement: what the harvest takes off in other years [kg P/ha].
    """
    row = shipped_table(_TABLE)["drought"]
    return float(max(replacement / row["parts_of_removal"], row["least"]))


def _range(cell: Any) -> tuple[float, float]:
    """Return the lowest and highest figure of a cell."""
    low, high = cell if isinstance(cell, list) else (cell, cell)
    return float(low), float(high)
