"""Stock of carbon, organic matter, carbon to nitrogen."""

from __future__ import annotations

import pytest

from soilrota.model.guideline import Status
from soilrota.model.judgement import WhyNot
from tests.agronomy.derived.bags import derived, result, zone

DRY, WET = "organic-carbon.dry-combustion", "organic-carbon.walkley-black"
NITROGEN = "nitrogen.dry-combustion"


def test_stock() -> None:
    """1.2 % in 0-10 cm at 1.4 g/cm3; the doubt of a measured density is less than that of a typical one."""
    measured, _ = derived({DRY: 1.2}, zone(bulk_density=1.4))
    typical, _ = derived({DRY: 1.2}, zone())
    stock, guessed = measured["carbon-stock"], typical["carbon-stock"]
    assert (stock.value, stock.unit, stock.status) == (pytest.approx(16.8), "t/ha", Status.VERIFIED)
    assert guessed.value == pytest.approx(1.2 * 1.43 * 10)
    assert (guessed.high - guessed.low) / guessed.value > (stock.high - stock.low) / stock.value
    assert (stock.facts["carbon_method"], stock.facts["bulk_density_from"]) == ("dry-combustion", "measured")
    assert (stock.facts["gravel_from"], stock.facts["depth_cm"]) == ("taken-as-none", 10)


def test_walkley_black_is_never_mixed_in_silence() -> None:
    """The stock says by what it was multiplied, and is unverified, as the factor is; the doubt is wider."""
    wet, _ = derived({WET: 1.2}, zone(bulk_density=1.4))
    stock = wet["carbon-stock"]
    assert stock.value == pytest.approx(1.3 * 16.8)
    assert (stock.status, stock.facts["carbon_method"]) == (Status.UNVERIFIED, "walkley-black")
    assert (stock.facts["recovery_factor_low"], stock.facts["recovery_factor_high"]) == (1.25, 1.39)
    assert derived({WET: 1.2, DRY: 1.5}, zone(bulk_density=1.4))[0]["carbon-stock"].value == pytest.approx(21)


def test_a_stock_grows_with_all_but_gravel() -> None:
    """Carbon, density and depth raise it; gravel lowers it."""

    def stock(carbon: float = 2, density: float = 1.3, depth: float = 10, gravel: float = 10) -> float:
        listed = [result(DRY, carbon, layer=(0, depth))]
        return derived(listed, zone(bulk_density=density, gravel_percent=gravel))[0]["carbon-stock"].value

    assert stock(carbon=2.1) > stock()
    assert stock(density=1.4) > stock()
    assert stock(depth=11) > stock()
    assert stock(gravel=11) < stock()


def test_a_unit_changes_nothing() -> None:
    """g/kg or per cent."""
    percent, _ = derived({DRY: 2.0, NITROGEN: 0.18})
    grams, _ = derived([result(DRY, 20, unit="g/kg"), result(NITROGEN, 1800, unit="mg/kg")])
    for code in ("carbon-stock", "carbon-nitrogen-ratio"):
        assert grams[code].value == pytest.approx(percent[code].value)
        assert (grams[code].low, grams[code].high) == pytest.approx((percent[code].low, percent[code].high))


def test_organic_matter_only_where_asked() -> None:
    """By 1.724, within 1.72 to 2.2: so nearly all of the doubt lies above."""
    assert "organic-matter" not in derived({DRY: 2.0})[0]
    matter = derived({DRY: 2.0}, with_organic_matter=True)[0]["organic-matter"]
    assert matter.value == pytest.approx(3.448)
    assert matter.high - matter.value > matter.value - matter.low
    assert (matter.facts["matter_factor_high"], matter.status) == (2.2, Status.VERIFIED)


def test_carbon_to_nitrogen() -> None:
    """Total nitrogen is needed; nitrate will not do."""
    found, _ = derived({DRY: 2.0, NITROGEN: 0.18})
    ratio = found["carbon-nitrogen-ratio"]
    assert ratio.value == pytest.approx(2 / 0.18)
    assert (ratio.facts["nitrogen_method"], ratio.facts["carbon_method"]) == ("dry-combustion", "dry-combustion")
    _, missing = derived({DRY: 2.0, "nitrate-nitrogen.kcl": 12.0})
    assert missing["carbon-nitrogen-ratio"].refused.facts == {
        "needs": ("nitrogen.dry-combustion", "nitrogen.kjeldahl")
    }  # fmt: skip
    _, without = derived({"nitrogen.kjeldahl": 0.2})
    assert without["carbon-nitrogen-ratio"].refused.facts == {"needs": (DRY, WET)}
    wet, _ = derived({WET: 2.0, "nitrogen.kjeldahl": 0.2})
    assert wet["carbon-nitrogen-ratio"].value == pytest.approx(13)
    assert wet["carbon-nitrogen-ratio"].status is Status.UNVERIFIED


def test_censored() -> None:
    """A trace of carbon gives a stock down to nought; a trace of nitrogen no ratio."""
    found, missing = derived({DRY: "<0.1", NITROGEN: "<0.02"})
    assert found["carbon-stock"].low == 0
    assert found["carbon-stock"].facts["censored"] == (DRY,)
    assert missing["carbon-nitrogen-ratio"].refused.why is WhyNot.CENSORED
    _, above = derived({DRY: ">20", NITROGEN: ">2"}, with_organic_matter=True)
    assert {above[code].refused.why for code in ("carbon-stock", "organic-matter")} == {WhyNot.CENSORED}
    _, endless = derived({DRY: 2.0, NITROGEN: ">2"})
    assert endless["carbon-nitrogen-ratio"].refused.why is WhyNot.CENSORED


def test_no_bulk_density() -> None:
    """No texture, and too much carbon for the formulas of mineral soil."""
    _, missing = derived({DRY: 15.0}, zone(texture=""))
    assert missing["carbon-stock"].refused.facts == {"needs": ("bulk-density", "texture")}
