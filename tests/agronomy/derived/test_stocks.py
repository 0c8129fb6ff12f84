"""Nutrients by area."""

from __future__ import annotations

import pytest

from soilrota.model.judgement import WhyNot
from tests.agronomy.derived.bags import derived, result, zone


def test_by_each_method() -> None:
    """Two methods give two stocks, each named; only a total is all that there is."""
    found, _ = derived({"phosphorus.colwell": 30.0, "phosphorus.total": 400.0}, zone(bulk_density=1.3))
    colwell, total = found["nutrient-stock phosphorus.colwell"], found["nutrient-stock phosphorus.total"]
    assert (colwell.value, total.value) == (pytest.approx(39), pytest.approx(520))
    assert (colwell.cautions, total.cautions, colwell.unit) == (("extract-only",), (), "kg/ha")
    assert colwell.facts["analysis"] == "phosphorus.colwell"
    assert colwell.low < 39 < colwell.high


def test_charges_become_masses() -> None:
    """0.5 cmol(+)/kg of potassium are 195.5 mg/kg (390.98 a cmol(+)/kg, method 15D3)."""
    charges, _ = derived({"potassium.exchangeable": 0.5}, zone(bulk_density=1.0))
    masses, _ = derived([result("potassium.exchangeable", 195.49, unit="mg/kg")], zone(bulk_density=1.0))
    name = "nutrient-stock potassium.exchangeable"
    assert charges[name].value == pytest.approx(195.49, rel=1e-4)
    assert masses[name].high == pytest.approx(charges[name].high, rel=1e-4)


def test_a_volume_is_not_a_mass() -> None:
    """mg/l needs the density of the laboratory's scoop, which nobody gave."""
    _, missing = derived({"magnesium.ammonium-nitrate-by-volume": 90.0})
    refused = missing["nutrient-stock"].refused
    assert (refused.why, refused.facts["reason"]) == (WhyNot.RULE_VOID, "unit")
    assert refused.facts["analysis"] == "magnesium.ammonium-nitrate-by-volume"


def test_censored_and_no_density() -> None:
    """Below a limit from nought on; without a density none."""
    found, _ = derived({"sulphur.kcl-40": "<2"}, zone(bulk_density=1.0))
    assert (found["nutrient-stock sulphur.kcl-40"].low, found["nutrient-stock sulphur.kcl-40"].value) == (0, 1)
    _, missing = derived({"sulphur.kcl-40": 5.0}, zone(texture=""))
    assert missing["nutrient-stock"].refused.why is WhyNot.NOT_MEASURED
    assert derived({"ph.water": 6.0, "iron.dtpa": 40.0}) == ({}, {})
