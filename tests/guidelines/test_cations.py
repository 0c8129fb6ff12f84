"""Figures for cations: Rayment and Lyons (2011), Soil Chemical Methods - Australasia."""

from __future__ import annotations

import pytest

from soilrota.guidelines.cations import cation_formula, chloride_a_charge, no_acidity_from, salts_above
from soilrota.model.guideline import Status


def test_salt_rule() -> None:
    """Method 15A3: above about 0.3 dS/m, Na less Cl / 354.5."""
    assert (salts_above().value, chloride_a_charge().value) == (0.3, 354.5)
    assert salts_above().source.where == chloride_a_charge().source.where == "method 15A3"
    assert chloride_a_charge().value == pytest.approx(10 * 35.453, abs=0.05)


def test_no_acidity() -> None:
    """WA, effects of soil acidity: topsoil at 5.5 (CaCl2); in water 1.2 more at the most (Soil Essentials)."""
    lines = no_acidity_from()
    assert {code: line.value for code, line in lines.items()} == {"ph.cacl2": 5.5, "ph.water": 6.7}
    assert "acidity" in lines["ph.cacl2"].source.title


@pytest.mark.parametrize(
    ("quantity", "where"),
    [
        ("exchange-capacity", "15J1"), ("sodium-share", "15N1"), ("aluminium-share", "15O1"), ("calcium-share", "15L1"),
        ("magnesium-share", "15L1"), ("potassium-share", "15L1"), ("calcium-magnesium-ratio", "15M1"),
        ("magnesium-potassium-ratio", "15M1"),
    ],
)  # fmt: skip
def test_formulas(quantity: str, where: str) -> None:
    """Each is of a method of the book, and was read there."""
    source, status = cation_formula(quantity)
    assert (source.where, status) == (f"method {where}", Status.VERIFIED)
