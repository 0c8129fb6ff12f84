"""The nitrogen budget. Published figures stand in `published_values`."""

from __future__ import annotations

from dataclasses import replace
from math import fsum
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.applied import applied_of
from soilrota.agronomy.advice.crop_plan import Harvest
from soilrota.agronomy.advice.legume_credit import Legume
from soilrota.agronomy.advice.nitrogen import NitrogenCase, nitrogen_need
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.cropping import CropYear
from soilrota.model.judgement import Quantity
from tests.agronomy.advice.nutrient_cases import GROUND, crop, product, spread
from tests.agronomy.derived.bags import result

WHEAT = crop("wheat", 4.0, "grain", protein=11.5)
CARBON = result("organic-carbon.walkley-black", 1.0)


def profile(value: float = 67.2) -> Quantity:
    """Return the mineral nitrogen of a profile, a sixth up or down [kg/ha]."""
    nitrate = result("nitrate-nitrogen.kcl", 8.0, layer=(0, 60))
    return Quantity(
        "profile-nitrogen", value, value * 5 / 6, value * 7 / 6, "kg/ha", 0, 60, (nitrate,), cautions=("nitrate-alone",)
    )


def case(*rows: CropYear, **changes: Any) -> NitrogenCase:
    """Return a case: 8 mg/kg nitrate to 60 cm at 1.4 g/cm3, 1 % carbon, 250 mm."""
    plain = NitrogenCase(GROUND, Harvest(2027, rows), profile(), CARBON, Doubtful(250, 180, 330))
    return replace(plain, **changes)


def need(*rows: CropYear, **changes: Any) -> Need:
    """Return the budget of a case that has one."""
    found = nitrogen_need(case(*rows, **changes))
    assert isinstance(found, Need), found
    return found


def test_a_budget_of_wheat() -> None:
    """Grain 80.7 kg N; supply 2.5 times; less 67.2 in the profile and 37.5 mineralised. By twice it would be 56.7."""
    found = need(WHEAT)
    amounts = {step.rule: step.amount for step in found.steps}
    assert amounts["demand"] == pytest.approx(2.5 * 80.70, abs=0.01)
    assert amounts["soil-mineral-nitrogen"] == -67.2
    assert amounts["mineralised"] == pytest.approx(-37.5)
    assert found.amount == pytest.approx(fsum(amounts.values()))
    assert found.low <= 56.7 <= found.amount <= found.high
    assert found.low >= 0


def test_it_says_which_efficiency_is_in() -> None:
    """That of wheat carries the recovery; that of canola is what the crop takes up."""
    wheat, canola = need(WHEAT), need(crop("canola", 2.0))
    assert ("recovery-in-demand" in wheat.cautions, wheat.steps[0].facts["recovery"]) == (True, "in")
    assert ("recovery-not-in" in canola.cautions, canola.steps[0].facts["recovery"]) == (True, "not-in")
    assert canola.steps[0].amount == 160.0
    assert "nitrate-alone" in wheat.cautions


def test_a_legume_before_is_taken_off() -> None:
    """Half of the fallow was to come: 18 kg for each of 2 t of grain, by half. Without a figure there is a caution."""
    bare, after = need(WHEAT), need(WHEAT, legume=Legume(crop("field peas", 2.0, "grain", year=2026), 0.5))
    assert after.amount == pytest.approx(bare.amount - 18)
    assert after.low < bare.low
    unknown = need(WHEAT, legume=Legume(crop("lucerne", 5.0, "hay", year=2026), 0.5))
    assert unknown.amount == bare.amount
    assert "legume-credit-left-out" in unknown.cautions


@pytest.mark.parametrize(
    ("row", "changes", "facts"),
    [
        (WHEAT, {"rain_mm": None}, {"needs": ("growing-season-rain",)}),
        (WHEAT, {"organic_carbon": None, "profile": None}, {"needs": ("profile-nitrogen", "organic-carbon")}),
        (WHEAT, {"organic_carbon": result("organic-carbon.walkley-black", "<0.2")}, {"needs": ("organic-carbon",)}),
        (crop("wheat", 4.0), {}, {"needs": ("target-protein",)}),
        (crop("canola"), {}, {"needs": ("target-yield",)}),
        (crop("lentils", 1.0), {}, {"reason": "crop-without-figures", "crop": "lentils"}),
    ],
)
def test_what_is_lacking_is_never_assumed(row: CropYear, changes: dict[str, Any], facts: dict[str, Any]) -> None:
    """Each input that is missing is named, and there is no budget."""
    found = nitrogen_need(case(row, **changes))
    assert isinstance(found, NoNeed)
    assert dict(found.refused.facts) == facts


def test_no_plan() -> None:
    """Without a crop nothing is demanded."""
    found = nitrogen_need(case())
    assert isinstance(found, NoNeed)
    assert found.refused.facts["reason"] == "no-crop-plan"


@given(st.floats(0, 300), st.floats(0, 300), st.floats(0, 200), st.floats(0, 200))
def test_more_in_the_soil_never_asks_for_more(first: float, second: float, spread_kg: float, most: float) -> None:
    """What was spread is taken off once; no maximum is passed; the range holds the amount."""
    off = applied_of((spread("u", spread_kg),), (product("u", nitrogen=50.0),), Input.NITROGEN)
    poor, rich = (
        need(WHEAT, profile=profile(one), applied=off, caps=(Cap(most, "house"),)) for one in sorted((first, second))
    )
    assert poor.amount >= rich.amount
    bare = fsum(step.amount for step in need(WHEAT, profile=profile(min(first, second))).steps)
    before = 2.5 * 40 * 11.5 / 5.7 - min(first, second) - 37.5
    assert bare == pytest.approx(max(0.0, before))
    assert poor.amount == pytest.approx(min(most, max(0.0, before - spread_kg / 2)), abs=1e-9)
    assert 0 <= poor.low <= poor.amount <= poor.high <= most
