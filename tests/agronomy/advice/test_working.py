"""Parts add up, with their ranges in quadrature, and needs stay within nought and the maxima."""

from __future__ import annotations

from math import fsum, hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.working import Beside, need_of, part, total
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.guidelines.cited import Cited
from soilrota.model.advice import Cap, Input
from soilrota.model.guideline import Source, Status

_SOURCE = Source("made", "Nobody", 2020, "Figures for tests")
_AMOUNTS = st.tuples(st.floats(-50, 50), st.floats(0, 20), st.floats(0, 20))


@given(st.lists(_AMOUNTS, max_size=6))
def test_values_add_up_and_doubts_add_in_quadrature(drawn: list[tuple[float, float, float]]) -> None:
    """Each side by itself."""
    found = total([part("x", Doubtful(value, value - down, value + up)) for value, down, up in drawn])
    value = fsum(one[0] for one in drawn)
    assert found.value == pytest.approx(value)
    assert found.low == pytest.approx(value - hypot(*(one[1] for one in drawn)))
    assert found.high == pytest.approx(value + hypot(*(one[2] for one in drawn)))


@given(st.lists(_AMOUNTS, min_size=1, max_size=6), st.lists(st.floats(0, 60), max_size=3))
def test_need_lies_in_its_range_within_nought_and_the_maxima(
    drawn: list[tuple[float, float, float]], maxima: list[float]
) -> None:
    """Whatever its parts and maxima."""
    parts = [part("x", Doubtful(value, value - down, value + up)) for value, down, up in drawn]
    need = need_of(("home", "hill"), Input.LIME, parts, [Cap(most, "a") for most in maxima])
    assert 0 <= need.low <= need.amount <= need.high
    assert need.high <= min(maxima, default=need.high)
    before = fsum(step.amount for step in need.steps)
    assert need.amount == pytest.approx(max(0.0, min([before, *maxima])))


def test_the_whole_stands_for_parts_that_share_a_doubt() -> None:
    """Its range is what the caller worked out."""
    parts = [part("topsoil", Doubtful(2, 1, 3)), part("below", Doubtful(2, 1, 3))]
    need = need_of(("home", "hill"), Input.LIME, parts, whole=Doubtful(4, 2, 6))
    assert (need.low, need.amount, need.high) == (2, 4, 6)


def test_step_keeps_what_stands_behind_it() -> None:
    """Plain arithmetic has no source."""
    step = part("factor", 3.0, {"ph": 5.2}, Cited(_SOURCE, Status.UNVERIFIED)).step
    assert (step.rule, step.amount, step.facts, step.source, step.status) == (
        "factor", 3.0, {"ph": 5.2}, _SOURCE, Status.UNVERIFIED,
    )  # fmt: skip
    plain = part("sum", 1.0).step
    assert (plain.source, plain.status) == (None, Status.VERIFIED)


def test_cautions_are_kept_once_in_their_order() -> None:
    """However often a step names them."""
    need = need_of(("home", "hill"), Input.LIME, [part("x", 1.0)], beside=Beside(cautions=("b", "a", "b")))
    assert need.cautions == ("b", "a")
