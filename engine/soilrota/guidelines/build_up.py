"""What lifts a soil test by one unit above what the harvest takes off, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from soilrota.guidelines.cited import Cited, cited, shipped_table

_TABLE = "build_up"


@dataclass(frozen=True, slots=True)
class BuildUp:
    """How much of a nutrient lifts a soil test by one unit, above what the harvest takes off.

    Attributes:
        id: its id.
        where: region, in words.
        ground: soil and use that it holds for, in words.
        test: code of the analysis.
        unit: unit of the test.
        nutrient: what is spread, as `P`, `P2O5` or `K2O`.
        low, high: published range; the same where one figure is printed [kg/ha a unit; lb/ac where `per_acre`].
        per_acre: whether it is pounds an acre, not kilograms a hectare.
        is_legacy: whether the rule is kept to reproduce old advice only: it under-doses.
        cited: where it comes from.
    """

    id: str
    where: str
    ground: str
    test: str
    unit: str
    nutrient: str
    low: float
    high: float
    per_acre: bool
    is_legacy: bool
    cited: Cited

    def needed(self, units: float) -> tuple[float, float]:
        """Return the least and the most that lifts the test by so many units [kg/ha, or lb/ac where `per_acre`]."""
        return self.low * units, self.high * units


@cache
def build_ups() -> dict[str, BuildUp]:
    """Return every figure by its id.

    >>> build_ups()["united-kingdom-potash-loam"].needed(60)
    (600.0, 600.0)
    """
    return {
        row["id"]: BuildUp(
            id=row["id"],
            where=row["where"],
            ground=row["ground"],
            test=row["test"],
            unit=row["unit"],
            nutrient=row["nutrient"],
            low=float(row["low"]),
            high=float(row["high"]),
            per_acre=row["area"] == "ac",
            is_legacy=row.get("legacy", False),
            cited=cited(_TABLE, row),
        )
        for row in shipped_table(_TABLE)["rows"]
    }
