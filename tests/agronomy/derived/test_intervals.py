"""Doubt of formulas: closed forms against draws."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from soilrota.agronomy.derived.intervals import WIDTH, Doubtful, Scale, exact, propagate, with_cv

DRAWS = 2_000_000 if os.environ.get("SOILROTA_LONG") == "1" else 200_000


def drawn(formula: Callable[..., np.ndarray], inputs: Sequence[Doubtful], seed: int = 1) -> tuple[float, float]:
    """Return the middle 95 of 100 of a formula of inputs that are log-normal about their values on either side."""
    rng = np.random.default_rng(seed)
    values = []
    for one in inputs:
        normal = rng.standard_normal(DRAWS)
        spread = np.where(normal < 0, np.log(one.value / one.low), np.log(one.high / one.value)) / WIDTH
        values.append(one.value * np.exp(spread * normal))
    low, high = np.percentile(formula(*values), [2.5, 97.5])
    return float(low), float(high)


CASES = [
    pytest.param(lambda a, b: a + b, (with_cv(8, 0.09), with_cv(2, 0.3)), Scale.PLAIN, 0.06, id="sum"),
    pytest.param(
        lambda ca, mg, k, na, al: ca + mg + k + na + al,
        (with_cv(8, 0.09), with_cv(2.5, 0.074), with_cv(0.6, 0.092), with_cv(0.4, 0.145), with_cv(0.5, 0.24)),
        Scale.PLAIN, 0.03, id="capacity",
    ),
    pytest.param(lambda a, b: a / b, (with_cv(8, 0.09), with_cv(2.5, 0.074)), Scale.LOG, 0.02, id="ratio"),
    pytest.param(
        lambda oc, density, gravel: oc * density * 30 * (1 - gravel),
        (with_cv(2, 0.105), Doubtful(1.43, 1.144, 1.716), Doubtful(0.15, 0.075, 0.225)),
        Scale.LOG, 0.05, id="stock",
    ),
    pytest.param(
        lambda x, *rest: 100 * x / (x + sum(rest)),
        (with_cv(0.4, 0.145), with_cv(8, 0.09), with_cv(2.5, 0.074), with_cv(0.6, 0.092)),
        Scale.LOGIT, 0.03, id="small share",
    ),
    pytest.param(
        lambda x, *rest: 100 * x / (x + sum(rest)), (with_cv(8, 0.09), with_cv(2.5, 0.074)), Scale.LOGIT, 0.02,
        id="large share",
    ),
    pytest.param(
        lambda na, cl, ca: 100 * (na - cl / 354.5) / (na - cl / 354.5 + ca),
        (with_cv(6, 0.038), with_cv(600, 0.061), with_cv(8, 0.09)),
        Scale.LOGIT, 0.04, id="sodium less chloride",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("formula", "inputs", "scale", "within"), CASES)
def test_closed_form_against_draws(
    formula: Callable[..., float], inputs: Sequence[Doubtful], scale: Scale, within: float
) -> None:
    """Each end lies where the draws have it, within a share of the interval's width."""
    found = propagate(formula, inputs, scale)
    low, high = drawn(formula, inputs)
    assert found.low == pytest.approx(low, abs=within * (high - low))
    assert found.high == pytest.approx(high, abs=within * (high - low))


@given(st.floats(1e-3, 1e3), st.floats(1e-3, 1e3), st.floats(0, 1), st.floats(0, 1))
def test_a_product_of_log_normals_is_exact(a: float, b: float, cv_a: float, cv_b: float) -> None:
    """Variances of logarithms add up."""
    found = propagate(lambda x, y: x * y, (with_cv(a, cv_a), with_cv(b, cv_b)), Scale.LOG)
    spread = np.exp(WIDTH * np.sqrt(np.log1p(cv_a**2) + np.log1p(cv_b**2)))
    assert found.low == pytest.approx(a * b / spread)
    assert found.high == pytest.approx(a * b * spread)


@given(
    st.lists(st.tuples(st.floats(0, 50), st.floats(0, 1)), min_size=2, max_size=5),
    st.sampled_from(list(Scale)),
)
@example([(5e-324, 0.0), (1.0, 0.0)], Scale.PLAIN)
def test_an_interval_holds_its_value_and_a_share_stays_one(parts: list[tuple[float, float]], scale: Scale) -> None:
    """Low, value and high in order; a share lies between 0 and 100, a sum not below nought."""
    inputs = [with_cv(value, cv) for value, cv in parts]
    share = propagate(lambda x, *rest: 100 * x / (x + sum(rest) + 1), inputs, Scale.LOGIT)
    assert 0 <= share.low <= share.value * (1 + 1e-12)
    assert share.value * (1 - 1e-12) <= share.high <= 100
    total = propagate(lambda *values: sum(values), inputs, scale if scale is not Scale.LOGIT else Scale.PLAIN)
    assert -1e-9 <= total.low <= total.value + 1e-9
    assert total.value <= total.high + 1e-9


def test_a_censored_input_is_all_that_it_may_be() -> None:
    """The interval is from the one end's lower to the other end's upper; the value stands in the middle."""
    censored = Doubtful(0.05, 0, 0.1, is_censored=True)
    found = propagate(lambda a, b: a + b, (exact(2), censored))
    assert (found.low, found.value, found.high, found.is_censored) == (2, 2.05, 2.1, True)
    both = propagate(lambda a, b: a - b, (censored, censored))
    assert (both.low, both.value, both.high) == pytest.approx((-0.1, 0, 0.1))
    wider = propagate(lambda a, b: a + b, (with_cv(2, 0.1), censored))
    alone = with_cv(2, 0.1)
    assert (wider.low, wider.high) == pytest.approx((alone.low, alone.high + 0.1))


def test_a_division_by_what_may_be_nought_has_no_end() -> None:
    """Nobody is told a number that is not there."""
    found = propagate(lambda a, b: a / b, (exact(2), Doubtful(0.05, 0, 0.1, is_censored=True)), Scale.LOG)
    assert found.high == np.inf
    assert propagate(lambda a, b: a / b, (exact(2), exact(0)), Scale.LOG).value == np.inf


def test_off_the_scale_the_doubt_adds_up_as_it_is() -> None:
    """A share that may be nought, or the whole, is cut there."""
    found = propagate(lambda a, b: 100 * max(0.0, a - b) / 10, (with_cv(1, 0.1), with_cv(1, 0.5)), Scale.LOGIT)
    assert (found.low, found.value) == (0, 0)
    assert 0 < found.high < 100


def test_times() -> None:
    """A known factor moves all alike."""
    assert Doubtful(2, 1, 4, is_censored=True).times(3) == Doubtful(6, 3, 12, is_censored=True)
