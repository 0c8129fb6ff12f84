"""Gypsum: the arithmetic and its groups. The figures are held in `published_values/test_lime_quality.py`."""

from __future__ import annotations

import pytest

from soilrota.guidelines.gypsum import gypsum_figures, gypsum_requirement, gypsum_source


def test_requirement_is_in_proportion() -> None:
    """To sodium, depth and density; none of them, no gypsum."""
    one = gypsum_requirement(1, 10, 1.3)
    assert gypsum_requirement(2, 10, 1.3) == pytest.approx(2 * one)
    assert gypsum_requirement(1, 30, 1.3) == pytest.approx(3 * one)
    assert gypsum_requirement(0, 10, 1.3) == 0


def test_the_factor_is_that_of_the_mass() -> None:
    """0.086086 t/ha a cmol, cm and g/cm3 is the equivalent mass over a thousand."""
    assert gypsum_figures("requirement")["factor"] == pytest.approx(gypsum_figures("material")["equivalent"] / 1000)


def test_groups() -> None:
    """Each has a source; what covers incomplete exchange is unverified; another group is a fault."""
    groups = ("material", "requirement", "incomplete", "acre_foot", "magnesium")
    unread = {group for group in groups if gypsum_source(group).status == "unverified"}
    assert unread == {"incomplete"}
    assert gypsum_figures("incomplete") == {"low": 1.1, "high": 1.3}
    with pytest.raises(KeyError):
        gypsum_figures("nowhere")
