"""Quantities that guideline rows may speak of besides analyses."""

from __future__ import annotations

import pytest

from soilrota.guidelines.derived_codes import DERIVED, derived_codes, unit_of
from soilrota.quantities import analytes


def test_codes_have_units_and_limits() -> None:
    """Each code is an id with a unit, decimals and limits in order."""
    for code, one in derived_codes().items():
        assert code == one.code
        assert one.name
        assert one.unit
        assert one.decimals >= 0
        assert one.low < one.high


def test_no_method_of_the_glossary_is_called_derived() -> None:
    """So the word always means that the quantity is reckoned."""
    assert not any(DERIVED in one.methods for one in analytes().values())


@pytest.mark.parametrize(
    ("analyte", "method", "unit"),
    [
        ("phosphorus", "colwell", "mg/kg"),
        ("exchange-capacity", "derived", "cmol(+)/kg"),
        ("exchange-capacity", "effective", "cmol(+)/kg"),
        ("ece", "derived", "dS/m"),
        ("carbon-stock", "derived", "t/ha"),
        ("ece", "ec-1-5", None),
        ("phosphorus", "derived", None),
        ("phosphor", "colwell", None),
    ],
)
def test_units(analyte: str, method: str, unit: str | None) -> None:
    """Of an analysis the glossary's, of a derived quantity the table's, else none."""
    assert unit_of(analyte, method) == unit
