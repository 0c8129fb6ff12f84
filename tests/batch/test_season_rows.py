"""From windows to rows of the season table."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from soilrota.batch.reading import read_client, read_shared
from soilrota.batch.season import COLUMNS
from soilrota.batch.season_rows import season_rows
from soilrota.batch.values import SeasonRow
from soilrota.timing import tasks_of, window_of


def _rows(book: Path, day: date) -> tuple[SeasonRow, ...]:
    """Return the rows of the first client on a day."""
    shared, _ = read_shared(book)
    assert shared is not None
    client, _ = read_client(book, "alder-farm", shared)
    assert client is not None
    return season_rows(client, tuple(window_of(task, day) for task in tasks_of(client)))


def test_a_task_in_its_season(book: Path) -> None:
    """Names, state, season, open days and the anniversary as the best day."""
    (row,) = _rows(book, date(2027, 2, 15))
    assert set(row) == {*COLUMNS} - {"standing"}
    assert (row["client_name"], row["zone_name"], row["protocol_name"]) == ("Alder Farm", "Flat", "Topsoil")
    assert (row["season_name"], row["season_first"], row["season_last"]) == ("Late summer", "2027-01-20", "2027-03-31")
    assert (row["open_days"], row["best_day"], row["best_day_passed"]) == ("2027-01-20/2027-03-31", "2027-02-19", "no")
    assert (row["last_sampled"], row["months_overdue"]) == ("2026-02-20", "")


def test_a_passed_best_day_is_not_replaced_by_a_new_one_every_day(book: Path) -> None:
    """Once the anniversary has passed, the rows of two days running are the same."""
    first, second = _rows(book, date(2027, 2, 25)), _rows(book, date(2027, 2, 26))
    assert first == second
    assert (first[0]["best_day"], first[0]["best_day_passed"]) == ("", "yes")


def test_an_overdue_task_says_by_how_much(book: Path) -> None:
    """Whole months since the due season ended."""
    (row,) = _rows(book, date(2027, 6, 15))
    assert (row["state"], row["months_overdue"]) == ("overdue", "2")
