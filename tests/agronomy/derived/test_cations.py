"""Exchange capacity, shares, and the ratio."""

from __future__ import annotations

import random
from typing import Any

import numpy as np
import pytest

from soilrota.agronomy.derived.inputs import between_laboratories
from soilrota.agronomy.derived.intervals import with_cv
from soilrota.model.judgement import WhyNot
from tests.agronomy.derived.bags import CATIONS, derived, result, results

SHARES = ("calcium-share", "magnesium-share", "potassium-share", "sodium-share", "aluminium-share")


def without(*codes: str, **more: Any) -> dict[str, Any]:
    """Return the cations but for some."""
    return {code: value for code, value in CATIONS.items() if code not in codes} | more


def test_the_sum_and_its_shares() -> None:
    """12 cmol(+)/kg; shares of a sum with aluminium alone for the acidity sum to 100."""
    found, missing = derived(CATIONS)
    capacity = found["exchange-capacity"]
    assert (capacity.value, capacity.unit, missing) == (pytest.approx(12), "cmol(+)/kg", {})
    assert capacity.facts == {"capacity_from": "sum", "acidity": "aluminium-alone", "salts": "not-measured"}
    assert [round(found[code].value, 2) for code in SHARES] == [66.67, 20.83, 5.0, 3.33, 4.17]
    assert sum(found[code].value for code in SHARES) == pytest.approx(100)
    assert found["calcium-magnesium-ratio"].value == pytest.approx(3.2)
    assert found["magnesium-potassium-ratio"].value == pytest.approx(2.5 / 0.6)
    for code in ("calcium-magnesium-ratio", "magnesium-potassium-ratio"):
        assert (found[code].cautions, found[code].unit) == (("ratio-weak",), "ratio")


def test_shares_of_any_soil_sum_to_100() -> None:
    """Corrected for chloride or not; each share rises with its own cation and falls with any other."""
    rng = random.Random(5)
    for _ in range(60):
        cations = {code: rng.uniform(0.05, 20) for code in CATIONS}
        salts = {"conductivity.ec-1-5": rng.uniform(0, 0.6), "chloride.water-1-5": rng.uniform(0, 2000)}
        found, _ = derived({**cations, **salts})
        assert sum(found[code].value for code in SHARES) == pytest.approx(100)
        raised, _ = derived({**cations, **salts, "potassium.exchangeable": cations["potassium.exchangeable"] + 1})
        assert raised["potassium-share"].value > found["potassium-share"].value
        for code in ("calcium-share", "magnesium-share", "aluminium-share"):
            assert raised[code].value < found[code].value
        for one in found.values():
            assert one.low <= one.value <= one.high
            assert one.unit != "%" or 0 <= one.low <= one.high <= 100


def test_a_unit_changes_nothing() -> None:
    """Bases in mg/kg, conductivity in µS/cm: the same quantities, to the ends of their intervals."""
    salts = {"conductivity.ec-1-5": 0.5, "chloride.water-1-5": 60.0}
    plain, _ = derived({**CATIONS, **salts})
    masses = {"calcium": 1603.12, "magnesium": 303.8125, "potassium": 234.5898, "sodium": 91.95908}
    written = [
        *(result(f"{analyte}.exchangeable", value, unit="mg/kg") for analyte, value in masses.items()),
        result("aluminium.exchangeable", 5, unit="mmol(+)/kg"),
        result("conductivity.ec-1-5", 500, unit="µS/cm"),
        result("chloride.water-1-5", 0.006, unit="%"),
    ]
    other, _ = derived(written)
    assert plain.keys() - other.keys() == set()
    for code in (*SHARES, "exchange-capacity", "calcium-magnesium-ratio", "ece"):
        ends = [(one.low, one.value, one.high) for one in (plain[code], other[code])]
        assert ends[1] == pytest.approx(ends[0], rel=1e-4), code


@pytest.mark.parametrize(
    ("acids", "total", "said"),
    [
        ({"exchange-acidity.kcl": 0.9}, 12.4, "measured"),
        ({"aluminium.exchangeable": 0.5, "hydrogen.exchangeable": 0.2}, 12.2, "measured"),
        ({"aluminium.exchangeable": 0.5}, 12.0, "aluminium-alone"),
        ({"ph.cacl2": 5.5}, 11.5, "taken-as-none"),
        ({"ph.water": 6.7}, 11.5, "taken-as-none"),
        ({"ph.water": ">7"}, 11.5, "taken-as-none"),
    ],
)
def test_exchange_acidity(acids: dict[str, Any], total: float, said: str) -> None:
    """As measured, aluminium alone, or none where the pH leaves none (WA: topsoil is kept at 5.5 in CaCl2)."""
    bases = without("aluminium.exchangeable")
    found, _ = derived({**bases, **acids})
    assert found["exchange-capacity"].value == pytest.approx(total)
    assert found["exchange-capacity"].facts["acidity"] == said


@pytest.mark.parametrize("ph", [{}, {"ph.cacl2": 5.4}, {"ph.water": 6.6}, {"ph.cacl2": "<6"}])
def test_acidity_that_is_not_known(ph: dict[str, Any]) -> None:
    """Then there is no sum, and no share."""
    found, missing = derived({**without("aluminium.exchangeable"), **ph})
    assert missing["exchange-capacity"].refused.why is WhyNot.NOT_MEASURED
    assert missing["exchange-capacity"].refused.facts == {"needs": ("exchange-acidity.kcl",)}
    assert missing["sodium-share"].refused.facts == {"needs": ("exchange-acidity.kcl",)}
    assert "calcium-magnesium-ratio" in found


def test_aluminium_is_a_share_of_a_measured_acidity() -> None:
    """Exchange acidity holds the aluminium already."""
    found, _ = derived({**CATIONS, "exchange-acidity.kcl": 0.9})
    assert found["exchange-capacity"].value == pytest.approx(12.4)
    assert found["aluminium-share"].value == pytest.approx(100 * 0.5 / 12.4)


def test_sodium_is_corrected_above_the_line() -> None:
    """Above 0.3 dS/m, Cl / 354.5 is taken off (15A3); the capacity falls by the same, other shares rise."""
    salts = {"conductivity.ec-1-5": 0.31, "chloride.water-1-5": 70.9}
    found, _ = derived({**CATIONS, **salts})
    share = found["sodium-share"]
    assert share.value == pytest.approx(100 * 0.2 / 11.8)
    assert share.facts["salts"] == "corrected"
    assert (share.facts["sodium_measured"], share.facts["sodium_corrected"]) == (0.4, pytest.approx(0.2))
    assert (share.facts["chloride"], share.facts["salts_above"]) == (pytest.approx(70.9), 0.3)
    assert found["exchange-capacity"].value == pytest.approx(11.8)
    fresh, _ = derived({**CATIONS, **salts, "conductivity.ec-1-5": 0.3})
    assert (fresh["sodium-share"].facts["salts"], fresh["exchange-capacity"].value) == ("fresh", pytest.approx(12))
    below, _ = derived({**CATIONS, "conductivity.ec-1-5": "<0.05"})
    assert below["sodium-share"].facts["salts"] == "fresh"
    unsettled, _ = derived({**CATIONS, "conductivity.ec-1-5": "<0.5"})
    assert unsettled["sodium-share"].facts["salts"] == "not-measured"


def test_more_chloride_than_sodium() -> None:
    """Sodium is never below nought."""
    found, _ = derived({**CATIONS, "conductivity.ec-1-5": 1.0, "chloride.water-1-5": 900.0})
    assert (found["sodium-share"].value, found["sodium-share"].low) == (0, 0)
    assert found["exchange-capacity"].value == pytest.approx(11.6)


def test_salty_without_chloride() -> None:
    """Reckoned as measured, with the caution."""
    found, _ = derived({**CATIONS, "conductivity.ec-1-5": 0.8})
    assert found["sodium-share"].cautions == ("sodium-uncorrected",)
    assert found["sodium-share"].facts["salts"] == "chloride-not-measured"


def test_a_capacity_of_the_laboratory() -> None:
    """Stands in where the sum lacks a part; aluminium is of the effective one only; both are said."""
    part = {"calcium.exchangeable": 7.35, "aluminium.exchangeable": 0.5}
    found, missing = derived({**part, "exchange-capacity.ammonium-acetate": 20.4})
    assert found["calcium-share"].value == pytest.approx(36.03, abs=0.005)
    assert found["calcium-share"].facts["capacity_from"] == "ammonium-acetate"
    assert missing["aluminium-share"].refused.facts == {"needs": ("exchange-capacity.effective",)}
    assert "exchange-capacity" in missing
    effective, _ = derived({**part, "exchange-capacity.effective": 12.5, "exchange-capacity.ammonium-acetate": 20.4})
    assert effective["aluminium-share"].value == pytest.approx(4)
    salty, _ = derived(
        {"sodium.exchangeable": 3.0, "exchange-capacity.effective": 12.5, "conductivity.ec-1-5": 0.5,
         "chloride.water-1-5": 354.5}
    )  # fmt: skip
    assert salty["sodium-share"].value == pytest.approx(100 * 2 / 12.5)
    assert salty["sodium-share"].cautions == ("salts-in-capacity",)


def test_censored_cations() -> None:
    """A trace of aluminium moves the sum by no more than it may be; under the ratio's stroke there is no number."""
    found, missing = derived({**CATIONS, "aluminium.exchangeable": "<0.1", "magnesium.exchangeable": "<0.2"})
    capacity = found["exchange-capacity"]
    assert capacity.value == pytest.approx(9 + 0.05 + 0.1)
    assert capacity.facts["censored"] == ("magnesium.exchangeable", "aluminium.exchangeable")
    assert found["aluminium-share"].low == 0
    assert missing["calcium-magnesium-ratio"].refused.why is WhyNot.CENSORED
    _, endless = derived({**CATIONS, "calcium.exchangeable": ">50"})
    assert {endless[code].refused.why for code in ("exchange-capacity", *SHARES)} == {WhyNot.CENSORED}


def test_nothing_of_it_measured() -> None:
    """Silence."""
    assert derived({"ph.water": 6.0, "exchange-capacity.effective": 12.0}) == ({}, {})


def test_the_interval_of_a_bag_against_draws() -> None:
    """Capacity and corrected sodium share of a salty soil: ends within a twentieth of the interval's width."""
    salts = {"conductivity.ec-1-5": 0.6, "chloride.water-1-5": 600.0}
    values = {**CATIONS, "sodium.exchangeable": 5.0, **salts}
    found, _ = derived(values)
    rng = np.random.default_rng(3)
    drawn = {}
    for one in results(values):
        amount = with_cv(one.value, between_laboratories(one))
        spread = np.log(amount.high / amount.value) / 1.959964
        drawn[f"{one.analyte}.{one.method}"] = one.value * np.exp(spread * rng.standard_normal(200_000))
    sodium = np.maximum(0, drawn["sodium.exchangeable"] - drawn["chloride.water-1-5"] / 354.5)
    total = sum(drawn[code] for code in CATIONS if code != "sodium.exchangeable") + sodium
    for code, sample in (("exchange-capacity", total), ("sodium-share", 100 * sodium / total)):
        low, high = np.percentile(sample, [2.5, 97.5])
        assert found[code].low == pytest.approx(low, abs=0.05 * (high - low))
        assert found[code].high == pytest.approx(high, abs=0.05 * (high - low))
