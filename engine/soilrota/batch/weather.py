"""The weather that a client's windows depend on: read once a process for each state of the file."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from soilrota.book import load_weather
from soilrota.files import file_digest
from soilrota.model.client import Client
from soilrota.model.stations import Station
from soilrota.problems import Problem, has_errors, in_order

if TYPE_CHECKING:
    from soilrota.model.weather import Weather


def weather_for(root: Path, client: Client) -> tuple[dict[str, Weather] | None, tuple[Problem, ...]]:
    """Return the records of the stations of a client's farms by station id, and their problems.

    None where one of the files has an error.
    """
    found: dict[str, Weather] = {}
    problems: tuple[Problem, ...] = ()
    for station_id in sorted({farm.station for farm in client.farms} - {""}):
        path = root / "weather" / f"{station_id}.csv"
        digest = file_digest(path) if path.is_file() else ""
        weather, some = _read(root, client.practice.stations[station_id], digest)
        problems += some
        if weather is not None:
            found[station_id] = weather
    return (None if has_errors(problems) else found), in_order(problems)


def known_on(weather: dict[str, Weather], day: date) -> dict[str, Weather]:
    """Return the records up to a day, that day included."""
    return {station: record.until(day) for station, record in weather.items()}


def goes_beyond(weather: dict[str, Weather], day: date) -> bool:
    """Return whether a record goes beyond a day, so that the next day may read otherwise."""
    return any(record.last > day for record in weather.values())


@lru_cache(maxsize=64)
def _read(root: Path, station: Station, digest: str) -> tuple[Weather | None, tuple[Problem, ...]]:  # noqa: ARG001
    """Return the record of one station; the digest is what the cache goes by."""
    return load_weather(root, station)
