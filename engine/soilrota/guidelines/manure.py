"""How much of what manure holds a crop finds in its year, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.guidelines.cited import Cited, cited, shipped_table
from soilrota.model.advice import Input

_TABLE = "manure"


@dataclass(frozen=True, slots=True)
class ManureShare:
    """A published share.

    Attributes:
        value: what a crop finds in the year of spreading, as a share of the whole [-].
        low, high: between which it is printed [-].
        cited: where it comes from.
    """

    value: float
    low: float
    high: float
    cited: Cited


def manure_share(material_class: str, what: Input, country: str) -> ManureShare | None:
    """Return how much of a nutrient of a class of material a crop finds in its year; None where no source says.

    Args:
        material_class: as in the applications log, for instance `manure`.
        what: the nutrient.
        country: ISO 3166-1 code.

    >>> manure_share("manure", Input.PHOSPHORUS, "US").value
    0.9
    """
    for row in shipped_table(_TABLE)["shares"]:
        if material_class in row["classes"] and row["input"] == what.value and country in row["countries"]:
            return ManureShare(float(row["value"]), float(row["low"]), float(row["high"]), cited(_TABLE, row))
    return None
