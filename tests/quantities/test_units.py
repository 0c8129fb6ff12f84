"""Conversions and their refusals."""

from __future__ import annotations

import math
import subprocess
import sys

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.quantities import Refusal, Soil, Unit, convention_soil, convert, factor
from soilrota.quantities.unit_texts import unit_rows, unit_table

WHOLE = Soil(laboratory_density=1.1, bulk_density=1.3, depth_cm=10)
SOIL_UNITS = sorted(name for name, row in unit_rows().items() if " by " in row["kind"])
CATIONS = ["potassium", "calcium", "magnesium", "sodium", "aluminium"]
NUMBERS = st.floats(min_value=1e-6, max_value=1e6)


@pytest.mark.parametrize(
    ("number", "unit", "to", "analyte", "expected"),
    [
        (1.5, "%", "g/kg", "organic-carbon", 15.0),
        (1.5, "%", "mg/kg", "organic-matter", 15000.0),
        (0.3, "g/kg", "ppm", "phosphorus", 300.0),
        (4.0, "mg/100 g", "mg/kg", "phosphorus", 40.0),
        (28.0, "ppm", "mg/kg", "phosphorus", 28.0),
        (3.0, "meq/100g", "cmol(+)/kg", "calcium", 3.0),
        (30.0, "mmolc/kg", "cmol(+)/kg", "calcium", 3.0),
        (10.0, "mmol/kg", "cmol(+)/kg", "calcium", 2.0),
        (10.0, "mmol/kg", "cmol(+)/kg", "potassium", 1.0),
        (10.0, "mmol/kg", "cmol(+)/kg", "aluminium", 3.0),
        (150.0, "µS/cm", "dS/m", "conductivity", 0.15),
        (0.15, "mS/cm", "dS/m", "conductivity", 0.15),
        (15.0, "mS/m", "dS/m", "conductivity", 0.15),
        (0.15, "dS/m", "µS/cm", "conductivity", 150.0),
        (5.2, "pH", "pH", "ph", 5.2),
        (7.0, "mg/kg NO3-N", "mg/kg N", "nitrate-nitrogen", 7.0),
        (11.0, "mg/l", "mg/kg", "phosphorus", 10.0),
        (10.0, "mg/kg", "mg/l", "phosphorus", 11.0),
        (10.0, "mg/kg", "kg/ha", "phosphorus", 13.0),
        (13.0, "kg/ha", "mg/kg", "phosphorus", 10.0),
    ],
)
def test_conversions(number: float, unit: str, to: str, analyte: str, expected: float) -> None:
    """Exact conversions come out exact, those of a soil with its densities and its depth."""
    assert convert(number, unit, to, analyte, soil=WHOLE) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("unit", "to", "analyte", "soil", "names"),
    [
        ("mg/l", "mg/kg", "phosphorus", Soil(), "density of the soil in the laboratory's scoop"),
        ("mg/l", "mg/kg", "phosphorus", Soil(bulk_density=1.3, depth_cm=10), "laboratory's scoop"),
        ("ppm", "mg/l", "phosphorus", Soil(), "laboratory's scoop"),
        ("lb/ac", "mg/kg", "phosphorus", Soil(), "depth [cm] and field bulk density [g/cm3]"),
        ("lb/ac", "mg/kg", "phosphorus", Soil(depth_cm=15), "field bulk density [g/cm3] of"),
        ("mg/kg", "kg/ha", "phosphorus", Soil(bulk_density=1.3), "depth [cm] of"),
        ("kg/ha", "mg/l", "phosphorus", Soil(bulk_density=1.3, depth_cm=10), "laboratory's scoop"),
        ("cmol(+)/kg", "mg/kg", "phosphorus", WHOLE, "charge of its exchangeable ion"),
        ("mg/kg", "cmol(+)/kg", "organic-matter", WHOLE, "a chemical formula"),
        ("mmol/kg", "mg/kg", "organic-matter", WHOLE, "a chemical formula"),
        ("cmol(+)/kg CaO", "mg/kg", "calcium", WHOLE, "the element"),
        ("dS/m", "mg/kg", "chloride", WHOLE, "a unit of conductivity"),
        ("pH", "index", "ph", WHOLE, "a unit of pH"),
        ("mg/kg P2O5", "mg/kg", "potassium", WHOLE, "one of K, K2O"),
        ("mg/kg", "mg/kg P2O5", "organic-matter", WHOLE, "declared chemical formula"),
        ("furlong", "mg/kg", "zinc", WHOLE, "one of pH"),
        ("mg/kg", "furlong", "zinc", WHOLE, "one of pH"),
        ("mg/kg", "%", "gold", WHOLE, "an analyte of the glossary"),
        ("mg/l", "mg/kg", "zinc", Soil(laboratory_density=1100), "0.05 to 2.65 g/cm3"),
        ("kg/ha", "mg/kg", "zinc", Soil(bulk_density=0, depth_cm=10), "0.05 to 2.65 g/cm3"),
        ("kg/ha", "mg/kg", "zinc", Soil(bulk_density=1.3, depth_cm=0.1), "1 to 300 cm"),
        ("kg/ha", "mg/kg", "zinc", Soil(bulk_density=math.nan, depth_cm=10), "0.05 to 2.65 g/cm3"),
    ],
)
def test_refusals_name_what_is_missing(unit: str, to: str, analyte: str, soil: Soil, names: str) -> None:
    """A conversion without what it needs is refused, and the reason names the thing."""
    for refused in (convert(1.0, unit, to, analyte, soil=soil), factor(unit, to, analyte, soil=soil)):
        assert isinstance(refused, Refusal)
        assert names in refused.expected
        assert refused.mend


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_endless_numbers_are_refused(number: float) -> None:
    """No number is made of what is none."""
    assert isinstance(convert(number, "mg/kg", "%", "zinc"), Refusal)


def test_no_unit_of_area_needs_the_soil_for_another() -> None:
    """Pounds an acre and kilograms a hectare of one layer differ by units and forms alone."""
    assert convert(1.0, "lb/ac", "kg/ha", "potassium") == pytest.approx(1.12085, abs=1e-5)
    assert convert(1.0, "lb K2O/ac", "kg/ha", "potassium") == pytest.approx(1.12085 * 0.83015, abs=1e-4)


def test_a_named_convention_gives_depth_and_density() -> None:
    """An acre's furrow slice weighs two million pounds: 1 mg/kg is 2 lb an acre. It says nothing of a scoop."""
    slice_ = convention_soil("acre-furrow-slice")
    assert convert(100.0, "lb/ac", "mg/kg", "phosphorus", soil=slice_) == pytest.approx(50.0, rel=1e-12)
    assert slice_.depth_cm == pytest.approx(16.93, abs=0.01)
    assert slice_.laboratory_density is None
    assert isinstance(convert(1.0, "mg/l", "mg/kg", "phosphorus", soil=slice_), Refusal)
    with pytest.raises(KeyError):
        convention_soil("somebody's guess")


def test_every_convention_has_a_source() -> None:
    """A convention without a source is none."""
    assert all(row["source"] for row in unit_table()["conventions"].values())


@given(NUMBERS, st.sampled_from(SOIL_UNITS), st.sampled_from(SOIL_UNITS), st.sampled_from(CATIONS))
@settings(max_examples=200, deadline=None)
def test_there_and_back(number: float, unit: str, to: str, analyte: str) -> None:
    """A conversion and its opposite give the number again, through any two units of a cation."""
    there = convert(number, unit, to, analyte, soil=WHOLE)
    assert isinstance(there, float)
    back = convert(there, to, unit, analyte, soil=WHOLE)
    assert back == pytest.approx(number, rel=1e-12)


@given(st.sampled_from(SOIL_UNITS), st.sampled_from(SOIL_UNITS), st.sampled_from(SOIL_UNITS), st.sampled_from(CATIONS))
@settings(max_examples=200, deadline=None)
def test_the_way_does_not_matter(first: str, middle: str, last: str, analyte: str) -> None:
    """Through a third unit the factor is the same."""
    straight = factor(first, last, analyte, soil=WHOLE)
    legs = factor(first, middle, analyte, soil=WHOLE), factor(middle, last, analyte, soil=WHOLE)
    assert isinstance(legs[0], float)
    assert isinstance(legs[1], float)
    assert legs[0] * legs[1] == pytest.approx(straight, rel=1e-12)


FORMS = [
    (name, one, other)
    for name, row in unit_table()["analytes"].items()
    for one in row["forms"]
    for other in row["forms"]
]


@given(NUMBERS, st.sampled_from(FORMS), st.sampled_from(["mg/kg", "%", "mmol/kg", "mg/l", "kg/ha"]))
@settings(max_examples=200, deadline=None)
def test_forms_there_and_back(number: float, forms: tuple[str, str, str], unit: str) -> None:
    """An oxide turned into its element and back is the same, by mass, amount, volume and area."""
    analyte, form, other = forms
    there = convert(number, Unit(unit, form), Unit("mg/kg", other), analyte, soil=WHOLE)
    assert isinstance(there, float)
    assert convert(there, Unit("mg/kg", other), Unit(unit, form), analyte, soil=WHOLE) == pytest.approx(
        number, rel=1e-12
    )


def test_the_library_is_loaded_only_to_convert() -> None:
    """Reading units and refusing loads neither pint nor the table of elements."""
    code = (
        "import sys; from soilrota.quantities import convert, read_unit, read_value; "
        "read_unit('mg/kg'); read_value('<0.5 mg/kg'); convert(1.0, 'mg/l', 'mg/kg', 'zinc'); "
        "convert(1.0, 'mg/kg', 'mg/kg', 'zinc'); "
        "assert not {'pint', 'periodictable', 'numpy'} & set(sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
