"""How much lime: published examples end to end, and what must hold whatever the ground."""

from __future__ import annotations

from math import fsum
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.lime import LimeAsked, lime_need
from soilrota.agronomy.advice.working import part
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.model.advice import Input, Need, NoNeed
from soilrota.model.guideline import Status
from soilrota.model.judgement import WhyNot
from soilrota.quantities import Refusal, factor
from tests.agronomy.advice.grounds import basis, topsoil, wanted_ph

_POUND = factor("lb/ac", "kg/ha", "calcium")
assert not isinstance(_POUND, Refusal)
_SHORT_TON = 2000 * _POUND / 1000


def needed(*args: Any, **kwargs: Any) -> Need:
    """Return a need that must be there."""
    found = lime_need(*args, **kwargs)
    assert isinstance(found, Need), found
    return found


def refused(*args: Any) -> NoNeed:
    """Return a refusal that must be there."""
    found = lime_need(*args)
    assert isinstance(found, NoNeed)
    assert found.input is Input.LIME
    return found


# ---- published examples


def test_north_carolina_example() -> None:
    """NC, Lime from buffer pH: pH 5.0, target 6.0, acidity 1.2: 0.76 ton/ac (exactly 0.75)."""
    ground = topsoil("US-NC", ph_water=5.0, buffer_mehlich=6.3, targets=(wanted_ph(6.0),))
    assert needed(ground).amount == pytest.approx(0.76 * _SHORT_TON, abs=0.011 * _SHORT_TON)


def test_oregon_example() -> None:
    """Oregon, EM 9585: Sikora 6.0, target 5.6: 1.7 tons/ac."""
    ground = topsoil("US-OR", ph_water=5.2, buffer_sikora=6.0, targets=(wanted_ph(5.6),))
    assert needed(ground).amount == pytest.approx(1.7 * _SHORT_TON)


@pytest.mark.parametrize(("texture", "exact", "printed"), [("clay-loam", 2.70, 3), ("sandy-loam", 1.754, 2)])
def test_south_west_victorian_examples(texture: str, exact: float, printed: float) -> None:
    """Southern Farming Systems: 4.5 to 5.5, 0-10 cm, pure lime: about 3 t/ha on clay loam, about 2 on sandy loam."""
    need = needed(topsoil("AU-VIC", ph_cacl2=4.5, zone_of={"texture": texture}))
    assert need.amount == pytest.approx(exact, abs=0.005)
    assert need.amount == pytest.approx(printed, abs=0.5)


@pytest.mark.parametrize(
    ("ph", "arable"),
    [(6.2, (3.0, 3.5, 4.0)), (6.0, (4.2, 4.9, 5.6)), (5.5, (7.2, 8.4, 9.6)), (5.0, (10.2, 11.9, 13.6))],
)
def test_table_of_the_united_kingdom(ph: float, arable: tuple[float, ...]) -> None:
    """(Target less pH) times the lime factor, in limestone of 54 as CaO, which is 0.964 of pure (RB209, unverified)."""
    for texture, rate in zip(("sand", "sandy-loam", "clay-loam"), arable, strict=True):
        need = needed(topsoil("GB-ENG", ph_water=ph, zone_of={"texture": texture}))
        assert need.amount == pytest.approx(rate * 0.964, abs=0.005)
        assert need.steps[0].status is Status.UNVERIFIED


def test_table_of_new_south_wales() -> None:
    """AC.19 (unverified): capacity 5, from 4.3 to 5.2: 2.5 t/ha of lime above 95 %; below the table its last line."""
    at = {ph: needed(topsoil("AU-NSW", ph_cacl2=ph, capacity=5)) for ph in (4.3, 4.5, 4.0, 3.6)}
    assert at[4.3].amount == pytest.approx(2.5 * 0.95)
    assert at[4.5].amount == pytest.approx((2.5 + 1.1) / 2 * 0.95)
    assert at[3.6].amount == at[4.0].amount == pytest.approx(4.7 * 0.95)
    assert "beyond-table" in at[3.6].cautions
    assert "beyond-table" not in at[4.0].cautions


def test_pennsylvania() -> None:
    """Penn State: 840 lb/ac for each unit of acidity above 4; 2000 where there is less and pH is below 6.5."""
    for acidity, pounds in ((9.0, 7560), (3.0, 2000)):
        need = needed(topsoil("US-PA", ph_water=5.8, acidity=acidity))
        assert need.amount == pytest.approx(pounds * _SHORT_TON / 2000)


def test_iowa() -> None:
    """PM 1688 (unverified): buffer 6.5, to 6.5: 2794 lb/ac for 6 inches; twice that for 12."""
    ground = topsoil("US-IA", ph_water=5.8, buffer_sikora=6.5, targets=(wanted_ph(6.5),))
    assert needed(ground).amount == pytest.approx(2793.5 * _SHORT_TON / 2000)
    assert needed(ground, LimeAsked(depth_cm=30.48)).amount == pytest.approx(2 * 2793.5 * _SHORT_TON / 2000)


# ---- layers


def test_layers_below_add_where_they_are_more_acid_than_their_own_aim() -> None:
    """0-10 and 10-20 cm are added up, 20-30 is met; the aim of lower layers is 4.8."""
    need = needed(
        basis(
            "AU-VIC",
            {(0, 10): {"ph.cacl2": 4.5}, (10, 20): {"ph.cacl2": 4.4}, (20, 30): {"ph.cacl2": 5.0}},
            texture="clay-loam",
        )
    )
    assert [step.rule for step in need.steps] == ["lift-topsoil", "lift-below", "target-met"]
    assert [step.amount for step in need.steps] == pytest.approx([1 / 0.37, 0.4 / 0.37, 0])
    assert {"deep-lime-is-slow", "incorporate", "topsoil-property"} <= set(need.cautions)
    assert need.steps[1].facts["target_source"] == "wa-program"


def test_a_lower_layer_is_not_limed_twice() -> None:
    """Where the topsoil's lime is for 20 cm, 10-20 cm has it already."""
    ground = basis("AU-VIC", {(0, 10): {"ph.cacl2": 4.5}, (10, 20): {"ph.cacl2": 4.4}}, texture="clay-loam")
    assert needed(ground, LimeAsked(depth_cm=20)).amount == pytest.approx(2 / 0.37)


def test_organic_carbon_asks_for_more() -> None:
    """Southern Farming Systems: 0.4 t/ha more where organic carbon is above 1.2 %."""
    plain, rich = (
        needed(topsoil("AU-VIC", ph_cacl2=4.5, carbon=carbon, zone_of={"texture": "clay-loam"}))
        for carbon in (1.2, 1.3)
    )
    assert rich.amount - plain.amount == pytest.approx(0.4)


def test_the_middle_of_the_targets_needs_nothing() -> None:
    """Between where liming starts and what it lifts to nothing is limed, though the doubt may want some."""
    need = needed(topsoil("GB-ENG", ph_water=6.5, zone_of={"texture": "clay-loam"}))
    assert (need.amount, need.low) == (0, 0)
    assert need.steps[0].rule == "target-met"
    assert need.high > 0
    assert need.cautions == ()
    assert need.probability == pytest.approx(0.5)


# ---- what there is nothing for


def test_regions_without_a_rule() -> None:
    """No rule at all, a target alone, a texture without a factor, no target: each says so."""
    assert refused(topsoil("NZ", ph_water=5.0)).refused.facts == {
        "region": "NZ", "land_use": "crop", "reason": "no-rule-here",
    }  # fmt: skip
    assert refused(topsoil("AU-WA", ph_cacl2=5.0)).refused.facts["reason"] == "no-rate-rule"
    assert refused(topsoil("GB-ENG", ph_water=5.0, zone_of={"texture": "gravel"})).refused.why is WhyNot.OTHER_GROUND
    assert refused(topsoil("AU-VIC", ph_cacl2=4.5, zone_of={"texture": "peat"})).refused.why is WhyNot.OTHER_GROUND
    assert refused(topsoil("GB-ENG", ph_water=5.0, zone_of={"texture": ""})).refused.why is WhyNot.COVARIATE_MISSING
    assert refused(topsoil("US-OR", ph_water=5.0, buffer_sikora=6.0)).refused.facts["reason"] == "no-target"


def test_a_met_target_needs_no_rate() -> None:
    """In Western Australia no rate was read, yet a topsoil at its target needs none."""
    need = needed(topsoil("AU-WA", ph_cacl2=5.6))
    assert (need.amount, need.cautions) == (0, ("range-not-reckoned",))


def test_a_texture_between_two_named_ones() -> None:
    """Loam in Victoria: the middle of sandy loam and clay loam, both of them the range, and not verified."""
    need = needed(topsoil("AU-VIC", ph_cacl2=4.5, zone_of={"texture": "loam"}))
    assert need.amount == pytest.approx(1 / 0.47)
    assert need.low < 1 / 0.57 < 1 / 0.37 < need.high
    assert need.steps[0].facts["between"] == ("sandy-loam", "clay-loam")
    assert need.steps[0].status is Status.UNVERIFIED


def test_what_was_not_measured() -> None:
    """By another method pH is never converted; a buffer, a capacity, a topsoil must be there."""
    assert refused(topsoil("AU-VIC", ph_water=5.0)).refused.facts == {"method": "water", "methods": ("cacl2",)}
    assert refused(topsoil("AU-VIC")).refused.facts == {"needs": ("ph.cacl2",)}
    assert refused(topsoil("AU-NSW", ph_cacl2=4.6)).refused.facts == {"needs": ("exchange-capacity",)}
    assert refused(topsoil("US-PA", ph_water=5.0)).refused.facts == {"needs": ("exchange-acidity.mehlich-buffer",)}
    assert refused(basis("AU-VIC", {(10, 20): {"ph.cacl2": 4.5}})).refused.why is WhyNot.OTHER_LAYER
    assert refused(basis("AU-VIC", {(0, 10): {"ph.cacl2": "<4.0"}})).refused.why is WhyNot.CENSORED


def test_outside_a_table() -> None:
    """Capacity above 15, a buffer within the step of Oregon's table, a target that it does not print."""
    assert refused(topsoil("AU-NSW", ph_cacl2=4.6, capacity=16)).refused.why is WhyNot.OUTSIDE_CALIBRATION
    step = topsoil("US-OR", ph_water=5.0, buffer_sikora=5.75, targets=(wanted_ph(5.6),))
    assert refused(step).refused.why is WhyNot.OUTSIDE_CALIBRATION
    odd = topsoil("US-OR", ph_water=5.0, buffer_sikora=6.0, targets=(wanted_ph(5.7),))
    assert refused(odd).refused.facts["reason"] == "target-not-in-rule"


def test_a_client_asks_for_less_and_never_for_more() -> None:
    """A client's target below the guideline's counts, one above it does not."""
    ground = {ph: topsoil("AU-VIC", ph_cacl2=4.5, zone_of={"texture": "clay-loam"}, targets=(wanted_ph(ph, "cacl2"),))
              for ph in (4.8, 6.5)}  # fmt: skip
    assert needed(ground[4.8]).amount == pytest.approx(0.3 / 0.37)
    assert needed(ground[4.8]).steps[0].facts["target_from"] == "client"
    assert needed(ground[6.5]).amount == pytest.approx(1 / 0.37)
    assert needed(ground[6.5]).steps[0].facts["target_from"] == "guideline"


# ---- dressings


def test_united_kingdom_dressings() -> None:
    """More than 10 t/ha on arable land goes on in two, never more than 20 together; less than 2 is not spread."""
    split = needed(topsoil("GB-ENG", ph_water=5.0, zone_of={"texture": "clay-loam"}))
    assert split.split == pytest.approx((13.6 * 0.964 / 2,) * 2)
    assert "retest-before-second-dressing" in split.cautions
    peat = needed(topsoil("GB-ENG", ph_water=4.0, zone_of={"texture": "peat"}))
    assert peat.amount == peat.high == peat.caps[0].amount == pytest.approx(20 * 0.964)
    assert "more-may-be-needed-later" in peat.cautions
    little = needed(topsoil("GB-ENG", ph_water=6.45, zone_of={"texture": "sand"}))
    assert little.amount == 0
    assert little.steps[-1].rule == "too-little-to-spread"
    assert fsum(step.amount for step in little.steps) == 0
    assert "too-little-to-spread" in little.cautions


def test_grass_keeps_lime_on_top() -> None:
    """More than 7 t/ha is split on grass, and nothing is worked in."""
    need = needed(topsoil("GB-ENG", ph_water=4.9, zone_of={"texture": "clay-loam", "land_use": "pasture"}))
    assert need.amount == pytest.approx(1.3 * 6 * 0.964)
    assert len(need.split) == 2
    assert "surface-only-grass" in need.cautions
    assert "incorporate" not in need.cautions


def test_more_than_a_dressing_is_worked_in_where_land_is_cultivated() -> None:
    """Victoria: above 4 t/ha on clay loam, worked in on a crop's land, split on pasture."""
    layers = {(0, 10): {"ph.cacl2": 4.0}, (10, 20): {"ph.cacl2": 4.4}}
    crop = needed(basis("AU-VIC", layers, texture="clay-loam"))
    grass = needed(basis("AU-VIC", layers, texture="clay-loam", land_use="pasture"))
    assert crop.amount == grass.amount > 4
    assert (crop.split, len(grass.split)) == ((), 2)
    assert "incorporate" in crop.cautions


# ---- further parts


def test_maintenance_only_where_it_was_asked() -> None:
    """Acid that is made good adds its own step, also where the target is met."""
    acid = part("acid-made-good", Doubtful(0.6, 0.4, 0.8))
    met = topsoil("AU-VIC", ph_cacl2=5.8, zone_of={"texture": "clay-loam"})
    acid_soil = topsoil("AU-VIC", ph_cacl2=4.5, zone_of={"texture": "clay-loam"})
    assert needed(met).amount == 0
    assert needed(met, LimeAsked(others=(acid,))).amount == pytest.approx(0.6)
    more = needed(acid_soil, LimeAsked(others=(acid,)))
    assert more.amount - needed(acid_soil).amount == pytest.approx(0.6)
    assert more.steps[-1].rule == "acid-made-good"


def test_what_was_applied_is_taken_off() -> None:
    """Below nought nothing is needed."""
    ground = topsoil("AU-VIC", ph_cacl2=4.5, zone_of={"texture": "clay-loam"})
    assert needed(ground, LimeAsked(others=(part("already-applied", -1.0),))).amount == pytest.approx(1 / 0.37 - 1)
    assert needed(ground, LimeAsked(others=(part("already-applied", -9.0),))).amount == 0


# ---- whatever the ground

_PLACES = st.sampled_from([
    ("GB-ENG", "ph.water", {}, "crop"), ("GB-ENG", "ph.water", {}, "pasture"), ("AU-VIC", "ph.cacl2", {}, "crop"),
    ("AU-VIC", "ph.cacl2", {}, "pasture"), ("AU-SA", "ph.cacl2", {}, "crop"),
    ("AU-NSW", "ph.cacl2", {"exchange-capacity.effective": 6.3}, "crop"),
    ("US-OR", "ph.water", {"buffer-ph.sikora": 6.15}, "hay"), ("US-NC", "ph.water", {"buffer-ph.mehlich": 6.1}, "crop"),
    ("US-PA", "ph.water", {"exchange-acidity.mehlich-buffer": 6.0}, "crop"),
    ("US-IA", "ph.water", {"buffer-ph.sikora": 6.4}, "crop"),
])  # fmt: skip
_TEXTURES = st.sampled_from(["sand", "sandy-loam", "clay-loam"])
_PH = st.floats(3.2, 7.5)
_US = {"US-OR": 6.4, "US-NC": 6.0, "US-IA": 6.5}


def _ground(where: tuple[str, str, dict[str, float], str], texture: str, *phs: float) -> Any:
    """Return ground with pH of 0-10, and of 10-20 cm where there is a second."""
    place, code, beside, land_use = where
    layers: dict[tuple[float, float], dict[str, float | str]] = {
        (10.0 * at, 10.0 * at + 10): {code: ph} for at, ph in enumerate(phs)
    }
    layers[0, 10] |= beside
    targets = (wanted_ph(_US[place]),) if place in _US else ()
    return basis(place, layers, targets=targets, texture=texture, land_use=land_use)


@given(_PLACES, _TEXTURES, st.tuples(_PH, _PH), st.tuples(st.floats(0, 1.5), st.floats(0, 1.5)))
def test_more_acid_never_gets_less(
    where: Any, texture: str, phs: tuple[float, float], less: tuple[float, float]
) -> None:
    """Whatever the region, in either layer."""
    plain = needed(_ground(where, texture, *phs))
    acid = needed(_ground(where, texture, *(ph - by for ph, by in zip(phs, less, strict=True))))
    assert acid.amount >= plain.amount - 1e-9


_BUFFERED = st.sampled_from([("US-NC", "buffer_mehlich", -1), ("US-IA", "buffer_sikora", -1), ("US-PA", "acidity", 1)])


@given(_BUFFERED, st.floats(4, 6.4), st.floats(4.5, 7), st.floats(0, 2))
def test_more_acidity_in_the_buffer_never_gets_less(
    where: tuple[str, str, int], ph: float, at: float, more: float
) -> None:
    """A lower buffer, or more acidity, at the same pH of the soil."""
    place, code, way = where
    targets = (wanted_ph(6.5),)
    plain, acid = (
        needed(topsoil(place, ph_water=ph, targets=targets, **{code: value})) for value in (at, at + way * more)
    )
    assert acid.amount >= plain.amount - 1e-9


@given(_PLACES, _TEXTURES, _PH, _PH)
def test_a_need_is_whole(where: Any, texture: str, ph: float, lower: float) -> None:
    """Its range holds it, no maximum is passed, its steps and its dressings add up."""
    need = needed(_ground(where, texture, ph, lower))
    assert 0 <= need.low <= need.amount <= need.high
    assert need.high <= need.caps[0].amount + 1e-9
    assert need.amount == pytest.approx(min(fsum(step.amount for step in need.steps), need.caps[0].amount))
    assert not need.split or fsum(need.split) == pytest.approx(need.amount)
    assert all(one <= float(need.caps[0].facts["one_dressing"]) + 1e-9 for one in need.split)  # type: ignore[arg-type]
    assert need.probability is not None
    assert 0 <= need.probability <= 1
    assert bool(need.cautions) or need.amount == 0


@given(st.sampled_from(["AU-VIC", "AU-SA", "GB-ENG"]), _TEXTURES, _PH, st.floats(5, 30), st.floats(1, 3))
def test_rates_scale_with_depth(place: str, texture: str, ph: float, depth: float, times: float) -> None:
    """Before what is too little and before maxima."""
    code = "ph.water" if place == "GB-ENG" else "ph.cacl2"
    ground = basis(place, {(0, 10): {code: ph}}, texture=texture)
    once, more = (needed(ground, LimeAsked(depth_cm=cm)) for cm in (depth, depth * times))
    assert more.steps[0].amount == pytest.approx(once.steps[0].amount * times)
    assert more.amount >= once.amount


@given(st.floats(3.5, 4.9), st.floats(3.5, 4.9))
def test_two_layers_share_the_doubt_of_their_texture(ph: float, lower: float) -> None:
    """The range is wider than it were if each layer's factor erred on its own."""
    need = needed(basis("AU-VIC", {(0, 10): {"ph.cacl2": ph}, (10, 20): {"ph.cacl2": lower}}, texture="heavy-clay"))
    single = needed(basis("AU-VIC", {(0, 10): {"ph.cacl2": ph}}, texture="heavy-clay"))
    assert need.high >= single.high or need.high == pytest.approx(single.high)
