"""Bags for the tests of derived quantities."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from soilrota.agronomy.derived import derived_quantities
from soilrota.agronomy.derived.inputs import Bag, bag_of
from soilrota.model.client import Zone
from soilrota.model.judgement import NoQuantity, Quantity
from soilrota.model.results import Result
from soilrota.problems import Place
from soilrota.quantities import method, split_code

#: A soil that is neither acid nor salty [cmol(+)/kg].
CATIONS = {
    "calcium.exchangeable": 8.0,
    "magnesium.exchangeable": 2.5,
    "potassium.exchangeable": 0.6,
    "sodium.exchangeable": 0.4,
    "aluminium.exchangeable": 0.5,
}


def zone(**changes: Any) -> Zone:
    """Return a zone."""
    fields: dict[str, Any] = {
        "id": "hill", "farm": "home", "name": "Hill", "soil_type": "red loam", "texture": "loam", "clay_percent": 25.0,
        "land_use": "crop", "landscape_position": "flat", "area_ha": 10.0, "rainfall_zone": "",
        "distance_to_water_m": None, "mixed_with": (), "outline": None, "protocols": ("topsoil",), "last_sampled": (),
        "place": Place("client.yaml"),
    }  # fmt: skip
    return Zone(**{**fields, **changes})


def result(code: str, value: float | str, *, unit: str = "", layer: tuple[float, float] = (0, 10)) -> Result:
    """Return a result of the zone; a text carries its sign (`<0.1`), no unit stands for the glossary's."""
    analyte, method_id = split_code(code)
    known = method(analyte, method_id)
    assert known is not None
    text = str(value)
    qualifier = text[0] if text[0] in "<>" else ""
    return Result(
        report="R1", sampled=date(2027, 2, 10), reported=date(2027, 3, 1), farm="home", zone="hill",
        protocol="topsoil", bag="B1", top_cm=layer[0], bottom_cm=layer[1], analyte=analyte, method=method_id,
        qualifier=qualifier, value=float(text.lstrip("<>")), unit=unit or known.unit, laboratory="north-bench",
        place=Place("results.csv"),
    )  # fmt: skip


def results(values: dict[str, Any], layer: tuple[float, float] = (0, 10)) -> list[Result]:
    """Return results of one bag by analysis."""
    return [result(code, value, layer=layer) for code, value in values.items()]


def bag(values: dict[str, Any], layer: tuple[float, float] = (0, 10), **changes: Any) -> Bag:
    """Return a bag of a zone with some properties changed."""
    return bag_of(results(values, layer), zone(**changes))


def derived(
    values: dict[str, Any] | Sequence[Result], of: Zone | None = None, **context: Any
) -> tuple[dict[str, Quantity], dict[str, NoQuantity]]:
    """Return quantities, and those that are not there, by code; those that share one by code and what they are of."""
    listed = results(values) if isinstance(values, dict) else values
    found, missing = derived_quantities(listed, of or zone(), **context)

    def name(one: Quantity | NoQuantity) -> str:
        facts = one.facts if isinstance(one, Quantity) else one.refused.facts
        return " ".join(str(part) for part in (one.code, facts.get("crop") or facts.get("analysis", "")) if part)

    quantities, lacking = {name(one): one for one in found}, {one.code: one for one in missing}
    assert len(quantities) == len(found)
    return quantities, lacking
