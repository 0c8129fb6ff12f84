"""How much gypsum: a published example end to end, and what must hold whatever the ground."""

from __future__ import annotations

from dataclasses import replace
from math import fsum
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.advice.gypsum import GypsumAsked, gypsum_need
from soilrota.agronomy.derived import derived_quantities
from soilrota.agronomy.rating import rate_quantity
from soilrota.agronomy.row_choice import Ground
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.advice import Input, Need, NoNeed
from soilrota.model.guideline import GuidelineSet
from soilrota.model.judgement import Rating, WhyNot
from soilrota.model.results import Result
from soilrota.quantities import Refusal, convert
from tests.agronomy.derived.bags import result, zone

_SETS = (guideline_sets()["constraints-australia"],)
_SUM = "calcium.exchangeable", "magnesium.exchangeable", "potassium.exchangeable", "sodium.exchangeable"


def soil(capacity: float, share: float, layer: tuple[float, float] = (0, 10)) -> list[Result]:
    """Return the cations of a layer that is not acid: so much capacity [cmol(+)/kg], so much of it sodium [%]."""
    sodium = capacity * share / 100
    rest = capacity - sodium
    values = dict(zip(_SUM, (0.65 * rest, 0.3 * rest, 0.05 * rest, sodium), strict=True))
    return [result(code, value, layer=layer) for code, value in {**values, "ph.cacl2": 7.0}.items()]


def ground(*layers: list[Result], sets: tuple[GuidelineSet, ...] = _SETS, **changes: Any) -> Basis:
    """Return rated ground."""
    land = zone(**changes)
    quantities = tuple(one for layer in layers for one in derived_quantities(layer, land)[0])
    judged = [rate_quantity(one, sets, Ground(land_use=land.land_use)) for one in quantities]
    return Basis(
        zone=land,
        country="AU",
        subdivision="VIC",
        results=tuple(one for layer in layers for one in layer),
        ratings=tuple(one for one in judged if isinstance(one, Rating)),
        quantities=quantities,
    )


def needed(basis: Basis, **asked: Any) -> Need:
    """Return a need that must be there."""
    found = gypsum_need(basis, GypsumAsked(**asked))
    assert isinstance(found, Need), found
    return found


def refused(basis: Basis) -> NoNeed:
    """Return a refusal that must be there."""
    found = gypsum_need(basis)
    assert isinstance(found, NoNeed)
    assert found.input is Input.GYPSUM
    return found


def test_published_example() -> None:
    """Capacity 40, 25 % sodium, 15 cm at 1.25 g/cm3, all of it replaced: 16.125 t/ha (exactly 16.141), before F."""
    need = needed(ground(soil(40, 25, (0, 15)), bulk_density=1.25), target_percent=0)
    assert need.steps[0].amount == pytest.approx(16.141, abs=0.001)
    assert need.steps[0].amount == pytest.approx(16.125, abs=0.02)
    assert need.steps[1].amount == pytest.approx(0.2 * 16.141, abs=0.001)
    assert need.amount == need.caps[0].amount == 10
    assert "more-may-be-needed-later" in need.cautions


def test_down_to_the_line_of_the_guideline() -> None:
    """10 % of 20 to 6 %: 0.8 cmol(+)/kg in 10 cm at 1.3, times 1.2."""
    need = needed(ground(soil(20, 10), bulk_density=1.3))
    assert need.amount == pytest.approx(0.086086 * 10 * 1.3 * 0.8 * 1.2)
    assert need.steps[0].facts["sodium"] == pytest.approx(0.8)
    assert need.rating is not None
    assert need.rating.name == "sodic"
    assert need.probability is not None
    assert need.probability > 0.9
    assert {"drainage-first", "not-where-saline-without-drainage", "dissolves-slowly"} <= set(need.cautions)


def test_below_the_line_nothing_is_needed() -> None:
    """The doubt may still want some; no caution without an amount."""
    need = needed(ground(soil(20, 5.5)))
    assert (need.amount, need.low, need.cautions, need.steps[0].rule) == (0, 0, (), "target-met")
    assert need.high > 0
    assert needed(ground(soil(20, 1.0))).high == 0


def test_gravel_holds_no_sodium() -> None:
    """A fifth of the volume is gravel: a fifth less."""
    plain, stony = (needed(ground(soil(20, 10), gravel_percent=percent)).amount for percent in (None, 20.0))
    assert stony == pytest.approx(0.8 * plain)


def test_deeper_layers_only_where_asked() -> None:
    """The topsoil alone, unless a depth is named; deeper figures are the topsoil's, and that is said."""
    basis = ground(soil(20, 10), soil(25, 12, (10, 20)), soil(25, 20, (20, 40)), bulk_density=1.3)
    alone, deeper = needed(basis), needed(basis, to_cm=20)
    assert len(alone.steps) == 2
    assert len(deeper.steps) == 4
    assert deeper.amount > alone.amount
    assert "topsoil-property" in deeper.cautions
    assert "topsoil-property" not in alone.cautions


def test_large_needs_are_split() -> None:
    """More than 5 t/ha goes on in two dressings."""
    need = needed(ground(soil(30, 25), bulk_density=1.2))
    assert need.amount > 5
    assert need.split == pytest.approx((need.amount / 2,) * 2)
    assert "retest-before-second-dressing" in need.cautions


def test_where_there_is_nothing_to_say() -> None:
    """Sodium not measured, a set that does not speak of it, only a subsoil, no bulk density."""
    assert refused(ground([result("ph.cacl2", 7.0)])).refused.facts == {"needs": ("sodium-share",)}
    silent = replace(_SETS[0], rows=tuple(row for row in _SETS[0].rows if row.analyte != "sodium-share"))
    assert refused(ground(soil(20, 10), sets=(silent,))).refused.why is WhyNot.NOT_IN_SET
    lineless = replace(_SETS[0], rows=tuple(replace(row, critical=None) for row in _SETS[0].rows))
    assert refused(ground(soil(20, 10), sets=(lineless,))).refused.why is WhyNot.NOT_IN_SET
    assert refused(ground(soil(20, 10, (10, 20)))).refused.why is WhyNot.OTHER_LAYER
    assert refused(ground(soil(20, 10), texture="")).refused.facts == {"needs": ("bulk-density", "texture")}
    assert needed(ground(soil(20, 2), texture="")).amount == 0


def test_salts_that_were_not_taken_off_are_told() -> None:
    """Salty, and no chloride measured."""
    need = needed(ground([*soil(20, 10), result("conductivity.ec-1-5", 0.8)]))
    assert "sodium-uncorrected" in need.cautions


@given(st.floats(2, 60), st.floats(0.5, 40), st.floats(0, 20), st.floats(1.0, 1.7))
def test_more_sodium_never_gets_less_and_a_need_is_whole(
    capacity: float, share: float, more: float, density: float
) -> None:
    """Range, maximum, steps and dressings hold together."""
    plain = needed(ground(soil(capacity, share), bulk_density=density))
    sodic = needed(ground(soil(capacity, share + more), bulk_density=density))
    assert sodic.amount >= plain.amount - 1e-9
    assert 0 <= plain.low <= plain.amount <= plain.high <= plain.caps[0].amount
    assert plain.amount == pytest.approx(min(fsum(step.amount for step in plain.steps), plain.caps[0].amount))
    assert not plain.split or fsum(plain.split) == pytest.approx(plain.amount)


@given(st.floats(5, 30), st.floats(7, 30), st.floats(5, 15), st.floats(1, 3))
def test_rates_scale_with_depth(capacity: float, share: float, depth: float, times: float) -> None:
    """Before maxima."""
    once, more = (needed(ground(soil(capacity, share, (0, cm)))) for cm in (depth, depth * times))
    assert more.steps[0].amount == pytest.approx(times * once.steps[0].amount)


@given(st.floats(5, 40), st.floats(1, 30), st.sampled_from(["mg/kg", "mmol(+)/kg"]))
def test_units_change_nothing(capacity: float, share: float, unit: str) -> None:
    """Sodium in milligrams, or in thousandths of a charge."""

    def other(one: Result) -> Result:
        value = convert(one.value, one.unit, unit, one.analyte)
        assert not isinstance(value, Refusal)
        return replace(one, value=value, unit=unit)

    plain = soil(capacity, share)
    same = [other(one) if one.analyte == "sodium" else one for one in plain]
    first, second = needed(ground(plain)), needed(ground(same))
    assert (second.low, second.amount, second.high) == pytest.approx((first.low, first.amount, first.high))
