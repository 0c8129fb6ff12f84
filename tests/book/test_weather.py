"""Weather files."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest

from soilrota.book import load_weather
from soilrota.model.stations import Station
from soilrota.problems import Place

STATION = Station("merrow", "Merrow", -37.3, 143.4, Place("practice.yaml", 40, 5))
HEADER = "date,rain_mm,tmin_c,tmax_c\n"


def write(root: Path, rows: str) -> None:
    """Write a weather file of a book."""
    (root / "weather").mkdir(exist_ok=True)
    (root / "weather" / "merrow.csv").write_text(HEADER + rows, encoding="utf-8")


def test_holes_in_the_calendar_become_unknown_days(tmp_path: Path) -> None:
    """Days without a row, or without a value, hold NaN, and each hole is named with its days."""
    write(tmp_path, "2027-01-01,1.0,9,20\n2027-01-04,0,10,21\n2027-01-05,,10,21\n")
    weather, problems = load_weather(tmp_path, STATION)
    assert weather is not None
    assert np.isnan(weather.rain_mm).tolist() == [False, True, True, False, True]
    assert weather.last == date(2027, 1, 5)
    assert [(problem.place.line, problem.code) for problem in problems] == [
        (0, "short-record"),
        (3, "days-missing"),
        (4, "days-missing"),
    ]
    assert "2027-01-02 to 2027-01-03" in str(problems[1])


@pytest.mark.parametrize(
    ("rows", "code", "line"),
    [
        ("2027-01-01,1,9,20\n2027-01-01,1,9,20\n", "day-repeated", 3),
        ("2027-01-02,1,9,20\n2027-01-01,1,9,20\n", "days-out-of-order", 3),
        ("2027-01-01,1,21,20\n", "temperatures-reversed", 2),
        ("2027-01-01,-1,9,20\n", "out-of-range", 2),
        ("2027-01-32,1,9,20\n", "bad-date", 2),
        ("2027-01-01,1.0 mm,9,20\n", "not-a-number", 2),
    ],
)
def test_bad_rows_are_located(tmp_path: Path, rows: str, code: str, line: int) -> None:
    """Each fault stops the record and stands at its row."""
    write(tmp_path, rows)
    weather, problems = load_weather(tmp_path, STATION)
    assert weather is None
    assert [(problem.place.line, problem.code) for problem in problems if problem.severity == "error"] == [(line, code)]


def test_a_missing_file_is_said_at_the_station(tmp_path: Path) -> None:
    """The station's line in practice.yaml is where the mistake is."""
    weather, problems = load_weather(tmp_path, STATION)
    assert weather is None
    assert [(problem.code, str(problem.place)) for problem in problems] == [("weather-missing", "practice.yaml:40:5")]


def test_ten_years_are_enough(tmp_path: Path) -> None:
    """Fewer years are said; ten are not."""
    days = [date(2016, 1, 1) + timedelta(days=number) for number in range(3660)]
    write(tmp_path, "".join(f"{day},0,9,20\n" for day in days))
    assert load_weather(tmp_path, STATION)[1] == ()
    write(tmp_path, "".join(f"{day},0,9,20\n" for day in days[:3000]))
    assert [problem.code for problem in load_weather(tmp_path, STATION)[1]] == ["short-record"]
