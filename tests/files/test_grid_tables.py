"""Rows set aside: written so that they come back equal and no spreadsheet runs them."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.files import grid_of, unguarded, write_grid_csv
from soilrota.files.grid_rows import clean
from soilrota.model.laboratory_files import GridForm

_CELLS = st.one_of(
    st.text(st.characters(exclude_categories=["Cc", "Cs", "Cn"]), max_size=12),
    st.text(st.sampled_from("'=+-@<>5.,;\"a "), max_size=8),
).map(clean)


@given(
    st.lists(st.lists(_CELLS, min_size=1, max_size=5).filter(any), min_size=1, max_size=6),
    st.sampled_from([",", ";", "\t"]),
)
def test_rows_come_back_equal(table: list[list[str]], delimiter: str) -> None:
    """Whatever stands in the cells, with the delimiter declared."""
    grid, problems = grid_of(write_grid_csv(table, delimiter), "aside.csv", GridForm(delimiter=delimiter))
    assert problems == ()
    assert grid is not None
    assert [list(unguarded(row.cells)) for row in grid.rows] == table
    assert all(row.wrong is None for row in grid.rows)


@pytest.mark.parametrize(
    ("cell", "written"),
    [
        ("=1+1", "'=1+1"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("-1+cmd|x", "'-1+cmd|x"),
        ("'tis", "''tis"),
        ("-5", "-5"),
        ("-5,25", "-5,25"),
        ("+4.1", "+4.1"),
        ("-", "-"),
        ("<0.5", "<0.5"),
        ("", ""),
    ],
)
def test_only_what_would_be_run_is_guarded(cell: str, written: str) -> None:
    """Values that laboratories write stay as they are."""
    raw = write_grid_csv([[cell, "x"]])
    assert raw.startswith(b"\xef\xbb\xbf")
    assert next(csv.reader(io.StringIO(raw.decode("utf-8-sig"), newline="")))[0] == written
    assert unguarded([written]) == (cell,)


def test_a_cell_over_lines_and_a_faulty_one_come_back() -> None:
    """Line ends come back; control characters too, and make the row wrong again."""
    grid, _ = grid_of(write_grid_csv([["B1", "wet\r\nand cold", "5"], ["B2", "a\0b", "6"]]), "a.csv", GridForm(","))
    assert grid is not None
    assert [row.cells for row in grid.rows] == [("B1", "wet\r\nand cold", "5"), ("B2", "a\0b", "6")]
    assert [row.wrong is None for row in grid.rows] == [True, False]
