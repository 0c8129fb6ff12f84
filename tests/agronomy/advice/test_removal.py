"""What harvests take off, as steps of a working. Published examples stand in `published_values`."""

from __future__ import annotations

import pytest

from soilrota.agronomy.advice.removal import removed, to_element
from soilrota.model.advice import Input
from tests.agronomy.advice.nutrient_cases import CORN_BUSHEL, crop

UK, AU = ("united-kingdom-2020",), ("australia-grdc-2020", "australia-audit-2001", "australia-phosphorus-2020")


def test_oxides_become_elements() -> None:
    """8 t/ha of wheat grain at 6.5 kg P2O5/t: 52 kg P2O5, of which 43.64 % is phosphorus."""
    found = removed(crop("Winter-Wheat", 8.0, "grain"), UK, Input.PHOSPHORUS)
    assert found is not None
    assert found.amount.value == pytest.approx(52 * 0.4364, abs=0.01)
    assert (found.step.facts["unit"], found.step.facts["per_unit"]) == ("kg P2O5/t", 6.5)
    assert found.step.source is not None


def test_bushels_and_acres() -> None:
    """One bushel of corn an acre takes 0.37 lb P2O5 off an acre (that of the survey is 4 in a million larger)."""
    found = removed(crop("corn", CORN_BUSHEL), ("tri-state-1995",), Input.PHOSPHORUS)
    assert found is not None
    assert found.amount.value == pytest.approx(to_element(0.37, "P2O5", Input.PHOSPHORUS, per_acre=True), rel=1e-5)
    assert found.step.status == "unverified"


def test_published_ranges_stay_ranges() -> None:
    """Barley in Australia holds 2.7 to 3.0 kg P/t: the middle, between its ends."""
    found = removed(crop("barley", 2.0), AU, Input.PHOSPHORUS)
    assert found is not None
    assert (found.amount.low, found.amount.high) == (5.4, 6.0)
    assert found.amount.value == pytest.approx(5.7)


@pytest.mark.parametrize(
    ("row", "nutrient", "reason"),
    [
        (crop("quinoa", 2.0), Input.PHOSPHORUS, "crop-not-in-edition"),
        (crop("wheat", 2.0, "roots"), Input.PHOSPHORUS, "crop-not-in-edition"),
        (crop("wheat"), Input.PHOSPHORUS, "no-target-yield"),
        (crop("wheat", 2.0), Input.MAGNESIUM, "not-in-edition"),
    ],
)
def test_what_is_not_known_is_not_guessed(row: object, nutrient: Input, reason: str) -> None:
    """A step of nought that says why; another edition never fills the gap."""
    found = removed(row, AU, nutrient)  # type: ignore[arg-type]
    assert found is not None
    assert (found.step.rule, found.step.amount, found.step.facts["reason"]) == ("removal-unknown", 0.0, reason)


def test_nothing_leaves() -> None:
    """Where the plan says so there is no step at all."""
    assert removed(crop("vetch", leaves="nothing"), AU, Input.PHOSPHORUS) is None


@pytest.mark.parametrize("nutrient", [Input.PHOSPHORUS, Input.POTASSIUM, Input.MAGNESIUM])
def test_removal_scales_with_yield(nutrient: Input) -> None:
    """Three times the yield, three times the nutrient."""
    one, three = (removed(crop("wheat", yield_), UK, nutrient) for yield_ in (2.5, 7.5))
    assert one is not None
    assert three is not None
    assert three.amount.value == pytest.approx(3 * one.amount.value)
