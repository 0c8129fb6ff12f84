"""The cropping plan: unknown crops are said, with the nearest that is known."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

HEADER = "farm,zone,year,crop,target_yield_t_ha,target_protein_percent,leaves_field\n"


def test_a_plan_comes_to_the_client(book: Book) -> None:
    """Every column, and the place of the row."""
    book.write("cropping.csv", HEADER + "home,hill,2027,Wheat,3.5,11.5,grain\nhome,hill,2028,vetch,,,nothing\n")
    client, problems = book.client()
    assert problems == ()
    assert client is not None
    first, second = client.cropping
    assert (first.crop, first.target_yield, first.target_protein_percent, first.leaves) == ("Wheat", 3.5, 11.5, "grain")
    assert (second.target_yield, second.place.line) == (None, 3)


@pytest.mark.parametrize(
    ("row", "code", "column", "mend"),
    [
        ("wheet,3.5,,grain", "crop-unknown", "crop", "write wheat"),
        ("wheat,3.5,,grian", "produce-unknown", "leaves_field", "write grain"),
        ("zzz,3.5,,", "crop-unknown", "crop", "removal is not counted"),
        ("wheat,,,grain", "yield-missing", "target_yield_t_ha", "write it"),
    ],
)
def test_what_no_table_knows_is_a_warning(book: Book, row: str, code: str, column: str, mend: str) -> None:
    """At its cell, with the nearest name; the client is loaded all the same."""
    book.write("cropping.csv", f"{HEADER}home,hill,2027,{row}\n")
    client, (problem,) = book.client()
    assert client is not None
    assert (problem.code, problem.severity, problem.place.line) == (code, "warning", 2)
    assert mend in problem.mend
    assert problem.place.path == column


def test_a_region_without_tables_says_nothing(book: Book) -> None:
    """No table, no warning."""
    book.edit("client.yaml", "country: AU", "country: FR")
    book.write("cropping.csv", HEADER + "home,hill,2027,truffles,3.5,,\n")
    assert book.problems() == ()


def test_years_of_build_up_are_chosen(book: Book) -> None:
    """For the whole client; nobody need choose."""
    assert book.client()[0].build_up_years is None  # type: ignore[union-attr]
    book.edit("client.yaml", "country: AU\n", "country: AU\nbuild_up_years: 6\n")
    assert book.client()[0].build_up_years == 6  # type: ignore[union-attr]
