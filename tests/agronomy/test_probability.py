"""The probability of lying under a line: monotone, symmetric, free of units, and calibrated."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.agronomy.probability import (
    chance_of_difference,
    is_near,
    least_difference,
    probability_under,
    quantile,
)
from soilrota.model.judgement import Doubt
from tests.agronomy.counts import RELIABILITY_CASES
from tests.agronomy.simulated import reliability

VALUES = st.floats(0.01, 1000)
SPREADS = st.floats(0.01, 2)


def doubt(sd: float, *, log: bool = True) -> Doubt:
    """Return a doubt of so much."""
    return Doubt(sd, log, sd, 0.0, "a test")


@settings(deadline=None)
@given(VALUES, VALUES, VALUES, SPREADS, st.booleans())
def test_a_higher_value_is_less_probably_under(first: float, second: float, line: float, sd: float, log: bool) -> None:
    """Monotone in the value, and in the line the other way; always a probability."""
    low, high = sorted((first, second))
    held = doubt(sd, log=log)
    under_low, under_high = probability_under(low, held, line), probability_under(high, held, line)
    assert 0 <= under_high <= under_low <= 1
    assert probability_under(line, held, low) <= probability_under(line, held, high)


@settings(deadline=None)
@given(VALUES, VALUES, SPREADS, st.sampled_from([1e-4, 10, 1000]))
def test_units_change_nothing(value: float, line: float, sd: float, factor: float) -> None:
    """Milligrams or per cent: the same probability, with and without the line's interval."""
    for low, high in ((None, None), (line * 0.8, line * 1.3)):
        plain = probability_under(value, doubt(sd), line, low, high)
        scaled = [None if one is None else one * factor for one in (low, high)]
        assert probability_under(value * factor, doubt(sd), line * factor, *scaled) == pytest.approx(plain, abs=1e-9)


def test_on_the_line_and_without_doubt() -> None:
    """On the line it is a coin toss; without any doubt it is known; nought is under every line above it."""
    assert probability_under(30, doubt(0.2), 30) == 0.5
    assert [probability_under(value, doubt(0), 30) for value in (29, 30, 31)] == [1, 0.5, 0]
    assert probability_under(0, doubt(0.2), 30) == 1
    assert probability_under(0, doubt(0.2), 0) == 0.5
    assert probability_under(5, doubt(0.2), 0) == 0


def test_the_lines_interval_widens() -> None:
    """Half of a 95 % interval is 1.96 standard deviations; equal to a doubt that much larger."""
    wide = probability_under(5.6, doubt(0.3, log=False), 5.0, 5.0 - 1.96 * 0.4, 5.0 + 1.96 * 0.4)
    assert wide == pytest.approx(probability_under(5.6, doubt(0.5, log=False), 5.0), abs=1e-4)
    assert probability_under(40, doubt(0.2), 30) < probability_under(40, doubt(0.2), 30, 22, 41) < 0.5


def test_near_the_line() -> None:
    """Neither clearly under nor clearly over."""
    assert [is_near(one) for one in (0.1, 0.25, 0.26, 0.5, 0.74, 0.75, 0.9)] == [
        False, False, True, True, True, False, False,
    ]  # fmt: skip


def test_differences() -> None:
    """The least difference has a chance of 5 in 100; with no doubt every difference is one."""
    least = least_difference(2.0, 3.0)
    assert chance_of_difference(least, 2.0, 3.0) == pytest.approx(0.05)
    assert chance_of_difference(-least, 2.0, 3.0) == pytest.approx(0.05)
    assert [chance_of_difference(one, 0.0, 0.0) for one in (0.0, 1.0)] == [1.0, 0.0]
    assert quantile(0.95) == pytest.approx(1.959964)


@pytest.mark.parametrize(("cores", "sharp"), [(20, True), (8, True), (20, False)])
def test_what_is_said_comes_true(cores: int, sharp: bool) -> None:
    """Simulated zones: in every tenth of probability about as many lie under the line as was said."""
    for held, said, true in reliability(Random(2027), RELIABILITY_CASES, cores=cores, sharp=sharp):
        # Three standard errors of a share, and two points for what the approximation leaves.
        assert true == pytest.approx(said, abs=0.02 + 3 * (said * (1 - said) / held) ** 0.5)
