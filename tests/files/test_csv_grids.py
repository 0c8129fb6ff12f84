"""CSV bytes to grids."""

from __future__ import annotations

from soilrota.files.csv_grids import read_csv_grid
from soilrota.files.grid_rows import MOST_COLUMNS, MOST_ROWS


def test_rows_keep_their_line_and_empty_ones_are_left_out() -> None:
    """A row is its line; nothing is dropped but what is empty."""
    grid, problems = read_csv_grid(b"Bag;pH\r\n\r\n;\r\nB1;5,5\r\n ; \r\nB2;\r\n", "a.csv")
    assert problems == ()
    assert grid is not None
    assert [(row.number, row.cells) for row in grid.rows] == [(1, ("Bag", "pH")), (4, ("B1", "5,5")), (6, ("B2", ""))]
    assert (grid.delimiter, grid.encoding, grid.sheet, grid.notes) == (";", "utf-8", "", ())


def test_what_is_declared_counts() -> None:
    """Where two delimiters fit, or there is one column."""
    raw = b"a;b,c\n1;2,3\n"
    assert read_csv_grid(raw, "a.csv")[1][0].code == "delimiter-not-told"
    grid, _ = read_csv_grid(raw, "a.csv", delimiter=",")
    assert grid is not None
    assert grid.rows[0].cells == ("a;b", "c")
    grid, _ = read_csv_grid(b"Bag\nB1\n", "a.csv", delimiter=";")
    assert grid is not None
    assert grid.rows[1].cells == ("B1",)
    grid, _ = read_csv_grid("Bag;Größe\n".encode("cp1252"), "a.csv", encoding="cp1252")
    assert grid is not None
    assert (grid.rows[0].cells, grid.notes) == (("Bag", "Größe"), ())


def test_a_wrong_row_keeps_its_cells_and_says_where() -> None:
    """The place of the fault is the cell where it is in a cell."""
    grid, _ = read_csv_grid(b'Bag;pH\nB1;5\nB\x002;6\n"B3;7\nB4;8\n', "a.csv")
    assert grid is not None
    assert [row.wrong and (str(row.wrong.place), row.wrong.code) for row in grid.rows] == [
        None,
        None,
        ("a.csv:3:1", "unsafe-character"),
        ("a.csv:4", "open-quotes"),
        None,
    ]
    assert grid.rows[2].cells == ("B\x002", "6")
    assert grid.rows[3].cells == ('"B3', "7")


def test_marks_are_noted_once() -> None:
    """At the first row that holds one."""
    grid, _ = read_csv_grid("Bag;pH\nB\u200b1;5\nB\u200b2;6\n".encode(), "a.csv")
    assert grid is not None
    assert [row.cells[0] for row in grid.rows] == ["Bag", "B1", "B2"]
    assert [(note.code, note.place.line) for note in grid.notes] == [("invisible-marks", 2)]


def test_the_bounds_themselves_are_read() -> None:
    """As many columns and rows as are allowed, and not one more."""
    wide = ";".join("x" * MOST_COLUMNS)
    grid, _ = read_csv_grid(f"{wide}\n{wide}\n".encode(), "a.csv")
    assert grid is not None
    assert len(grid.rows[1].cells) == MOST_COLUMNS
    assert read_csv_grid(f"a;b\n{wide};x\n".encode(), "a.csv", ";")[1][0].place.line == 2
    grid, _ = read_csv_grid(b"a;b\n" * MOST_ROWS, "a.csv")
    assert grid is not None
    assert len(grid.rows) == MOST_ROWS
    assert read_csv_grid(b"a;b\n" * (MOST_ROWS + 1), "a.csv")[1][0].code == "too-large"
