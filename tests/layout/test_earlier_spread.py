"""The spread that earlier results tell."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from soilrota.guidelines.core_spread import cited_spread
from soilrota.layout.core_counts import core_counts
from soilrota.layout.earlier_spread import ResultSeries, result_series, spread_from
from soilrota.model.results import Result
from soilrota.problems import Place

CITED = cited_spread("phosphorus")
FIRST = date(2019, 3, 1)


def _series(values: tuple[float, ...], cores: int = 25, analyte: str = "phosphorus") -> ResultSeries:
    """Return a series of one result a year."""
    days = tuple(FIRST + timedelta(days=365 * number) for number in range(len(values)))
    return ResultSeries(analyte, days, values, (cores,) * len(values))


def _result(year: int, value: float, **other: object) -> Result:
    """Return a result of phosphorus."""
    day = date(year, 3, 1)
    made = Result(
        report="r",
        sampled=day,
        reported=day,
        farm="home",
        zone="ridge",
        protocol="topsoil",
        bag=f"b{year}",
        top_cm=0,
        bottom_cm=10,
        analyte="phosphorus",
        method="colwell",
        qualifier="",
        value=value,
        unit="mg/kg",
        laboratory="bench",
        place=Place("results.csv"),
    )
    return replace(made, **other)  # type: ignore[arg-type]


def test_too_few_results_leave_the_cited_figure() -> None:
    """Nine degrees of freedom do not do; two results of a zone give none; another analyte's give none."""
    three = _series((20.0, 30.0, 20.0))
    assert spread_from([three] * 9, CITED) == CITED
    assert spread_from([_series((20.0, 40.0))] * 40, CITED) == CITED
    assert spread_from([_series((20.0, 30.0, 20.0), analyte="potassium")] * 40, CITED) == CITED
    told = spread_from([three] * 10, CITED)
    assert told.degrees == 10
    assert "10 series with 10 degrees of freedom" in told.source
    assert "laboratory: common practice, no source" in told.source


def test_against_a_fitted_line() -> None:
    """The residuals are those of a least-squares line through the logarithms (NumPy)."""
    random = np.random.default_rng(5)
    lists = [tuple(float(one) for one in random.lognormal(3, 0.3, size)) for size in (6, 7, 5)]
    squares = 0.0
    for values in lists:
        times = np.arange(len(values), dtype=float)
        squares += float(np.polyfit(times, np.log(values), 1, full=True)[1][0])
    composite = 100 * np.sqrt(squares / 12)
    told = spread_from([_series(values) for values in lists], CITED)
    assert told.core_cv_percent == pytest.approx(np.sqrt((composite**2 - 64) * 25), rel=1e-9)
    assert (told.degrees, told.laboratory_cv_percent) == (12, 8)


def test_a_trend_is_no_spread_and_equal_results_tell_nothing() -> None:
    """Values that grow by the same share each year lie on a line; the laboratory explains what is left."""
    growing = _series(tuple(20 * 1.1**year for year in range(6)))
    assert spread_from([growing] * 5, CITED) == CITED
    assert spread_from([_series((20.0,) * 6)] * 5, CITED) == CITED


def test_simulated_zones_give_their_spread_back() -> None:
    """40 % between cores, 8 % laboratory, 20 cores: the mean estimate of many clients is within 6 % of the truth."""
    random = np.random.default_rng(3)
    squares = []
    for _ in range(400):
        composites = 1 + random.normal(0, 0.4, (8, 5, 20)).mean(axis=2) + random.normal(0, 0.08, (8, 5))
        found = spread_from([_series(tuple(row), cores=20) for row in composites.tolist()], CITED)
        squares.append(found.core_cv_percent**2)
    assert np.sqrt(np.mean(squares)) == pytest.approx(40, rel=0.06)


def test_results_become_series() -> None:
    """By zone, layer and method, the oldest first; censored, nought and repeated values left out; cores by bag."""
    results = [
        _result(2025, 30.0),
        _result(2024, 20.0),
        _result(2024, 99.0),
        _result(2023, 5.0, qualifier="<"),
        _result(2022, 0.0),
        _result(2024, 12.0, method="olsen"),
        _result(2024, 7.0, top_cm=10, bottom_cm=30),
    ]
    first, second, third = result_series(results, {"b2025": 30}, usual=25)
    assert (first.days, first.values) == ((date(2024, 3, 1), date(2025, 3, 1)), (20.0, 30.0))
    assert first.cores == (25, 30)
    assert (second.values, third.values) == ((12.0,), (7.0,))


def test_counts_use_what_is_told() -> None:
    """A zone's own small spread needs fewer cores than the cited figure."""
    quiet = _series((20.0, 22.0, 18.0, 22.0, 20.0, 23.0))
    (own,) = core_counts(("phosphorus",), 25, 2, [quiet] * 3)
    (cited,) = core_counts(("phosphorus",), 25, 2)
    assert own.spread.degrees == 12
    assert own.needed is not None
    assert cited.needed is not None
    assert own.needed < cited.needed
