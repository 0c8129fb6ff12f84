"""Figures for organic carbon."""

from __future__ import annotations

import pytest

from soilrota.guidelines.carbon import (
    carbon_formula,
    chloride_interferes_above,
    organic_matter_factor,
    published_factors,
    walkley_black_factor,
)
from soilrota.model.guideline import Status


def test_walkley_black() -> None:
    """Grewal 1991: 1.32 and 1.25; FAO cookbook: 1.33 of 76 %; Abraham 2013: 1.385 of 71 %. Ours lies among them."""
    published = {figure.value: figure.source.author for figure in published_factors()}
    assert published == {1.25: "Grewal and others", 1.32: "Grewal and others", 1.33: "FAO", 1.385: "Abraham"}
    used = walkley_black_factor()
    assert (used.value, used.status) == (1.3, Status.UNVERIFIED)
    assert (used.low, used.high) == (min(published), pytest.approx(max(published), abs=0.006))
    assert pytest.approx(1 / 0.76, abs=0.02) == 1.33
    assert pytest.approx(1 / 0.71, abs=0.03) == 1.385


def test_organic_matter() -> None:
    """Rayment and Lyons (2011), chapter 6: 1.724, published range 1.72 to 2.2; method 6A1: chloride above 0.5 %."""
    figure = organic_matter_factor()
    assert (figure.low, figure.value, figure.high, figure.source.where) == (1.72, 1.724, 2.2, "chapter 6")
    assert (chloride_interferes_above().value, chloride_interferes_above().source.where) == (5000, "method 6A1")


@pytest.mark.parametrize("quantity", ["carbon-stock", "organic-matter", "carbon-nitrogen-ratio"])
def test_formulas(quantity: str) -> None:
    """Each was read."""
    assert carbon_formula(quantity)[1] is Status.VERIFIED
