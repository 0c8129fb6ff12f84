"""The same bag twice in one file."""

from __future__ import annotations

from soilrota.results.bag_directory import bag_key
from soilrota.results.repeated_rows import repeated_rows
from tests.results.intake_worlds import A, B, row, value


def test_of_equal_rows_the_first_stays() -> None:
    """The others say which line they repeat; how the id is written does not matter."""
    found = repeated_rows([row(A, 2), row(B, 3), row(A.lower(), 4), row(A, 5)], bag_key)
    assert list(found) == [2, 3]
    assert {problem.code for problem in found.values()} == {"repeated-row"}
    assert all("row 2" in problem.found for problem in found.values())


def test_of_rows_that_differ_none_stays() -> None:
    """Two that agree do not outvote the third."""
    found = repeated_rows([row(A, 2), row(A, 3), row(A, 4, values=(value(number=9),))], bag_key)
    assert list(found) == [0, 1, 2]
    assert all("rows 2, 3, 4" in problem.found for problem in found.values())
    assert len(repeated_rows([row(A, 2), row(A, 3, depth=(0, 10))], bag_key)) == 2


def test_rows_that_are_no_repeats() -> None:
    """Other analyses of one value a row, other issues, rows without a bag or a value."""
    assert repeated_rows([row(A, 2), row(A, 3, values=(value("ph"),))], bag_key) == {}
    assert repeated_rows([row(A, 2, issue=1), row(A, 3, issue=2)], bag_key) == {}
    assert repeated_rows([row(" ", 2), row("", 3)], bag_key) == {}
    assert repeated_rows([row(A, 2, values=()), row(A, 3, values=())], bag_key) == {}
