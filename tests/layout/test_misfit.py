"""A misfit is a plain value: equal when it says the same."""

from __future__ import annotations

from soilrota.layout.misfit import Misfit
from soilrota.model.layout import LayoutRule


def test_a_misfit_is_a_value() -> None:
    """Two misfits with the same rule and facts are equal."""
    one, other = (Misfit(LayoutRule.TOO_NARROW, {"width_m": 4.0, "needed_m": 10.0}) for _ in range(2))
    assert one == other
    assert one != Misfit(LayoutRule.TOO_FEW_FIT, {"fit": 3, "wanted": 25, "radius_m": 3.5})
