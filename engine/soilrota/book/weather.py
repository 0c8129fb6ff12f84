"""The weather of a station: read, put in order of days, its holes named."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from soilrota.book.folders import WEATHER, in_book, link_leaves_book, name_in_book
from soilrota.files import Row, read_csv
from soilrota.guidelines import water_figures
from soilrota.model.stations import Station
from soilrota.problems import Place, Problem, error, has_errors, in_order, warning

if TYPE_CHECKING:
    from soilrota.model.weather import Weather

_DAYS_A_YEAR = 365.25
_COLUMNS = ("rain_mm", "tmin_c", "tmax_c")
_MOST_GAPS = 20
_ONE_DAY = timedelta(days=1)


def load_weather(root: Path, station: Station) -> tuple[Weather | None, tuple[Problem, ...]]:
    """Read the weather file of a station.

    Args:
        root: the book's folder.
        station: a station of the practice.

    Returns:
        The record without holes in the calendar, or None where the file is missing or has an error; and its problems:
        `weather-missing`, `weather-empty`, `day-repeated`, `days-out-of-order`, `temperatures-reversed` are errors;
        `days-missing` (each gap with its days and what becomes of it) and `short-record` are warnings.
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
    if not table.rows:
        empty = error("weather-empty", Place(name), "no day is recorded", "a row each day", "add rows, or take it out")
        return None, in_order((*problems, empty))
    if has_errors(problems):
        return None, problems
    gaps = _gaps(table.rows)
    problems = in_order((*problems, *_missing(gaps), *_short(table.rows, gaps, Place(name))))
    return _weather(station, table.rows), problems


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


@dataclass(slots=True)
class _Gap:
    """A run of days without a whole record, and the row at which it is seen."""

    first: date
    last: date
    row: Row


def _gaps(rows: tuple[Row, ...]) -> list[_Gap]:
    """Return the runs of days without a whole record, in order; rows that lack a value join days without a row."""
    gaps: list[_Gap] = []
    due = rows[0].values["date"]
    for row in rows:
        day: date = row.values["date"]
        last = day if any(row.values[column] is None for column in _COLUMNS) else day - _ONE_DAY
        if due <= last:
            if gaps and gaps[-1].last == due - _ONE_DAY:
                gaps[-1].last = last
            else:
                gaps.append(_Gap(due, last, row))
        due = day + _ONE_DAY
    return gaps


def _missing(gaps: list[_Gap]) -> Iterator[Problem]:
    """Yield each gap and what becomes of it, as far as they can be listed."""
    filled = water_figures().longest_filled_days
    for gap in gaps[:_MOST_GAPS]:
        days = (gap.last - gap.first).days + 1
        if days <= filled:
            becomes = "a gap this short is filled with the means of these calendar days in past years"
        else:
            becomes = "the soil is not known from the gap on, until it no longer matters how wet it was then"
        span = gap.first.isoformat() if days == 1 else f"{gap.first.isoformat()} to {gap.last.isoformat()}"
        found = f"no whole record for {span}, {days} days" if days > 1 else f"no whole record for {span}"
        mend = f"fill in what was recorded; {becomes}"
        yield warning("days-missing", gap.row.place("date"), found, "a record each day", mend)
    if rest := gaps[_MOST_GAPS:]:
        found = f"{len(rest)} more gaps from {rest[0].first.isoformat()} on"
        mend = "see whether the file is what the station recorded"
        yield warning("days-missing", rest[0].row.place("date"), found, "a record each day", mend)


def _short(rows: tuple[Row, ...], gaps: list[_Gap], place: Place) -> Iterator[Problem]:
    """Yield a warning for a record of too few years, gaps not counted."""
    missing = sum((gap.last - gap.first).days + 1 for gap in gaps)
    years = ((rows[-1].values["date"] - rows[0].values["date"]).days + 1 - missing) / _DAYS_A_YEAR
    enough = water_figures().enough_years
    if years < enough:
        mend = "add earlier years if there are any; until then the ranking of days by moisture rests on few years"
        yield warning("short-record", place, f"the record has {years:.1f} years", f"at least {enough} years", mend)


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
