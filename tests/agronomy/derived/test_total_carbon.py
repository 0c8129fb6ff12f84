"""All organic carbon, by whichever method."""

from __future__ import annotations

import pytest

from soilrota.agronomy.derived.intervals import exact
from soilrota.agronomy.derived.total_carbon import CARBON, TotalCarbon, organic_matter_percent, total_carbon
from soilrota.model.guideline import Status
from soilrota.model.judgement import Refused, WhyNot
from tests.agronomy.derived.bags import bag


def carbon(values: dict[str, float]) -> TotalCarbon:
    """Return the carbon of a bag, which was measured."""
    found = total_carbon(bag(values))
    assert isinstance(found, TotalCarbon)
    return found


def test_dry_combustion_finds_all_and_comes_first() -> None:
    """It is not multiplied."""
    found = carbon({"organic-carbon.walkley-black": 1.5, "organic-carbon.dry-combustion": 2})
    assert (found.factor, found.status) == (exact(1), Status.VERIFIED)
    assert found.facts == {"carbon_method": "dry-combustion", "carbon_percent": 2}


def test_walkley_black_is_multiplied_and_says_so() -> None:
    """1.3, within 1.25 to 1.39, from memory."""
    found = carbon({"organic-carbon.walkley-black": 1.8})
    assert (found.factor.low, found.factor.value, found.factor.high) == (1.25, 1.3, 1.39)
    assert found.status is Status.UNVERIFIED
    assert found.facts["carbon_percent"] == pytest.approx(2.34)
    assert (found.facts["recovery_factor"], found.facts["recovery_factor_status"]) == (1.3, "unverified")


def test_chloride_counts_as_carbon() -> None:
    """Above 0.5 % chloride, by Walkley and Black only."""
    salty = {"chloride.water-1-5": 6000.0}
    assert carbon({"organic-carbon.walkley-black": 1, **salty}).cautions == ("chloride-counts-as-carbon",)
    assert carbon({"organic-carbon.dry-combustion": 1, **salty}).cautions == ()
    assert carbon({"organic-carbon.walkley-black": 1, "chloride.water-1-5": 5000.0}).cautions == ()


def test_what_was_not_measured() -> None:
    """No carbon; organic matter is the measured one before that of the carbon."""
    assert total_carbon(bag({"ph.water": 6})) == Refused(WhyNot.NOT_MEASURED, {"needs": CARBON})
    assert isinstance(total_carbon(bag({"organic-carbon.dry-combustion": ">20"})), Refused)
    assert organic_matter_percent(bag({"ph.water": 6})) is None
    both = {"organic-carbon.dry-combustion": 2.0, "organic-matter.loss-on-ignition": 4.5}
    assert organic_matter_percent(bag(both)) == 4.5
    assert organic_matter_percent(bag({"organic-carbon.dry-combustion": 2.0})) == pytest.approx(3.448)
