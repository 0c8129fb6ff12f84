"""Check samples of a book: what they name exists, ids are right, each stands once."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book

MATERIALS = """\
check_materials:
  - id: shed-loam
    name: Loam from behind the shed
    values:
      - {analysis: ph.cacl2, value: 5.4, sd: 0.06}
      - {analysis: phosphorus.colwell, value: 32, sd: 2.1}
dismissed_rows:
  - {row: "0a1b2c3d4e5f:17", reason: Of another client., by: jo-finch}
"""
TABLE = "bag,material,laboratory,sent\nZ9000-W,shed-loam,north-bench,2026-02-16\n"


@pytest.fixture(autouse=True)
def check_samples(book: Book) -> None:
    """Add a check material, a closed row and a check sample to the small book."""
    book.add("practice.yaml", MATERIALS)
    book.write("check_samples.csv", TABLE)


def test_they_are_read(book: Book) -> None:
    """Materials have the units of the glossary; bags and closed rows stand as they are written."""
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    practice = shared.practice
    assert [value.unit for value in practice.check_materials["shed-loam"].values] == ["pH", "mg/kg"]
    (bag,), (row,) = practice.check_bags, practice.dismissed
    assert (bag.bag, bag.material, bag.laboratory, str(bag.place)) == (
        "Z9000-W",
        "shed-loam",
        "north-bench",
        "check_samples.csv:2:1",
    )
    assert (row.row, row.by) == ("0a1b2c3d4e5f:17", "jo-finch")


@pytest.mark.parametrize(
    ("old", "new", "code", "mend"),
    [
        ("ph.cacl2", "ph.cacl", "unknown-analysis", "write ph.cacl2"),
        ("phosphorus.colwell, value: 32", "ph.cacl2, value: 5", "repeated-value", "keep one of them"),
        ("value: 5.4", "value: 54", "value-not-possible", "check the figure"),
        ("sd: 0.06", "sd: 0", "out-of-range", ""),
        ("by: jo-finch", "by: jo-fich", "unknown-person", "write jo-finch"),
    ],
)
def test_the_practice_s_file(book: Book, old: str, new: str, code: str, mend: str) -> None:
    """Each mistake is one located problem with its mend."""
    line = book.line("practice.yaml", old)
    book.edit("practice.yaml", old, new)
    problem = book.only(shared=True)
    assert (problem.code, problem.place.file, problem.place.line) == (code, "practice.yaml", line)
    assert mend in problem.mend


@pytest.mark.parametrize(
    ("row", "code", "mend"),
    [
        ("Z9000-W,shed-loan,north-bench,2026-02-16", "unknown-material", "write shed-loam"),
        ("Z9000-W,shed-loam,north-bank,2026-02-16", "unknown-laboratory", "write north-bench"),
        ("Z9000-V,shed-loam,north-bench,2026-02-16", "bad-bag-id", "write Z9000-W"),
        ("Z9000,shed-loam,north-bench,2026-02-16", "bad-bag-id", "write Z9000-W"),
        ("Z9004-O,shed-loam,north-bench,2026-02-16", "bad-bag-id", "take the id from the label"),
        ("CHECK1,shed-loam,north-bench,2026-02-16", "bad-bag-id", "take the id from the label"),
    ],
)
def test_the_table(book: Book, row: str, code: str, mend: str) -> None:
    """Each mistake is one problem at its cell, with its mend."""
    book.write("check_samples.csv", f"bag,material,laboratory,sent\n{row}\n")
    problem = book.only(shared=True)
    assert (problem.code, problem.place.file, problem.place.line) == (code, "check_samples.csv", 2)
    assert mend in problem.mend


def test_things_that_stand_twice(book: Book) -> None:
    """A bag, a material and a closed row stand once."""
    book.add("check_samples.csv", TABLE.splitlines()[1] + "\n")
    book.edit(
        "practice.yaml", "dismissed_rows:\n", 'dismissed_rows:\n  - {row: "0a1b2c3d4e5f:17", reason: x, by: jo-finch}\n'
    )
    again = "check_materials:\n  - {id: shed-loam, name: Other, values: [{analysis: ph.water, value: 6, sd: 1}]}\n"
    book.edit("practice.yaml", "check_materials:\n", again)
    found = [problem.code for problem in book.shared_problems()]
    assert sorted(found) == ["bag-repeated", "repeated-id", "repeated-row"]
