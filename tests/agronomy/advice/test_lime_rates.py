"""Rates by texture and by exchange capacity."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.basis import Basis
from soilrota.agronomy.advice.lime import lime_need
from soilrota.agronomy.advice.lime_rates import capacity_curve, of_texture, read_off, unknown_texture, within_class
from soilrota.agronomy.derived import derived_quantities
from soilrota.guidelines.lime_rules import rule_row
from soilrota.model.advice import Need
from soilrota.model.judgement import WhyNot
from soilrota.model.results import Result
from soilrota.quantities import Refusal, convert
from tests.agronomy.advice.grounds import topsoil
from tests.agronomy.derived.bags import CATIONS, result, zone


@given(st.lists(st.tuples(st.floats(0, 10), st.floats(-5, 5)), min_size=2, max_size=6, unique_by=lambda one: one[0]),
       st.floats(-2, 12))  # fmt: skip
def test_a_curve_is_read_as_numpy_reads_it(points: list[tuple[float, float]], at: float) -> None:
    """Straight lines between points, level beyond them."""
    places, values = zip(*sorted(points), strict=True)
    if min(np.diff(places)) > 1e-6:
        assert read_off(points, at) == pytest.approx(np.interp(at, places, values), abs=1e-6)


@pytest.mark.parametrize("line", rule_row("new-south-wales")["capacities"], ids=lambda line: str(line["capacity"]))
def test_every_printed_rate_comes_out(line: dict[str, object]) -> None:
    """AC.19 (unverified): from each start to its end, at each capacity."""
    curve = capacity_curve(float(str(line["capacity"])))
    row, rates = rule_row("new-south-wales"), line["rates"]
    assert isinstance(rates, list)
    for start, end, rate in zip(row["starts"], row["ends"], rates, strict=True):
        assert read_off(curve, start) - read_off(curve, end) == pytest.approx(rate)


def test_a_class_reaches_half_way_to_its_neighbours() -> None:
    """Mirrored at an end; a quarter either side where it has no neighbour."""
    found = [within_class(value, [6, 7, 9]) for value in (6, 7, 9)]
    assert [(one.low, one.high) for one in found] == [(5.5, 6.5), (6.5, 8), (8, 10)]
    alone = within_class(16, [])
    assert (alone.low, alone.high) == (12, 20)


def test_a_texture_is_named_or_lies_between_or_is_refused() -> None:
    """The rule's own figure goes first; one neighbour without a figure is not enough."""
    named = of_texture("loam", {"loam": 3.0, "sandy-loam": 2.0, "clay-loam": 4.0}.get, [2, 3, 4])
    between = of_texture("loam", {"sandy-loam": 2.0, "clay-loam": 4.0}.get, [2, 4])
    assert named is not None
    assert between is not None
    assert (named.amount.low, named.amount.value, named.amount.high, named.between) == (2.5, 3, 3.5, ())
    assert (between.amount.low, between.amount.value, between.amount.high) == (2, 3, 4)
    assert of_texture("loam", {"sandy-loam": 2.0}.get, [2]) is None
    assert of_texture("gravel", {"sandy-loam": 2.0}.get, [2]) is None


def test_a_texture_that_is_not_known_is_not_one_that_is_not_named() -> None:
    """The map does not say; or the rule does not."""
    rows = [{"textures": ["sand"]}, {"textures": ["peat"]}]
    assert unknown_texture("", rows).why is WhyNot.COVARIATE_MISSING
    assert unknown_texture("loam", rows).facts == {"textures": ("sand", "peat")}


def _reckoned(cations: list[Result]) -> Need:
    """Return the need of New South Wales by the capacity that is reckoned of cations."""
    everything = [*cations, result("ph.cacl2", 4.5)]
    quantities, _ = derived_quantities(everything, zone())
    found = lime_need(Basis(zone(), "AU", "NSW", tuple(everything), quantities=quantities))
    assert isinstance(found, Need)
    return found


def test_units_of_cations_change_nothing() -> None:
    """Milligrams or charge: the same capacity, the same lime; the quantity goes with the need."""

    def other(one: Result) -> Result:
        value = convert(one.value, one.unit, "mg/kg", one.analyte)
        assert not isinstance(value, Refusal)
        return replace(one, value=value, unit="mg/kg")

    plain = [result(code, value) for code, value in CATIONS.items()]
    first, second = _reckoned(plain), _reckoned([other(one) for one in plain])
    assert (first.low, first.amount, first.high) == pytest.approx((second.low, second.amount, second.high))
    assert first.quantities[0].value == pytest.approx(12.0)


def test_units_of_a_reported_capacity_change_nothing() -> None:
    """50 mmol(+)/kg are 5 cmol(+)/kg."""
    ground = topsoil("AU-NSW", ph_cacl2=4.3, capacity=5.0)
    others = tuple(
        replace(one, value=50.0, unit="mmol(+)/kg") if one.analyte == "exchange-capacity" else one
        for one in ground.results
    )
    first, second = lime_need(ground), lime_need(replace(ground, results=others))
    assert isinstance(first, Need)
    assert isinstance(second, Need)
    assert second.amount == pytest.approx(first.amount)


def test_the_doubt_of_the_capacity_widens_the_range() -> None:
    """More is not known, more may be needed."""
    need = _reckoned([result(code, value) for code, value in CATIONS.items()])
    assert need.low < need.amount < need.high
