"""A small guideline set that tests change; everything in it is invented."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

from soilrota.guidelines.sets import build_set
from soilrota.model.guideline import GuidelineSet
from soilrota.problems import Place

ROW: dict[str, Any] = {
    "id": "olsen-p",
    "analyte": "phosphorus",
    "method": "olsen",
    "unit": "mg/kg",
    "top_cm": 0,
    "bottom_cm": 10,
    "sense": "sufficiency",
    "critical": 14,
    "classes": [
        {"name": "low", "words": "low", "high": 10},
        {"name": "fair", "words": "fair", "low": 10, "high": 20},
        {"name": "good", "words": "good", "low": 20},
    ],
    "basis": "invented",
    "source": "own",
}
SET: dict[str, Any] = {
    "name": "Trial set",
    "region": "nowhere",
    "sources": [{"id": "own", "author": "Two Rivers Soil Practice", "year": 2026, "title": "Own trials"}],
    "rows": [ROW],
}


def place(*path: str | int) -> Place:
    """Return the place of a path in the file of the set."""
    return Place("guidelines/trial.yaml", 1, 1, ".".join(map(str, path)))


def row(**changes: Any) -> dict[str, Any]:
    """Return the row with some properties changed; one that is set to None is left out."""
    changed = {**deepcopy(ROW), **changes}
    return {key: value for key, value in changed.items() if value is not None}


def guideline(*rows: dict[str, Any], name: str = "trial", **changes: Any) -> GuidelineSet:
    """Return the practice's own set with these rows and some properties changed."""
    return build_set(name, {**deepcopy(SET), "rows": list(rows) or [row()], **changes}, place, is_own=True)
