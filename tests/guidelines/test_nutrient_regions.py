"""Regions of rules: by set first, then by place."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.guidelines.nutrient_regions import (
    RateRule,
    default_build_up_years,
    is_organic,
    may_carry,
    next_harvest_from,
    region_of,
)
from soilrota.guidelines.removal import removal_editions
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.advice import Input
from soilrota.model.practice import Hemisphere


@pytest.mark.parametrize(
    ("set_", "place", "region"),
    [
        ("tri-state-1995", ("US", "IA"), "tri-state"),
        ("iowa-2013", ("US", "OH"), "iowa"),
        ("", ("US", "IL"), "illinois"),
        ("", ("AU", "VIC"), "australia"),
        ("constraints-australia", ("AU", ""), "australia"),
        ("northern-ireland", ("GB", "NIR"), "united-kingdom"),
    ],
)
def test_the_set_goes_before_the_place(set_: str, place: tuple[str, str], region: str) -> None:
    """Advice keeps to the set that the rating comes from."""
    found = region_of(guideline_sets().get(set_), *place)
    assert found is not None
    assert found.id == region


def test_a_set_of_the_practice_counts_as_what_it_overrides() -> None:
    """Its own id is in no table."""
    own = replace(guideline_sets()["iowa-2013"], id="ours", overrides="iowa-2013", is_own=True)
    found = region_of(own, "AU", "")
    assert found is not None
    assert found.id == "iowa"


def test_silence() -> None:
    """Where no rule was read there is no region."""
    assert region_of(None, "IE", "") is None
    assert region_of(None, "US", "TX") is None


def test_every_region_is_whole() -> None:
    """Its editions exist; a rule of build-up has figures that are not kept for old advice alone."""
    for place in (("GB", ""), ("US", "IA"), ("US", "OH"), ("US", "IL"), ("AU", "")):
        region = region_of(None, *place)
        assert region is not None
        assert {*region.editions, *region.editions_on("pasture")} <= set(removal_editions())
        for rule in region.rules.values():
            assert bool(rule.figures) == (rule.rule is RateRule.BUILD_UP)
            assert not any(one.is_legacy for one in rule.figures)


def test_small_facts() -> None:
    """Years of build-up, harvests, what classes may carry."""
    assert default_build_up_years() == 4
    assert next_harvest_from(Hemisphere.NORTHERN) < next_harvest_from(Hemisphere.SOUTHERN)
    assert may_carry("lime") == (Input.LIME, Input.MAGNESIUM)
    assert may_carry("water") == ()
    assert is_organic("manure")
    assert not is_organic("mineral-fertiliser")
