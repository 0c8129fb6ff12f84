"""Conversions of units and forms against published tables and against masses that do not come from our library.

- SPES-201NP: Virginia Cooperative Extension, Conversion Factors Needed for Common Fertilizer Calculations, table 1.
- IFA: International Fertilizer Industry Association, conversion factors (read in a reprint that names it).
- Masses: CIAAW 2016, four digits, conventional where an interval is given (wisc.pb.unizin.org/chem109, appendix Atomic
  Weight).
- Useful conversions and relationships (scribd.com/document/439744267), common salts and ions: equivalent weights.
- A lecture's worked examples (coursehero.com/file/6307340, page 16): 4 meq Ca/100 g are 800 ppm, 2 cmol Al(+)/kg are
  180 ppm.
- Penn State Extension, What is an 'Acre Furrow Slice' of Soil?
"""

from __future__ import annotations

import pytest

from soilrota.quantities import Soil, convention_soil, convert
from soilrota.quantities.chemistry import molar_mass
from soilrota.quantities.unit_texts import unit_table

#: CIAAW 2016 to four digits [g/mol].
MASSES = {
    "H": 1.008, "B": 10.81, "C": 12.01, "N": 14.01, "O": 16.00, "Na": 22.99, "Mg": 24.31, "Al": 26.98, "P": 30.97,
    "S": 32.06, "Cl": 35.45, "K": 39.10, "Ca": 40.08,
}  # fmt: skip
#: IUPAC 1995, table 2 (old.iupac.org/reports/1996/6812coplen/atwt1995_t2.html): the trace elements [g/mol].
TRACES = {"Mn": 54.938049, "Fe": 55.845, "Cu": 63.546, "Zn": 65.39}
COMPOUNDS = {
    "P2O5": {"P": 2, "O": 5},
    "PO4": {"P": 1, "O": 4},
    "K2O": {"K": 2, "O": 1},
    "MgO": {"Mg": 1, "O": 1},
    "CaO": {"Ca": 1, "O": 1},
    "CaCO3": {"Ca": 1, "C": 1, "O": 3},
    "Na2O": {"Na": 2, "O": 1},
    "Al2O3": {"Al": 2, "O": 3},
    "SO4": {"S": 1, "O": 4},
    "SO3": {"S": 1, "O": 3},
    "NO3": {"N": 1, "O": 3},
    "NH4": {"N": 1, "H": 4},
}


@pytest.mark.parametrize("form", unit_table()["forms"])
def test_masses(form: str) -> None:
    """The mass of every form is what the published masses of its atoms add up to."""
    atoms = COMPOUNDS.get(form, {unit_table()["forms"][form]: 1})
    expected = sum({**MASSES, **TRACES}[element] * count for element, count in atoms.items())
    assert molar_mass(form) == pytest.approx(expected, rel=4e-4)


@pytest.mark.parametrize(
    ("analyte", "form", "to", "expected"),
    [
        ("phosphorus", "P", "P2O5", 2.2910),
        ("phosphorus", "P2O5", "P", 0.4365),
        ("potassium", "K", "K2O", 1.2051),
        ("potassium", "K2O", "K", 0.8301),
        ("magnesium", "Mg", "MgO", 1.6578),
        ("magnesium", "MgO", "Mg", 0.6032),
        ("calcium", "CaO", "Ca", 0.7147),
        ("calcium", "Ca", "CaO", 1.3992),
        ("calcium", "CaCO3", "CaO", 0.5603),
        ("sulphur", "SO4", "S", 0.3339),
        ("sulphur", "S", "SO4", 2.9963),
    ],
)
def test_forms_of_spes_201(analyte: str, form: str, to: str, expected: float) -> None:
    """SPES-201NP, table 1; its factors rest on rounded masses: two of them are 0.04 % off the exact ratio."""
    assert convert(1.0, f"mg/kg {form}", f"mg/kg {to}", analyte) == pytest.approx(expected, rel=4.5e-4)


@pytest.mark.parametrize(
    ("analyte", "form", "to", "expected"),
    [
        ("phosphorus", "P2O5", "P", 0.4364),
        ("phosphorus", "P", "P2O5", 2.2914),
        ("potassium", "K2O", "K", 0.8302),
        ("potassium", "K", "K2O", 1.2046),
    ],
)
def test_forms_of_ifa(analyte: str, form: str, to: str, expected: float) -> None:
    """IFA's factors, to one unit of the last digit (2.2914 is 2.29133 by today's masses)."""
    assert convert(1.0, f"mg/kg {form}", f"mg/kg {to}", analyte) == pytest.approx(expected, abs=1e-4)


def test_nitrate_as_the_ratio_of_its_masses() -> None:
    """14 of 62 parts of nitrate are nitrogen (masses of CIAAW 2016)."""
    expected = MASSES["N"] / (MASSES["N"] + 3 * MASSES["O"])
    assert convert(1.0, "mg/kg NO3", "mg/kg", "nitrate-nitrogen") == pytest.approx(expected, rel=4e-4)


@pytest.mark.parametrize(
    ("analyte", "weight"), [("calcium", 20.0), ("magnesium", 12.2), ("potassium", 39.1), ("sodium", 23.0)]
)
def test_equivalent_weights(analyte: str, weight: float) -> None:
    """A centimole of charge weighs ten milligrams times the equivalent weight, printed to one decimal."""
    assert convert(1.0, "cmol(+)/kg", "mg/kg", analyte) == pytest.approx(10 * weight, abs=0.51)


@pytest.mark.parametrize(
    ("number", "unit", "analyte", "expected"),
    [(4.0, "meq/100 g", "calcium", 800), (2.0, "cmol(+)/kg", "aluminium", 180)],
)
def test_worked_examples_of_charge(number: float, unit: str, analyte: str, expected: float) -> None:
    """The lecture's masses are whole numbers: 40 and 27."""
    assert convert(number, unit, "ppm", analyte) == pytest.approx(expected, rel=0.003)


def test_pounds_an_acre() -> None:
    """IFA: 1 lb/acre is 1.1208 kg/ha (cut off; 1.12085)."""
    assert convert(1.0, "lb/acre", "kg/ha", "phosphorus") == pytest.approx(1.1208, abs=1e-4)


def test_the_furrow_slice() -> None:
    """Penn State: 6.7 inches at 1.33 g/cm3 weigh 2,024,458 lb an acre; the convention rounds, and ppm are doubled."""
    measured = Soil(bulk_density=1.33, depth_cm=6.7 * 2.54)
    assert convert(1.0, "ppm", "lb/ac", "phosphorus", soil=measured) == pytest.approx(2.024458, rel=0.003)
    declared = convention_soil("acre-furrow-slice")
    assert convert(60.0, "ppm", "lb/ac", "phosphorus", soil=declared) == pytest.approx(120.0, rel=1e-12)
    assert declared.bulk_density == pytest.approx(1.33, rel=0.006)
