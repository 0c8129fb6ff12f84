"""Units as laboratories write them."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.quantities import Refusal, Unit, analytes, read_unit
from soilrota.quantities.unit_texts import _key, _plain, unit_rows, unit_table

READ = {
    "mg/kg": "mg/kg",
    "MG/KG": "mg/kg",
    "Mg/kg": "mg/kg",
    " mg / kg ": "mg/kg",
    "(mg/kg)": "mg/kg",
    "[mg/kg]": "mg/kg",
    "mg kg-1": "mg/kg",
    "mg kg⁻¹": "mg/kg",
    "mg·kg\u22121": "mg/kg",
    "mg.kg^-1": "mg/kg",
    "mg per kg": "mg/kg",
    "mg\u202fkg\u207b\u00b9": "mg/kg",
    "µg/g": "mg/kg",
    "μg/g": "mg/kg",
    "ppm": "ppm",
    "p.p.m.": "ppm",
    "parts per million": "ppm",
    "%": "%",
    "per cent": "%",
    "% w/w": "%",
    "g/100 g": "%",
    "g kg-1": "g/kg",
    "mg/100 g": "mg/100g",
    "mg/L": "mg/l",
    "mg/dm³": "mg/l",
    "mg dm-3": "mg/l",
    "mg l⁻¹ soil": None,
    "mg/l soil": "mg/l",
    "cmol(+)/kg": "cmol(+)/kg",
    "cmol(+) kg-1": "cmol(+)/kg",
    "cmol⁺/kg": "cmol(+)/kg",
    "cmolc/kg": "cmol(+)/kg",
    "meq/100g": "cmol(+)/kg",
    "mEq/100 g": "cmol(+)/kg",
    "me %": "cmol(+)/kg",
    "mmol/kg": "mmol/kg",
    "mmol(+)/kg": "mmol(+)/kg",
    "dS/m": "dS/m",
    "dS m-1": "dS/m",
    "mmhos/cm": "dS/m",
    "mS/cm": "mS/cm",
    "MS/CM": "mS/cm",
    "mS/m": "mS/m",
    "µS/cm": "µS/cm",
    "μS/cm": "µS/cm",
    "uS/cm": "µS/cm",
    "lbs./acre": "lb/ac",
    "lb/A": "lb/ac",
    "kg ha⁻¹": "kg/ha",
    "pH units": "pH",
    "": None,
    "furlong": None,
    "mg": None,
    "kg/mg": None,
    "S": None,
    "/kg": None,
    "cmol/l": None,
    "mg/kg/kg": None,
    "dS/m Al": None,
    "pH P": None,
    "mg/kg XP2O5": None,
    "mg/kg P2O5-X": None,
}
FORMS = {
    "mg P2O5/100 g": Unit("mg/100g", "P2O5"),
    "mg P₂O₅ / 100 g": Unit("mg/100g", "P2O5"),
    "mg/kg P2O5": Unit("mg/kg", "P2O5"),
    "mg/kg (as P2O5)": Unit("mg/kg", "P2O5"),
    "mg/kg as K2O": Unit("mg/kg", "K2O"),
    "MG/KG K2O": Unit("mg/kg", "K2O"),
    "P ppm": Unit("ppm", "P"),
    "mg K/kg": Unit("mg/kg", "K"),
    "mg/l-P": Unit("mg/l", "P"),
    "mg/kg NO3-N": Unit("mg/kg", "NO3-N"),
    "mg NO₃⁻N/kg": Unit("mg/kg", "NO3-N"),
    "NO3 mg/kg": Unit("mg/kg", "NO3"),
    "mg/kg SO4-S": Unit("mg/kg", "SO4-S"),
    "mg of Mg/kg": Unit("mg/kg", "Mg"),
    "lb K2O/ac": Unit("lb/ac", "K2O"),
    "% C": Unit("%", "C"),
    "cmol(+)/kg Ca": Unit("cmol(+)/kg", "Ca"),
}


@pytest.mark.parametrize(("text", "expected"), READ.items())
def test_spellings(text: str, expected: str | None) -> None:
    """Each spelling is one unit, or is refused with what is known."""
    found = read_unit(text)
    if expected is None:
        assert isinstance(found, Refusal)
        assert found.mend
    else:
        assert found == Unit(expected)


@pytest.mark.parametrize(("text", "expected"), FORMS.items())
def test_forms(text: str, expected: Unit) -> None:
    """A chemical form before, inside or behind the unit is read with it."""
    assert read_unit(text) == expected


def test_two_forms_are_refused() -> None:
    """Nobody guesses which of two is meant."""
    found = read_unit("mg/kg P K")
    assert isinstance(found, Refusal)
    assert "2 chemical forms" in found.found


def test_small_letters_are_no_element() -> None:
    """Milligrams are no magnesium."""
    assert read_unit("mg/kg") == Unit("mg/kg")
    assert isinstance(read_unit("mg/kg mg"), Refusal)


def test_no_spelling_has_two_units() -> None:
    """A spelling, as it is compared, belongs to one unit; each unit is a spelling of its own."""
    keys = Counter(
        key for row in unit_rows().values() for key in {_key(_plain(spelling)) for spelling in row["spellings"]}
    )
    assert [key for key, times in keys.items() if times > 1] == []
    assert [row for row in unit_rows() if read_unit(row) != Unit(row)] == []


def test_the_tables_agree_with_the_glossary() -> None:
    """Every unit of the glossary is known, every analyte of the table is in the glossary, every form has a formula."""
    assert {way.unit for found in analytes().values() for way in found.methods.values()} <= set(unit_rows())
    assert set(unit_table()["analytes"]) <= set(analytes())
    assert {form for row in unit_table()["analytes"].values() for form in row["forms"]} == set(unit_table()["forms"])


MASS_UNITS = sorted(name for name, row in unit_rows().items() if " by " in row["kind"])


@given(st.sampled_from(MASS_UNITS), st.sampled_from(sorted(unit_table()["forms"])), st.booleans())
def test_what_is_printed_is_read_back(unit: str, form: str, has_form: bool) -> None:
    """A unit with its form, printed, is read as the same."""
    expected = Unit(unit, form if has_form else "")
    assert read_unit(str(expected)) == expected


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text makes a fault."""
    assert isinstance(read_unit(text), Unit | Refusal)
