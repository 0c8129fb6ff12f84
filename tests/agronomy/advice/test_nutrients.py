"""Needs of nutrients: the working adds up, and what must hold whatever the result. Examples: `published_values`."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from math import fsum
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.agronomy.advice.applied import Applied, applied_of
from soilrota.agronomy.advice.nutrients import nutrient_need, value_of
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.cropping import CropYear
from soilrota.model.judgement import Rating, WhyNot
from soilrota.quantities import Refusal, convert
from tests.agronomy.advice.nutrient_cases import CORN_BUSHEL, case, crop, need, product, rating, spread
from tests.agronomy.counts import RANDOM_NEEDS

P, K, S = Input.PHOSPHORUS, Input.POTASSIUM, Input.SULPHUR
CORN = crop("corn", 220 * CORN_BUSHEL)
_TOPSOIL: dict[str, Any] = {"layer": (0, 10), "land_use": "pasture"}
_CORN: dict[str, Any] = {"crops": ("corn",)}
_PASTURE, _HAY = "southern-australia-pasture", crop("pasture", 6.0, "hay")
_OLSEN, _K_VOLUME = "phosphorus.olsen-by-volume", "potassium.ammonium-nitrate-by-volume"
_UK, _TRI_STATE = "united-kingdom", "tri-state-1995"
#: Every rule that there is: nutrient, analysis, set, what the row asks, the harvest, from where to where results go.
RULES: dict[str, tuple[Input, str, str, dict[str, Any], CropYear, float, float]] = {
    "build-up": (P, "phosphorus.colwell", _PASTURE, {**_TOPSOIL, "pbi": 100.0}, _HAY, 1, 120),
    "build-up-olsen": (P, "phosphorus.olsen", _PASTURE, _TOPSOIL, crop("pasture", 6.0, "milk"), 1, 60),
    "removal": (S, "sulphur.kcl-40", _PASTURE, _TOPSOIL, _HAY, 1, 40),
    "index-p": (P, _OLSEN, _UK, {}, crop("winter wheat", 8.0), 1, 120),
    "index-k": (K, _K_VOLUME, _UK, {}, crop("winter wheat", 8.0, "grain and straw"), 10, 800),
    "class-p": (P, "phosphorus.bray-1", "iowa-2013", _CORN, crop("corn", 260 * CORN_BUSHEL), 1, 60),
    "class-k": (K, "potassium.field-moist", "iowa-2013", _CORN, CORN, 10, 260),
    "formula-p": (P, "phosphorus.bray-1", _TRI_STATE, _CORN, CORN, 1, 70),
    "formula-k": (K, "potassium.ammonium-acetate", _TRI_STATE, {**_CORN, "exchange_capacity": 12.0}, CORN, 10, 400),
}
NAMES = sorted(RULES)


def at(name: str, value: float | str, **changes: object) -> Need:
    """Return the need by one of the rules at a result."""
    nutrient, code, set_, asked, row, _, _ = RULES[name]
    return need(nutrient, rating(code, value, set_, **asked), row, **changes)


@st.composite
def rule_and_results(draw: st.DrawFn) -> tuple[str, float, float]:
    """Return a rule and two results, the first the poorer."""
    name = draw(st.sampled_from(NAMES))
    low, high = RULES[name][-2:]
    first, second = (draw(st.floats(low, high)) for _ in range(2))
    return name, min(first, second), max(first, second)


def adds_up(one: Need) -> None:
    """Hold a need against its own working, its maxima and its range."""
    whole = fsum(step.amount for step in one.steps)
    least = min((cap.amount for cap in one.caps), default=whole)
    assert one.amount == pytest.approx(min(whole, least), abs=1e-9)
    assert 0 <= one.low <= one.amount + 1e-12
    assert one.amount <= one.high + 1e-12
    assert all(one.high <= cap.amount for cap in one.caps)


@settings(max_examples=RANDOM_NEEDS, deadline=None)
@given(rule_and_results())
def test_more_deficient_never_gets_less(drawn: tuple[str, float, float]) -> None:
    """All else equal; and every working adds up, every range holds its amount, no maximum is passed."""
    name, poor, rich = drawn
    poorer, richer = at(name, poor), at(name, rich)
    assert poorer.amount >= richer.amount - 1e-9
    adds_up(poorer)
    adds_up(richer)


@settings(max_examples=RANDOM_NEEDS, deadline=None)
@given(rule_and_results(), st.floats(0, 60), st.floats(0, 40))
def test_what_was_spread_is_taken_off_once(drawn: tuple[str, float, float], first: float, most: float) -> None:
    """The need falls by what was spread, to nought and no further; then maxima cut it."""
    name, value, _ = drawn
    nutrient = RULES[name][0]
    rows = (spread("x", first * 10), spread("x", 0.0))
    off = applied_of(rows, (product("x", **{nutrient.value: 10.0}),), nutrient)
    cap = Cap(most, "house")
    bare, less = at(name, value), at(name, value, applied=off, caps=(cap,))
    before = fsum(step.amount for step in bare.steps)
    closed = any(one.amount == 0 for one in bare.caps)
    assert less.amount == pytest.approx(0.0 if closed else min(most, max(0.0, before - first)), abs=1e-9)
    adds_up(less)


@settings(max_examples=RANDOM_NEEDS, deadline=None)
@given(rule_and_results(), st.floats(0.5, 3))
def test_what_the_harvest_takes_off_scales_with_yield(drawn: tuple[str, float, float], factor: float) -> None:
    """The rule's own part stays as it is, but for low classes of Iowa, which get the harvest's share at least."""
    name, value, _ = drawn
    nutrient, code, set_, asked, row, _, _ = RULES[name]
    assert row.target_yield is not None
    one, other = (
        need(nutrient, rating(code, value, set_, **asked), replace(row, target_yield=row.target_yield * by))
        for by in (1, factor)
    )
    taken = [sum(float(str(step.facts.get("removed", 0))) for step in two.steps) for two in (one, other)]
    assert taken[1] == pytest.approx(taken[0] * factor)
    assert other.steps[0].amount == pytest.approx(one.steps[0].amount)
    bigger, smaller = (other, one) if factor >= 1 else (one, other)
    assert bigger.amount >= smaller.amount - 1e-9


@pytest.mark.parametrize(
    ("name", "unit"), [("formula-p", "mg/kg P2O5"), ("build-up", "mg/kg P2O5"), ("formula-k", "cmol(+)/kg")]
)
def test_the_unit_changes_no_need(name: str, unit: str) -> None:
    """A laboratory may write another unit: what comes back of it gives the same need."""
    nutrient = RULES[name][0]
    for value in (3.0, 11.7, 29.9, 100.3):
        there = convert(value, "mg/kg", unit, nutrient.value)
        assert not isinstance(there, Refusal)
        back = convert(there, unit, "mg/kg", nutrient.value)
        assert not isinstance(back, Refusal)
        assert at(name, back).amount == pytest.approx(at(name, value).amount, rel=1e-9)


def test_build_up_over_years() -> None:
    """Half the years, twice the build-up a year; harvests beyond the years get no more of it."""
    four, two = at("build-up", 20), at("build-up", 20, years=2)
    assert two.steps[0].amount == pytest.approx(2 * four.steps[0].amount)
    nutrient, code, set_, asked, row, _, _ = RULES["build-up"]
    rows = tuple(replace(row, year=2024 + number) for number in range(4))
    over = need(nutrient, rating(code, 20, set_, **asked), *rows, years=2)
    assert over.steps[0].amount == pytest.approx(2 * two.steps[0].amount)
    assert sum(step.rule == "removal" for step in over.steps) == 4


def test_the_range_follows_from_the_doubt() -> None:
    """Of a better known result it is narrower; the factor's own range, 2 to 4 kg P a unit, is in it."""
    nutrient, code, set_, asked, row, _, _ = RULES["build-up"]
    rough = rating(code, 20, set_, **asked)
    fine = replace(rough, doubt=replace(rough.doubt, sd=0.0), critical_low=None, critical_high=None)
    wide, narrow = need(nutrient, rough, row), need(nutrient, fine, row)
    assert wide.low < narrow.low < narrow.amount < narrow.high < wide.high
    lacking = (fine.critical or 0) - 20
    assert narrow.high - narrow.amount == pytest.approx(lacking * 1 / 4)
    assert narrow.probability == fine.below


def test_a_value_below_what_the_laboratory_can_tell() -> None:
    """It may be anything from nothing to the limit: the middle is taken, the range holds all of it."""
    censored, at_limit, at_nought = at("build-up", "<5"), at("build-up", 5), at("build-up", 0.001)
    assert at_limit.amount <= censored.amount <= at_nought.amount
    assert censored.high >= at_nought.amount
    assert censored.low <= at_limit.amount


def test_a_value_above_what_the_laboratory_can_tell() -> None:
    """It is that limit at least: nothing is built up."""
    nutrient, code, set_, asked, row, _, _ = RULES["build-up"]
    found = rating(code, ">200", set_, **asked)
    assert value_of(found).low == 200
    assert need(nutrient, found, row).steps[0].amount == 0.0


def test_no_plan_is_said() -> None:
    """Without a plan the soil's part alone stands; a rate by crop cannot be given."""
    nutrient, code, set_, asked, _, _, _ = RULES["build-up"]
    bare = need(nutrient, rating(code, 20, set_, **asked))
    assert "removal-not-counted" in bare.cautions
    nutrient, code, set_, asked, _, _, _ = RULES["class-p"]
    refused = nutrient_need(case(nutrient, rating(code, 8, set_, **asked)))
    assert isinstance(refused, NoNeed)
    assert (refused.refused.why, refused.refused.facts["reason"]) == (WhyNot.RULE_VOID, "no-crop-plan")


def test_a_lack_that_nobody_sized_is_said() -> None:
    """Under the line, where no source says what lifts the test."""
    assert "build-up-not-sized" in at("removal", 4).cautions
    assert "build-up-not-sized" not in at("removal", 30).cautions


def test_low_classes_get_the_harvests_share_at_least() -> None:
    """Iowa prints 75 lb P2O5 for corn at low; 260 bushels take 83.2 off, which optimum gives back: so does low."""
    low, optimum = at("class-p", 13), at("class-p", 18)
    assert low.amount == pytest.approx(optimum.amount)


def test_the_formula_stops() -> None:
    """The harvest's share up to 15 ppm above the line, falling to nought over the next 10."""
    shares = [
        next(step.facts["share"] for step in at("formula-p", value).steps if step.rule == "removal")
        for value in (10, 30, 35, 40, 60)
    ]
    assert shares == [1.0, 1.0, 0.5, 0.0, 0.0]


def test_more_spread_than_needed_is_not_carried_on() -> None:
    """The need is nought, and a step brings the working back to it."""
    off = applied_of((spread("x", 500.0),), (product("x", phosphorus=20.0),), P)
    found = at("build-up", 20, applied=off)
    assert found.amount == 0
    assert found.steps[-1].rule == "not-below-nought"


def test_manure_widens_the_range_upwards() -> None:
    """All of it is taken off; the range holds that none of it is found."""
    dung = replace(product("dung", phosphorus=1.0), material_class="manure")
    off: Applied = applied_of((spread("dung", 1000.0, date(2027, 3, 1), material_class="manure"),), (dung,), P)
    bare, less = at("index-p", 12), at("index-p", 12, applied=off)
    assert less.amount == pytest.approx(bare.amount - 10)
    assert less.high >= bare.amount - 1e-9
    assert "manure-availability" in less.cautions


def test_sets_whose_classes_the_rates_do_not_know() -> None:
    """Own classes in the United Kingdom have no rate by Index: refused, not nought."""
    found: Rating = rating("phosphorus.olsen-by-volume", 12, "united-kingdom")
    own = replace(found, row=replace(found.row, classes=()))
    refused = nutrient_need(case(P, own, crop("wheat", 3.5, "grain")))
    assert isinstance(refused, NoNeed)
    assert refused.refused.facts["reason"] == "classes-unknown"
