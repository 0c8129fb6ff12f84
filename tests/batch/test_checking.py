"""Checking a book: all problems, nothing made."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from soilrota.batch.checking import check_book
from soilrota.batch.faults import CannotStartError
from soilrota.problems import Severity
from tests.acceptance.small_book import CLIENTS, edit


def test_a_sound_book_has_no_problems(book: Path) -> None:
    """Every client is checked, in order, and told of before it is read."""
    told: list[str] = []
    report = check_book(book, None, told.append)
    assert (report.problems, report.checked, report.unchecked) == ((), CLIENTS, ())
    assert told == list(CLIENTS)


def test_problems_of_all_files_come_sorted(book: Path) -> None:
    """Errors of two clients and of the clients' folder stand together, by file and line."""
    edit(book / "clients" / "cedar-farm" / "client.yaml", "area_ha: 9", "area_ha: nine")
    edit(book / "clients" / "alder-farm" / "applications.csv", "2026-10-01", "1/10/2026")
    (book / "clients" / "Bad Name").mkdir()
    report = check_book(book, None)
    assert [problem.place.file for problem in report.problems] == [
        "clients/Bad Name",
        "clients/Bad Name",
        "clients/alder-farm/applications.csv",
        "clients/cedar-farm/client.yaml",
    ]
    assert report.count(Severity.ERROR) == 4


def test_some_clients_alone(book: Path) -> None:
    """Only what was asked for is checked; a name that is not there is refused with the nearest."""
    edit(book / "clients" / "cedar-farm" / "client.yaml", "area_ha: 9", "area_ha: nine")
    assert check_book(book, ("alder-farm",)).problems == ()
    with pytest.raises(CannotStartError, match="did you mean cedar-farm"):
        check_book(book, ("ceder-farm",))


def test_errors_of_the_shared_files_leave_clients_unchecked_but_for_blanks(book: Path) -> None:
    """What needs the practice waits for it; a blank needs nothing."""
    edit(book / "practice.yaml", "role: adviser", "role: advisor")
    edit(book / "clients" / "cedar-farm" / "client.yaml", "Cedar Farm", "__FILL__ its name")
    report = check_book(book, None)
    assert (report.checked, report.unchecked) == ((), CLIENTS)
    assert [problem.place.file for problem in report.problems] == ["clients/cedar-farm/client.yaml", "practice.yaml"]


def test_nothing_to_check(book: Path) -> None:
    """No clients, or no book at all, is said."""
    shutil.rmtree(book / "clients")
    with pytest.raises(CannotStartError, match="no client to check"):
        check_book(book, None)
    (book / "practice.yaml").unlink()
    with pytest.raises(CannotStartError, match="not a book"):
        check_book(book, None)
