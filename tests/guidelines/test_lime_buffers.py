"""Lime by buffer and acidity: order and edges. The figures are held in `published_values/test_lime_rules.py`."""

from __future__ import annotations

import random

import pytest

from soilrota.guidelines.lime_buffers import iowa_lime, north_carolina_credit, north_carolina_lime, oregon_lime
from soilrota.guidelines.lime_rules import lime_rules


@pytest.mark.parametrize("target", [5.6, 6.0, 6.4, 6.8, 7.2])
def test_a_lower_buffer_never_needs_less(target: float) -> None:
    """Over random pairs of buffer pH, also across the step of the table of Oregon."""
    drawn = random.Random(9)
    for _ in range(300):
        lower, higher = sorted(drawn.uniform(4.8, 6.9) for _ in range(2))
        more, less = oregon_lime(lower, target), oregon_lime(higher, target)
        if more is not None and less is not None:
            assert more >= less - 1e-9
        assert (more is None) == (5.7 < lower < 5.8)


def test_iowa() -> None:
    """Never below nought, in proportion to depth, none for another target; the figures are from memory."""
    assert iowa_lime(6.5, 6.5, 6) == pytest.approx(49886 - 7245 * 6.5)
    assert iowa_lime(6.5, 6.5, 3) == pytest.approx((49886 - 7245 * 6.5) / 2)
    assert iowa_lime(7.0, 6.0, 6) == 0
    assert iowa_lime(6.5, 6.2, 6) is None
    assert lime_rules()["iowa-buffer"].cited.status == "unverified"


def test_north_carolina_credit() -> None:
    """It runs out after a year on mineral soil and never turns into a need; another soil is a fault."""
    assert north_carolina_credit(2.0, 0, "mineral") == 2
    assert north_carolina_credit(2.0, 13, "mineral") == 0
    assert north_carolina_lime(5.5, 6.0, 1.0, north_carolina_credit(2.0, 13, "mineral")) > 0
    with pytest.raises(KeyError):
        north_carolina_credit(2.0, 1, "sand")
