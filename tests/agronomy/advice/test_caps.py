"""Maxima bind, the least first."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.caps import binding_first, within
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.model.advice import Cap


def test_the_binding_maximum_comes_first() -> None:
    """From the least on; equal ones keep their order."""
    assert [cap.rule for cap in binding_first([Cap(5, "law"), Cap(3, "table"), Cap(3, "later")])] == [
        "table",
        "later",
        "law",
    ]


@given(st.floats(-9, 9), st.floats(0, 9), st.lists(st.floats(-1, 9), max_size=3))
def test_nothing_passes_a_maximum_or_falls_below_nought(value: float, doubt: float, maxima: list[float]) -> None:
    """Neither the amount nor an end of its range."""
    found = within(Doubtful(value, value - doubt, value + doubt), [Cap(most, "a") for most in maxima])
    assert 0 <= found.low <= found.value <= found.high
    assert all(found.high <= max(0.0, most) for most in maxima)


def test_without_a_maximum_only_nought_binds() -> None:
    """What is above stays."""
    assert within(Doubtful(-2, -5, 3)) == Doubtful(0, 0, 3)
