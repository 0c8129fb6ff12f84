"""What a kilogram of a product supplies."""

from __future__ import annotations

import pytest

from soilrota.agronomy.mix.supply import Supply, supply_of
from soilrota.model.advice import Input
from soilrota.model.products import ProductKind
from tests.agronomy.mix.making import product


def test_elements_count_as_bought() -> None:
    """Contents are by mass as bought, water included; elements that are no input are left out."""
    one = product("super", contents={"phosphorus": 8.8, "sulphur": 11.0, "calcium": 19.0}, moisture_percent=5.0)
    assert supply_of(one, {}, {}) == {
        Input.PHOSPHORUS: Supply(pytest.approx(0.088), pytest.approx(0.088)),  # type: ignore[arg-type]
        Input.SULPHUR: Supply(pytest.approx(0.11), pytest.approx(0.11)),  # type: ignore[arg-type]
    }


def test_part_of_a_manure_counts() -> None:
    """What is not available counts for maxima alone."""
    one = product("litter", ProductKind.MANURE, contents={"nitrogen": 3.0})
    found = supply_of(one, {}, {("litter", Input.NITROGEN): 0.4})[Input.NITROGEN]
    assert (found.counts, found.whole) == pytest.approx((0.012, 0.03))


def test_lime_and_gypsum_count_dry_and_pure() -> None:
    """Dolomite: neutralising value above 100, wet, partly too coarse; its magnesium as bought. Gypsum by purity."""
    dolomite = product(
        "dolomite", ProductKind.LIME, contents={"magnesium": 10.0}, neutralising_percent=105.0, moisture_percent=10.0
    )
    found = supply_of(dolomite, {"dolomite": 0.6}, {})
    assert found[Input.LIME].counts == pytest.approx(1.05 * 0.9 * 0.6 / 1000)
    assert found[Input.MAGNESIUM].counts == pytest.approx(0.1)
    gypsum = product("rock", ProductKind.GYPSUM, purity_percent=80.0, moisture_percent=5.0)
    assert supply_of(gypsum, {"rock": 0.5}, {})[Input.GYPSUM].whole == pytest.approx(0.8 * 0.95 / 1000)


def test_a_fertiliser_is_no_lime() -> None:
    """A neutralising value of a fertiliser does not count as lime."""
    assert supply_of(product("ash", contents={"potassium": 5.0}, neutralising_percent=20.0), {}, {}).keys() == {
        Input.POTASSIUM
    }
