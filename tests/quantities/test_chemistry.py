"""Masses, charges and forms."""

from __future__ import annotations

import pytest

from soilrota.quantities.chemistry import charge, check_form, element_fraction, is_element, molar_mass, own_form
from soilrota.quantities.unit_texts import unit_table

PAIRS = [(analyte, form) for analyte, row in unit_table()["analytes"].items() for form in row["forms"]]


@pytest.mark.parametrize(("analyte", "form"), PAIRS)
def test_every_form_holds_its_element(analyte: str, form: str) -> None:
    """No form is more than its element, and the element alone is all of it."""
    assert 0 < element_fraction(analyte, form) <= 1
    assert (element_fraction(analyte, form) == 1) == is_element(analyte, form)
    assert molar_mass(form) > 0
    assert check_form(analyte, form) is None


def test_forms_of_other_analytes_are_refused() -> None:
    """A column of potassium is never given as P2O5, and organic matter has no formula."""
    wrong = check_form("potassium", "P2O5")
    assert wrong is not None
    assert wrong.expected == "one of K, K2O"
    assert check_form("organic-matter", "C") is not None


def test_charges() -> None:
    """Ca and Mg carry two, K and Na one, Al three; phosphorus is no exchangeable ion."""
    assert [charge(name) for name in ("calcium", "magnesium", "potassium", "sodium", "aluminium")] == [2, 2, 1, 1, 3]
    assert charge("phosphorus") is None
    assert charge("organic-matter") is None


def test_the_first_form_is_the_elements() -> None:
    """What the glossary means by an analyte is its element, whatever held it."""
    assert all(is_element(analyte, own_form(analyte)) for analyte in unit_table()["analytes"])
    assert own_form("ph") == ""
