"""Quantities that are reckoned from results, and that guideline rows may speak of, from the shipped table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import yaml

from soilrota.quantities import method

_FILE = Path(__file__).with_name("derived_codes.yaml")
#: The method of a row that speaks of a derived quantity.
DERIVED = "derived"


@dataclass(frozen=True, slots=True)
class DerivedCode:
    """A quantity that is reckoned.

    Attributes:
        code: its id, as in `Quantity.code`.
        name: what is printed, in English.
        unit: unit of its values.
        decimals: decimals that are printed [-].
        low, high: hard limits, in the unit.
    """

    code: str
    name: str
    unit: str
    decimals: int
    low: float
    high: float


@cache
def derived_codes() -> dict[str, DerivedCode]:
    """Return the quantities by code, in the order of the table."""
    content = yaml.load(_FILE.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    return {
        row["code"]: DerivedCode(**{**row, "low": float(row["low"]), "high": float(row["high"])})
        for row in content["codes"]
    }


def unit_of(analyte: str, method_id: str) -> str | None:
    """Return the unit of an analysis, or of a derived quantity; None where there is none such.

    >>> unit_of("phosphorus", "colwell"), unit_of("sodium-share", "derived"), unit_of("phosphorus", "derived")
    ('mg/kg', '%', None)
    """
    if method_id == DERIVED:
        found = derived_codes().get(analyte)
        return None if found is None else found.unit
    measured = method(analyte, method_id)
    return None if measured is None else measured.unit
