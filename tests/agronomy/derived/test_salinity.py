"""ECe and relative yield."""

from __future__ import annotations

import pytest

from soilrota.model.guideline import Status
from soilrota.model.judgement import WhyNot
from tests.agronomy.derived.bags import derived, result, zone

EC = "conductivity.ec-1-5"


def test_ece_by_clay() -> None:
    """Clay comes before texture; the printed table is verified."""
    found, _ = derived({EC: 0.45}, zone(texture="heavy-clay", clay_percent=30.0))
    ece = found["ece"]
    assert ece.value == pytest.approx(4.5, abs=0.05)
    assert ece.low < 4.5 < ece.high
    assert (ece.status, ece.facts["factor_by"], ece.facts["clay_percent"]) == (Status.VERIFIED, "clay", 30.0)
    assert "Tolmie and Biggs" in str(ece.facts["factor_source"])
    assert ece.facts["regression_low"] == pytest.approx(6.08 * 0.45 - 0.937)
    assert ece.facts["regression_high"] == pytest.approx(6.5 * 0.45)


def test_ece_by_texture() -> None:
    """Factors from memory, and so said."""
    found, _ = derived({EC: 0.1}, zone(texture="sandy-loam", clay_percent=None))
    ece = found["ece"]
    assert (ece.value, ece.status) == (pytest.approx(1.38), Status.UNVERIFIED)
    assert (ece.facts["factor_by"], ece.facts["texture"], ece.facts["factor_status"]) == (
        "texture", "sandy-loam", "unverified",
    )  # fmt: skip
    assert "regression_low" not in ece.facts


def test_sand_is_wide_open() -> None:
    """Below 10 % clay the sets lie between 13 and 23."""
    found, _ = derived({EC: 0.1}, zone(clay_percent=5.0))
    assert (found["ece"].facts["factor_low"], found["ece"].facts["factor_high"]) == (13, 22.7)
    assert found["ece"].status is Status.UNVERIFIED


def test_no_factor() -> None:
    """Neither clay nor texture, or a clay beyond the table."""
    _, missing = derived({EC: 0.1}, zone(texture="", clay_percent=None))
    assert missing["ece"].refused.why is WhyNot.COVARIATE_MISSING
    _, beyond = derived({EC: 0.1}, zone(texture="", clay_percent=85.0))
    assert beyond["ece"].refused.why is WhyNot.OUTSIDE_CALIBRATION
    found, _ = derived({EC: 0.1}, zone(texture="heavy-clay", clay_percent=85.0))
    assert found["ece"].facts["factor_by"] == "texture"


def test_gypsum() -> None:
    """Known gypsum voids the rule, for the crops too; a conductivity about 2.2 dS/m makes it possible."""
    _, missing = derived({EC: 2.2}, has_gypsum=True, crops=["wheat"])
    assert missing["ece"].refused.facts == {"reason": "gypsum", "extract": 2.2}
    assert missing["relative-yield"].refused.facts["reason"] == "gypsum"
    assert derived({EC: 2.0})[0]["ece"].cautions == ("gypsum-possible",)
    assert derived({EC: 1.9})[0]["ece"].cautions == ()


def test_a_lower_layer() -> None:
    """Clay is the topsoil's."""
    found, _ = derived([result(EC, 0.3, layer=(30, 60))])
    assert found["ece"].cautions == ("topsoil-property",)


def test_relative_yield() -> None:
    """Its ends are those of ECe turned round; the status is the weakest of formula, factor and tolerance."""
    found, missing = derived({EC: 0.9}, zone(clay_percent=30.0), crops=["Wheat", "canola", "spinach", "dragon fruit"])
    ece, wheat = found["ece"], found["relative-yield Wheat"]
    assert wheat.value == pytest.approx(100 - 7.1 * (ece.value - 6))
    assert wheat.low == pytest.approx(100 - 7.1 * (ece.high - 6))
    assert wheat.high == pytest.approx(100 - 7.1 * (ece.low - 6))
    assert (wheat.facts["crop"], wheat.facts["crop_id"], wheat.status) == ("Wheat", "wheat-grain", Status.VERIFIED)
    assert (wheat.facts["threshold"], wheat.facts["slope"]) == (6.0, 7.1)
    assert (found["relative-yield canola"].value, found["relative-yield canola"].status) == (100, Status.UNVERIFIED)
    unknown = missing["relative-yield"].refused
    assert (unknown.why, unknown.facts["crop"]) == (WhyNot.OTHER_GROUND, "dragon fruit")
    assert "wheat-grain" in unknown.facts["crops"]


def test_yield_falls_with_salt_and_stays_between_0_and_100() -> None:
    """For every conductivity, and to the ends."""
    yields = [derived({EC: ec / 20}, crops=["maize"])[0]["relative-yield maize"] for ec in range(1, 60)]
    assert [one.value for one in yields] == sorted((one.value for one in yields), reverse=True)
    assert all(0 <= one.low <= one.value <= one.high <= 100 for one in yields)
    assert (yields[0].value, yields[-1].value) == (100, 0)


def test_censored_conductivity() -> None:
    """Below a limit ECe is anything down to nought; above one nothing is said."""
    found, _ = derived({EC: "<0.05"}, zone(clay_percent=30.0), crops=["carrot"])
    assert found["ece"].low == 0
    assert found["ece"].high == pytest.approx(0.05 * 10.09 * 1.15, rel=1e-3)
    assert found["relative-yield carrot"].facts["censored"] == (EC,)
    _, missing = derived({EC: ">5"}, crops=["wheat"])
    assert {missing[code].refused.why for code in ("ece", "relative-yield")} == {WhyNot.CENSORED}


def test_nothing_measured() -> None:
    """Silence, whatever crops are asked for."""
    assert derived({"ph.water": 6.0}, crops=["wheat"]) == ({}, {})
