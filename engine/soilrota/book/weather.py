"""The weather of a station: read, put in order of days, its holes named."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

from soilrota.book.folders import WEATHER, in_book, link_leaves_book, name_in_book
from soilrota.files import Row, read_csv
from soilrota.model.stations import Station
from soilrota.problems import Place, Problem, error, has_errors, in_order, warning

if TYPE_CHECKING:
    from soilrota.model.weather import Weather

#: Fewer years of record than this are said [year]. House default.
ENOUGH_YEARS = 10
_DAYS_A_YEAR = 365.25
_COLUMNS = ("rain_mm", "tmin_c", "tmax_c")
_MOST_GAPS = 20


def load_weather(root: Path, station: Station) -> tuple[Weather | None, tuple[Problem, ...]]:
    """Read the weather file of a station.

    Args:
        root: the book's folder.
        station: a station of the practice.

    Returns:
        The record without holes in the calendar, or None where the file is missing or has an error; and its problems:
        `weather-missing`, `day-repeated`, `days-out-of-order`, `temperatures-reversed` are errors; `days-missing` (each
        gap with its days) and `short-record` are warnings.
    """
    path = root / WEATHER / f"{station.id}.csv"
    name = name_in_book(root, path)
    if not path.exists():
        mend = f"put {name} there, or take the station out of practice.yaml"
        return None, (error("weather-missing", station.place, f"there is no file {name}", "", mend),)
    if not in_book(root, path):
        return None, (link_leaves_book(Place(name)),)
    table, problems = read_csv(path, name, "weather")
    if table is None:
        return None, problems
    problems = in_order((*problems, *_broken(table.rows)))
    if has_errors(problems) or not table.rows:
        return None, problems
    return _weather(station, table.rows), in_order((*problems, *_gaps(table.rows), *_short(table.rows, Place(name))))


def _broken(rows: tuple[Row, ...]) -> Iterator[Problem]:
    """Yield rows whose day repeats or goes back, or whose lowest temperature is above the highest."""
    last: date | None = None
    for row in rows:
        day, low, high = row.values["date"], row.values["tmin_c"], row.values["tmax_c"]
        if last is not None and day <= last:
            code = "day-repeated" if day == last else "days-out-of-order"
            found = f"{day.isoformat()} stands after {last.isoformat()}"
            yield error(code, row.place("date"), found, "each day once, in order", "sort the rows, keep one a day")
        last = day if last is None else max(last, day)
        if low is not None and high is not None and low > high:
            found = f"the lowest temperature {low:g} is above the highest {high:g}"
            yield error("temperatures-reversed", row.place("tmin_c"), found, "", "swap the two, or correct one")


def _gaps(rows: tuple[Row, ...]) -> Iterator[Problem]:
    """Yield each run of days without a whole record, as far as they can be listed."""
    runs: list[tuple[date, date, Row]] = []
    for before, row in pairwise(rows):
        first, last = before.values["date"] + timedelta(days=1), row.values["date"] - timedelta(days=1)
        if first <= last:
            runs.append((first, last, row))
    runs += [(row.values["date"], row.values["date"], row) for row in rows if not _is_whole(row)]
    for first, last, row in runs[:_MOST_GAPS]:
        days = first.isoformat() if first == last else f"{first.isoformat()} to {last.isoformat()}"
        mend = "fill them in where a record exists; up to 5 days are filled with the mean of the calendar days"
        yield warning("days-missing", row.place("date"), f"no whole record for {days}", "a record each day", mend)


def _is_whole(row: Row) -> bool:
    """Return whether a row has all its values."""
    return all(row.values[column] is not None for column in _COLUMNS)


def _short(rows: tuple[Row, ...], place: Place) -> Iterator[Problem]:
    """Yield a warning for a record of too few years."""
    years = ((rows[-1].values["date"] - rows[0].values["date"]).days + 1) / _DAYS_A_YEAR
    if years < ENOUGH_YEARS:
        found = f"the record has {years:.1f} years"
        yield warning(
            "short-record", place, found, f"at least {ENOUGH_YEARS} years", "add earlier years if there are any"
        )


def _weather(station: Station, rows: tuple[Row, ...]) -> Weather:
    """Return the rows as a record without holes in the calendar."""
    import numpy as np  # noqa: PLC0415  # only where a farm has weather

    from soilrota.model.weather import Weather  # noqa: PLC0415

    first: date = rows[0].values["date"]
    columns: dict[str, Any] = {
        column: np.full((rows[-1].values["date"] - first).days + 1, np.nan) for column in _COLUMNS
    }
    for row in rows:
        for column in _COLUMNS:
            if row.values[column] is not None:
                columns[column][(row.values["date"] - first).days] = row.values[column]
    return Weather(station, first, columns["rain_mm"], columns["tmin_c"], columns["tmax_c"])
