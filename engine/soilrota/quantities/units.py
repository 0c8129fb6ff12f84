"""Converts a number from one unit to another in its soil, or says what is missing; nothing is assumed.

A conversion goes over the mass of the analyte's element by the mass of soil. Some ways need more than the units:

- amount (mmol/kg) and charge (cmol(+)/kg): the analyte's formula and the charge of its ion;
- volume (mg/l): the density of the soil as the laboratory's scoop held it, which is not the field's bulk density;
- area (kg/ha, lb/ac): depth and field bulk density of the layer, given or by a named convention.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any

from soilrota.quantities.chemistry import charge, check_form, element_fraction, is_element, molar_mass, own_form
from soilrota.quantities.glossary import analyte as known_analyte
from soilrota.quantities.refusals import Refusal
from soilrota.quantities.unit_texts import Unit, read_unit, unit_rows, unit_table

if TYPE_CHECKING:
    import pint

_OVER_MASS = ("mass by mass", "amount by mass", "charge by mass", "mass by volume", "mass by area")
_COUNTED = ("amount by mass", "charge by mass")
_MIDDLE = "mg/kg"
_SURE_DIGITS = 15  # a double holds no more for certain; 0.1 + 0.2 becomes 0.3


@dataclass(frozen=True, slots=True)
class Soil:
    """What is known of the soil that was measured.

    Attributes:
        laboratory_density: mass of a volume of soil as the laboratory's scoop held it [g/cm3]; None where not given.
        bulk_density: dry mass of a volume of the sampled layer in the field [g/cm3]; None where not given.
        depth_cm: thickness of the sampled layer [cm]; None where not given.
    """

    laboratory_density: float | None = None
    bulk_density: float | None = None
    depth_cm: float | None = None


_UNKNOWN_SOIL = Soil()


def convert(
    number: float, unit: str | Unit, to: str | Unit, analyte: str, *, soil: Soil = _UNKNOWN_SOIL
) -> float | Refusal:
    """Return a number in another unit and form; a reason where it cannot be converted.

    Args:
        number: the number [unit].
        unit: its unit, as text or read; a form may stand with it (`mg/kg P2O5`).
        to: the wanted unit, likewise.
        analyte: id in the glossary. Where no form stands with a unit, the glossary's own form is meant (P, not P2O5).
        soil: what is known of the soil.

    >>> convert(0.5, "cmol(+)/kg", "mg/kg", "potassium")
    195.4915
    """
    if not math.isfinite(number):
        return Refusal(f"{number} {unit}", "a finite number", "take the value out, or ask the laboratory for it")
    by = factor(unit, to, analyte, soil=soil)
    return by if isinstance(by, Refusal) else _sure(number * by)


def factor(unit: str | Unit, to: str | Unit, analyte: str, *, soil: Soil = _UNKNOWN_SOIL) -> float | Refusal:
    """Return what numbers are multiplied by [to/unit]; a reason where they cannot be converted.

    The arguments are those of `convert`.

    >>> factor("%", "g/kg", "organic-carbon")
    10.0
    """
    source = read_unit(unit) if isinstance(unit, str) else unit
    target = read_unit(to) if isinstance(to, str) else to
    if isinstance(source, Refusal):
        return source
    if isinstance(target, Refusal):
        return target
    return _factor(source, target, analyte, soil)


def convention_soil(name: str) -> Soil:
    """Return the layer that a named convention declares; it says nothing of the laboratory's scoop.

    Raises:
        KeyError: the table of units has no such convention.
    """
    row = unit_table()["conventions"][name]
    quantity = _registry().Quantity
    depth = quantity(float(Fraction(row["depth"])), row["depth_unit"])
    density = quantity(float(row["soil"]), row["soil_unit"]) / depth
    return Soil(bulk_density=float(density.m_as("g/cm**3")), depth_cm=float(depth.m_as("cm")))


@lru_cache(maxsize=4096)
def _factor(source: Unit, target: Unit, analyte: str, soil: Soil) -> float | Refusal:
    """Return what numbers are multiplied by; a reason where they cannot be converted."""
    why_not = _wrong(source, target, analyte, soil)
    if why_not is not None:
        return why_not
    form, to_form = source.form or own_form(analyte), target.form or own_form(analyte)
    if source.id == target.id and form == to_form:
        return 1.0
    ratio = 1.0 if form == to_form else element_fraction(analyte, form) / element_fraction(analyte, to_form)
    kind = _kind(source)
    to_pint = unit_rows()[target.id]["pint"]
    if kind == _kind(target) and (form == to_form or kind not in _COUNTED):
        return _sure(ratio * _one(source).m_as(to_pint))
    why_not = _missing(source, form, analyte, soil) or _missing(target, to_form, analyte, soil)
    if why_not is not None:
        return why_not
    mass = _one(source).to(_MIDDLE, "soil", **_known(form, analyte, soil))
    return _sure(ratio * mass.to(to_pint, "soil", **_known(to_form, analyte, soil)).magnitude)


def _wrong(source: Unit, target: Unit, analyte: str, soil: Soil) -> Refusal | None:
    """Return what is wrong before anything is asked of the soil: analyte, form, a figure of the soil, unlike units."""
    if known_analyte(analyte) is None:
        return Refusal(f"analyte '{analyte}'", "an analyte of the glossary", "write the id as the glossary has it")
    for unit in (source, target):
        if unit.form and (why_not := check_form(analyte, unit.form)) is not None:
            return why_not
    kind, to_kind = _kind(source), _kind(target)
    if source.id != target.id and kind != to_kind and not {kind, to_kind} <= set(_OVER_MASS):
        return Refusal(
            f"{source} to convert to {target}",
            f"a unit of {kind}",
            "check the unit of the column: these two measure different things",
        )
    return _wrong_soil(soil)


def _wrong_soil(soil: Soil) -> Refusal | None:
    """Return which figure of the soil is outside its limits."""
    limits = unit_table()["limits"]
    for name, figure, bounds, unit in (
        ("laboratory density", soil.laboratory_density, limits["density"], "g/cm3"),
        ("field bulk density", soil.bulk_density, limits["density"], "g/cm3"),
        ("depth", soil.depth_cm, limits["depth"], "cm"),
    ):
        if figure is not None and not bounds["low"] <= figure <= bounds["high"]:
            return Refusal(
                f"{name} {figure:g} {unit}",
                f"{bounds['low']:g} to {bounds['high']:g} {unit}",
                f"check the unit: the {name} is given in {unit}",
            )
    return None


def _missing(unit: Unit, form: str, analyte: str, soil: Soil) -> Refusal | None:
    """Return what a unit needs and has not been given, to reach the mass by mass of its analyte."""
    kind = _kind(unit)
    if kind in _COUNTED and not form:
        return _lack(unit, analyte, "a chemical formula", f"ask the laboratory for a unit of mass: {analyte} has none")
    if kind == "charge by mass" and charge(analyte) is None:
        return _lack(unit, analyte, "the charge of its exchangeable ion", "check which analyte the column holds")
    if kind == "charge by mass" and not is_element(analyte, form):
        return _lack(unit, f"{analyte} as {form}", "the element: charge is its ion's", f"take {form} out")
    if kind == "mass by volume" and soil.laboratory_density is None:
        expected = "the density of the soil in the laboratory's scoop [g/cm3]"
        return _lack(unit, analyte, expected, "ask the laboratory for that density, or for the result by mass")
    if kind == "mass by area":
        figures = (("depth [cm]", soil.depth_cm), ("field bulk density [g/cm3]", soil.bulk_density))
        lacking = " and ".join(name for name, figure in figures if figure is None)
        if lacking:
            ways = ", ".join(unit_table()["conventions"])
            mend = f"give {lacking}, or name the convention that the laboratory reckons by ({ways})"
            return _lack(unit, analyte, f"{lacking} of the layer", mend)
    return None


def _lack(unit: Unit, what: str, expected: str, mend: str) -> Refusal:
    """Return that a conversion lacks something."""
    return Refusal(f"{unit.id} of {what}, to convert by mass of soil", expected, mend)


def _kind(unit: Unit) -> str:
    """Return what a unit measures."""
    return str(unit_rows()[unit.id]["kind"])


def _sure(number: float) -> float:
    """Return a number without the digits that binary arithmetic makes up."""
    return float(f"{number:.{_SURE_DIGITS}g}")


def _one(unit: Unit) -> pint.Quantity[float]:
    """Return one of a unit."""
    return _registry().Quantity(1.0, unit_rows()[unit.id]["pint"])


def _known(form: str, analyte: str, soil: Soil) -> dict[str, Any]:
    """Return the parameters of the soil context; None where something is not known (`_missing` asked before)."""
    quantity = _registry().Quantity
    figures = {
        "molar_mass": (molar_mass(form) if form else None, "g/mol"),
        "charge": (charge(analyte), "molc/mol"),
        "laboratory_density": (soil.laboratory_density, "g/cm**3"),
        "bulk_density": (soil.bulk_density, "g/cm**3"),
        "depth": (soil.depth_cm, "cm"),
    }
    return {name: None if size is None else quantity(float(size), unit) for name, (size, unit) in figures.items()}


def load_units() -> None:
    """Load the library's units now, which takes a second, rather than with the first conversion."""
    _registry()


@cache
def _registry() -> pint.UnitRegistry[float]:
    """Return the library's units, with moles of charge and the context `soil`."""
    import pint  # noqa: PLC0415 - takes a third of a second; only where something is converted

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    registry.define("mole_of_charge = [exchange_charge] = molc")
    soil = pint.Context("soil")
    for dimension, by in (
        ("[substance]/[mass]", lambda given: given["molar_mass"]),
        ("[exchange_charge]/[mass]", lambda given: given["molar_mass"] / given["charge"]),
        ("[mass]/[length]**3", lambda given: 1 / given["laboratory_density"]),
        ("[mass]/[length]**2", lambda given: 1 / (given["bulk_density"] * given["depth"])),
    ):
        soil.add_transformation(dimension, "[]", _times(by))
        soil.add_transformation("[]", dimension, _times(by, power=-1))
    registry.add_context(soil)
    return registry


def _times(by: Callable[[dict[str, Any]], Any], power: int = 1) -> Callable[..., Any]:
    """Return a step of the soil context: it multiplies by a power of what the context's parameters give."""

    def step(ureg: Any, value: Any, **given: Any) -> Any:  # noqa: ARG001 - the library calls it so
        return value * by(given) ** power

    return step
