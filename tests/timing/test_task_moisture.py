"""Outlooks of tasks: once a station, for the soils of its zones."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.book import load_weather
from soilrota.model.weather import Weather
from soilrota.timing import tasks_of
from tests.documents.made import BOOK, example

CLIENT = example("anvil-creek")


@pytest.fixture(scope="module")
def weather() -> dict[str, Weather]:
    """The record of the example's southern station up to the pinned date."""
    found, _ = load_weather(BOOK, CLIENT.practice.stations["merrow"])
    assert found is not None
    return {"merrow": found.until(date(2027, 2, 15))}


def test_every_task_of_a_farm_with_weather_has_its_outlook(weather: dict[str, Weather]) -> None:
    """The same soil has the same outlook; what a protocol wants turns it round."""
    tasks = tasks_of(CLIENT, weather)
    assert all(task.moisture is not None for task in tasks)
    wanted = {task.key.protocol: task.moisture.wanted for task in tasks if task.moisture}
    assert wanted == {"topsoil-pasture": "moist", "acidity-profile": "dry"}


def test_without_weather_moisture_ranks_nothing() -> None:
    """No record, no outlook."""
    assert all(task.moisture is None for task in tasks_of(CLIENT))
    assert all(task.moisture is None for task in tasks_of(example("dune-end-sheep"), {}))
