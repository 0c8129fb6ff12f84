"""Spread between laboratories: Rayment and Lyons (2011), table App 2.1 and the curves of its chapters."""

from __future__ import annotations

import pytest

from soilrota.guidelines.laboratory_spread import laboratory_cv, laboratory_cv_source
from soilrota.quantities import all_codes

#: Table App 2.1, 1997-2007 [%].
FLAT = {
    "conductivity.ec-1-5": 8.75, "nitrogen.dry-combustion": 10.5, "nitrogen.kjeldahl": 11.5,
    "nitrate-nitrogen.kcl": 11.9,
    "ammonium-nitrogen.kcl": 18.7, "exchange-acidity.kcl": 28.2, "hydrogen.exchangeable": 28.2, "copper.dtpa": 15,
    "zinc.dtpa": 14, "manganese.dtpa": 11, "iron.dtpa": 23, "boron.hot-cacl2": 38,
}  # fmt: skip
#: Figures 4.2 to 15.7: factor, exponent [% at the unit of the method].
CURVES = {
    "phosphorus.colwell": (30.685, -0.2061), "phosphorus.olsen": (28.884, -0.2368),
    "phosphorus.bray-1": (37.097, -0.1328),
    "organic-carbon.dry-combustion": (9.5595, -0.5512), "organic-carbon.walkley-black": (14.922, -0.5068),
    "calcium.exchangeable": (11.007, -0.1018), "magnesium.exchangeable": (8.7382, -0.1888),
    "sodium.exchangeable": (9.206, -0.4956), "potassium.exchangeable": (8.8761, -0.0771),
    "aluminium.exchangeable": (17.576, -0.4343), "chloride.water-1-5": (354.33, -0.6339),
    "sulphur.mcp": (38.539, -0.2456), "sulphur.kcl-40": (28.207, -0.1781),
}  # fmt: skip


@pytest.mark.parametrize("code", FLAT)
def test_flat_figures(code: str) -> None:
    """The same for all values."""
    assert laboratory_cv(code, 0.1) == laboratory_cv(code, 100) == pytest.approx(FLAT[code] / 100)


@pytest.mark.parametrize("code", CURVES)
def test_curves(code: str) -> None:
    """They follow the value."""
    factor, exponent = CURVES[code]
    for value in (7.0, 60.0, 300.0):
        assert laboratory_cv(code, value) == pytest.approx(min(1, factor * value**exponent / 100))


@pytest.mark.parametrize(
    ("code", "values", "expected"),
    [
        ("phosphorus.colwell", (10, 20, 30, 50, 100), (19.1, 16.5, 15.2, 13.7, 11.9)),
        ("phosphorus.olsen", (10, 15, 20, 30), (16.7, 15.2, 14.2, 12.9)),
        ("organic-carbon.walkley-black", (0.5, 1, 2, 4), (21.2, 14.9, 10.5, 7.4)),
        ("potassium.exchangeable", (0.2, 0.5), (10.0, 9.4)),
        ("sodium.exchangeable", (0.1, 0.5, 2), (28.8, 13.0, 6.5)),
    ],
)
def test_values_worked_out(code: str, values: tuple[float, ...], expected: tuple[float, ...]) -> None:
    """Worked out from the curves to one decimal."""
    assert [100 * laboratory_cv(code, value) for value in values] == pytest.approx(expected, abs=0.06)


def test_the_ends() -> None:
    """No end towards nought; a method without a figure has the mean of 19 tests (Rayment and Lyons 2019: 12.8 %)."""
    assert laboratory_cv("chloride.water-1-5", 1) == 1
    assert laboratory_cv("sodium.exchangeable", 0) == 1
    assert laboratory_cv("phosphorus.mehlich-3", 30) == pytest.approx(0.128)
    assert laboratory_cv_source("phosphorus.mehlich-3").year == 2019
    assert "App 2.1" in laboratory_cv_source("zinc.dtpa").where
    assert set(FLAT) | set(CURVES) <= set(all_codes())
