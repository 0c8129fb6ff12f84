"""Which layers decide on lime, and what each aims at."""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.agronomy.advice.lime_layers import Layer, layers_of
from soilrota.agronomy.doubt import doubt_of
from soilrota.guidelines.advice_regions import LimeRegion, lime_region
from soilrota.model.judgement import Refused
from tests.agronomy.advice.grounds import basis, topsoil, wanted_ph


def _region(country: str, subdivision: str) -> LimeRegion:
    """Return a region that must be there."""
    found = lime_region(country, subdivision, "crop")
    assert found is not None
    return found


def _layers(found: tuple[Layer, ...] | Refused) -> tuple[Layer, ...]:
    """Return layers that must be there."""
    assert not isinstance(found, Refused), found
    return found


def test_doubt_of_ph_is_that_of_the_mean() -> None:
    """95 of 100 are 1.96 standard deviations either side."""
    ground = topsoil("AU-VIC", ph_cacl2=4.5)
    (layer,) = _layers(layers_of(ground, _region("AU", "VIC")))
    sd = doubt_of(layer.result, ground.evidence).sd
    assert (layer.ph.low, layer.ph.high) == pytest.approx((4.5 - 1.96 * sd, 4.5 + 1.96 * sd), abs=1e-3)
    assert layer.below > 0.5


@pytest.mark.parametrize(("texture", "act_below", "target"), [("sand", 6.5, 6.7), ("peat", 5.8, 6.0)])
def test_aims_by_soil(texture: str, act_below: float, target: float) -> None:
    """AHDB: arable on mineral soil 6.5 and 6.7, on peaty soil 5.8 and 6.0."""
    ground = topsoil("GB-ENG", ph_water=5.0, zone_of={"texture": texture})
    (layer,) = _layers(layers_of(ground, _region("GB", "ENG")))
    assert (layer.act_below, layer.target, layer.target_from) == (act_below, target, "guideline")
    assert layer.facts["target_source"] == "ahdb"


def test_layers_without_an_aim_or_twice_the_same_ground_are_left_out() -> None:
    """30-60 lies beyond the rule, 10-30 covers ground that 10-20 has already."""
    found = {(0.0, 10.0): {"ph.cacl2": 5.0}, (10, 20): {"ph.cacl2": 4.5}, (10, 30): {"ph.cacl2": 4.5},
             (30, 60): {"ph.cacl2": 4.5}}  # fmt: skip
    layers = _layers(layers_of(basis("AU-WA", found), _region("AU", "WA")))
    assert [(one.result.top_cm, one.result.bottom_cm) for one in layers] == [(0, 10), (10, 20)]
    assert [one.act_below for one in layers] == [5.5, 4.8]


def test_targets_of_other_zones_do_not_count() -> None:
    """Nor those of another method."""
    region = _region("AU", "VIC")
    for target in (wanted_ph(4.8, "cacl2", ("home/other",)), wanted_ph(4.8, "water")):
        (layer,) = _layers(layers_of(topsoil("AU-VIC", ph_cacl2=4.5, targets=(target,)), region))
        assert layer.target == 5.5
    here = replace(wanted_ph(4.8, "cacl2", ("home/hill",)), land_uses=("crop",))
    (layer,) = _layers(layers_of(topsoil("AU-VIC", ph_cacl2=4.5, targets=(here,)), region))
    assert (layer.act_below, layer.target, layer.target_from) == (4.8, 4.8, "client")


def test_on_the_line_is_met() -> None:
    """Liming starts below it."""
    for ph, is_met in ((5.0, True), (4.9999, False)):
        (layer,) = _layers(layers_of(topsoil("AU-VIC", ph_cacl2=ph), _region("AU", "VIC")))
        assert layer.is_met is is_met
        assert layer.is_topsoil
