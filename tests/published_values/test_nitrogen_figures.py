"""Nitrogen of soil, grain and crop: published figures and examples, each with its source."""

from __future__ import annotations

import pytest

from soilrota.guidelines.nitrogen import mineralised, nitrogen_figures, wheat_grain_nitrogen, wheat_uptake
from soilrota.model.guideline import Status


@pytest.mark.parametrize(
    ("yield_t", "offtake", "uptake"),
    [(8, 155, 228), (9, 174, 257), (10, 194, 285), (11, 213, 314), (12, 233, 342)],
)
def test_milling_wheat(yield_t: float, offtake: float, uptake: float) -> None:
    """13 % protein at 85 % dry matter, as a table on milling wheat in the United Kingdom prints it [kg N/ha]."""
    nitrogen = wheat_grain_nitrogen(yield_t * 0.85, 13)
    assert round(nitrogen) == offtake
    assert round(wheat_uptake(nitrogen)) == uptake


@pytest.mark.parametrize(("yield_t", "protein", "printed"), [(5, 11, 100), (7, 11, 133)])
def test_wheat_in_the_farm_press(yield_t: float, protein: float, printed: float) -> None:
    """5 t/ha at 11 % about 100 kg N (The Land 2017), 7 t/ha about 133 (The Land 2024); both round: 96.5 and 135.1."""
    assert wheat_grain_nitrogen(yield_t, protein) == pytest.approx(printed, rel=0.04)


def test_grain_by_protein() -> None:
    """Protein / 5.7 is 1.754 kg N/t for each per cent, at the moisture that protein is given at."""
    figures = nitrogen_figures()
    assert figures["wheat-protein-per-nitrogen"].value == 5.7
    assert figures["wheat-nitrogen-per-protein"].value == pytest.approx(10 / 5.7, abs=5e-4)


@pytest.mark.parametrize(
    ("figure", "low", "high"),
    [
        ("mineralisation", 0.15, 0.15),  # GRDC, How good are in-crop mineralisation predictions?
        ("wheat-grain-share", 0.68, 0.68),  # table on milling wheat
        ("wheat-supply-per-grain", 2, 3),  # The Land 2024
        ("canola-uptake", 80, 80),  # Norton 2016
        ("legume-credit", 9, 27),  # Peoples and others 2017, abstract: 18 +/- 9
        ("recovery", 0.35, 0.35),  # GRDC 2021, rules of thumb
        ("loss-low-rain", 0.25, 0.25),
        ("loss-high-rain", 0.32, 0.32),
        ("loss-irrigated", 0.41, 0.41),
        ("protein-late-dressing", 40, 40),  # Defra, Fertiliser Manual, spring wheat
        ("protein-late-response", 1.1, 1.1),
        ("protein-season", 50, 50),  # ADAS
    ],
)
def test_figures(figure: str, low: float, high: float) -> None:
    """Each figure as printed, read in its source."""
    row = nitrogen_figures()[figure]
    assert (row.low, row.high, row.cited.status) == (low, high, Status.VERIFIED)
    assert row.low <= row.value <= row.high


def test_a_season() -> None:
    """0.15 x organic carbon x rain of the season: 1.0 % and 250 mm give 37.5 kg N/ha."""
    assert mineralised(1.0, 250) == pytest.approx(37.5)
