"""Two uses of uncertainty, and the laboratories' figures behind them.

Figures between and within laboratories: Rayment and Lyons (2011), Soil Chemical Methods - Australasia, accuracy and
precision, table App 2.1, and the curves in the figures of the chapters on each method. The worked examples were
reckoned from them by hand, with coefficients of variation and normal distributions on the plain scale; the engine works
with logarithms, and what that changes stands here too.
"""

from __future__ import annotations

from math import hypot, log1p, sqrt

import pytest

from soilrota.agronomy.doubt import doubt_from, standard_error
from soilrota.agronomy.probability import chance_of_difference, least_difference, probability_under
from soilrota.guidelines.laboratory_spread import laboratory_cv
from soilrota.guidelines.repeatability import repeatability_cv
from soilrota.model.judgement import Doubt
from tests.results.making import result

CORES, FIELD = 30, 0.28


def plain_doubt(value: float, laboratory: float) -> Doubt:
    """Return the doubt of a value on the plain scale, as the worked examples have it."""
    sd = value * hypot(laboratory, FIELD / sqrt(CORES))
    return Doubt(sd, on_log_scale=False, sampling=0.0, laboratory=0.0, source="a worked example")


def test_is_a_change_real() -> None:
    """Colwell 30 to 38, laboratory 7.5 %, 30 cores, field 28 %: s 2.72 and 3.45, critical 8.61, z 1.82, p 0.069."""
    doubts = [
        doubt_from(result("phosphorus.colwell", value), FIELD / sqrt(CORES), 0.075, "a worked example")
        for value in (30, 38)
    ]
    first, second = (standard_error(value, doubt) for value, doubt in zip((30, 38), doubts, strict=True))
    assert (first, second) == pytest.approx((2.72, 3.45), abs=0.005)
    assert least_difference(first, second) == pytest.approx(8.61, abs=0.005)
    assert 8 / hypot(first, second) == pytest.approx(1.82, abs=0.005)
    assert chance_of_difference(8, first, second) == pytest.approx(0.069, abs=0.0005)


@pytest.mark.parametrize(
    ("value", "laboratory", "s", "below", "by_logarithms"),
    [(28, 0.154, 4.54, 0.670, 0.667), (36, 0.147, 5.60, 0.142, 0.120)],
)
def test_is_the_zone_under_30(value: float, laboratory: float, s: float, below: float, by_logarithms: float) -> None:
    """Readings of 28 and 36: s 4.54 and 5.60, 0.670 and 0.142; on the scale of logarithms 0.667 and 0.120."""
    assert laboratory_cv("phosphorus.colwell", value) == pytest.approx(laboratory, abs=0.0005)
    doubt = plain_doubt(value, laboratory)
    assert doubt.sd == pytest.approx(s, abs=0.006)
    assert probability_under(value, doubt, 30) == pytest.approx(below, abs=0.0006)
    logs = doubt_from(result("phosphorus.colwell", value), FIELD / sqrt(CORES), laboratory, "the same")
    assert logs.sd == pytest.approx(sqrt(log1p((s / value) ** 2)), abs=2e-4)
    assert probability_under(value, logs, 30) == pytest.approx(by_logarithms, abs=0.002)


@pytest.mark.parametrize(
    ("code", "values", "percent"),
    [
        ("phosphorus.colwell", (10, 20, 30, 50, 100), (19.1, 16.5, 15.2, 13.7, 11.9)),
        ("phosphorus.olsen", (10, 15, 20, 30), (16.7, 15.2, 14.2, 12.9)),
        ("organic-carbon.walkley-black", (0.5, 1, 2, 4), (21.2, 14.9, 10.5, 7.4)),
        ("potassium.exchangeable", (0.2, 0.5), (10.0, 9.4)),
        ("sodium.exchangeable", (0.1, 0.5, 2), (28.8, 13.0, 6.5)),
    ],
)
def test_between_laboratories_by_concentration(
    code: str, values: tuple[float, ...], percent: tuple[float, ...]
) -> None:
    """Reckoned from the printed curves, to their digits."""
    assert [100 * laboratory_cv(code, value) for value in values] == pytest.approx(percent, abs=0.0501)


@pytest.mark.parametrize(
    ("code", "two_sd"),
    [
        ("conductivity.ec-1-5", 10), ("ph.water", 5), ("ph.cacl2", 4), ("chloride.water-1-5", 17),
        ("organic-carbon.walkley-black", 12), ("nitrogen.kjeldahl", 15), ("nitrogen.dry-combustion", 10),
        ("nitrate-nitrogen.kcl", 10), ("ammonium-nitrogen.kcl", 12), ("phosphorus.colwell", 20),
        ("phosphorus.olsen", 20), ("phosphorus.bray-1", 25), ("phosphorus-buffering-index.colwell-adjusted", 20),
        ("sulphur.mcp", 15), ("sulphur.kcl-40", 20), ("zinc.dtpa", 15), ("manganese.dtpa", 12), ("boron.hot-cacl2", 20),
        ("calcium.exchangeable", 10), ("magnesium.exchangeable", 10), ("sodium.exchangeable", 15),
        ("potassium.exchangeable", 15), ("aluminium.exchangeable", 20),
    ],
)  # fmt: skip
def test_within_a_laboratory(code: str, two_sd: float) -> None:
    """Table App 2.1: two standard deviations, the upper end of a printed range."""
    assert 200 * repeatability_cv(code) == pytest.approx(two_sd)


def test_ph_in_units() -> None:
    """At pH(CaCl2) 5.0: 0.09 between laboratories, 0.10 within."""
    assert 5 * laboratory_cv("ph.cacl2", 5.0) == pytest.approx(0.09)
    assert 5 * repeatability_cv("ph.cacl2") == pytest.approx(0.10)
    assert 100 * laboratory_cv("ph.water", 6.0) == pytest.approx(1.9)
    assert 100 * laboratory_cv("phosphorus-buffering-index.colwell-adjusted", 70) == pytest.approx(13.1)
