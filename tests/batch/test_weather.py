"""Weather of a client's stations."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

from soilrota.batch.weather import goes_beyond, known_on, weather_for
from tests.documents.made import BOOK, example


def test_the_records_of_a_client_are_read_and_cut() -> None:
    """Only the stations of its farms, and only up to the day asked."""
    weather, problems = weather_for(BOOK, example("anvil-creek"))
    assert weather is not None
    assert set(weather) == {"merrow"}
    assert [problem.code for problem in problems] == ["days-missing"]
    assert known_on(weather, date(2020, 5, 1))["merrow"].last == date(2020, 5, 1)
    assert goes_beyond(weather, date(2020, 5, 1))
    assert not goes_beyond(weather, date(2027, 2, 15))


def test_a_farm_without_weather_reads_nothing(tmp_path: Path) -> None:
    """No station, no file, no problem."""
    assert weather_for(tmp_path, example("juniper-start")) == ({}, ())


def test_a_broken_record_stops_the_clients_that_use_it(tmp_path: Path) -> None:
    """The problem is theirs; a mended file is read anew."""
    book = tmp_path / "book"
    shutil.copytree(BOOK / "weather", book / "weather")
    file = book / "weather" / "merrow.csv"
    whole = file.read_text(encoding="utf-8")
    file.write_text(whole + "2027-02-14,0,9,20\n", encoding="utf-8")
    weather, problems = weather_for(book, example("anvil-creek"))
    assert weather is None
    assert "day-repeated" in {problem.code for problem in problems}
    file.write_text(whole, encoding="utf-8")
    assert weather_for(book, example("anvil-creek"))[0] is not None
