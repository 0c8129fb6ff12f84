"""What a cell may hold, and where cells stand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.files.grid_rows import LONGEST_CELL, Grid, GridRow, clean, column_letters, fault_in, has_marks
from soilrota.model.laboratory_files import FileKind


@given(st.text())
def test_cleaning_once_is_enough(text: str) -> None:
    """A clean text stays as it is, and holds no marks."""
    once = clean(text)
    assert clean(once) == once
    assert not has_marks(once)


def test_names_are_composed_and_free_of_marks() -> None:
    """Decomposed letters, direction marks, soft hyphens and no-break spaces round a text."""
    assert clean("\u202eMu\u0308ller\u00ad\u202c\u00a0") == "Müller"
    assert clean("1\u00a0234") == "1\u00a0234"
    assert clean(" pH\r\n(CaCl2)\t") == "pH\r\n(CaCl2)"
    assert clean("\u212a") == "K"


@pytest.mark.parametrize(
    ("texts", "lossy", "code"),
    [
        (["a", "b\0"], False, "unsafe-character"),
        (["a", "\x1b[2J"], False, "unsafe-character"),
        (["a", "x" * (LONGEST_CELL + 1)], False, "cell-too-long"),
        (["a", "\ufffd"], True, "not-in-encoding"),
    ],
)
def test_faults_of_cells(texts: list[str], lossy: bool, code: str) -> None:
    """The column and the code of the first one."""
    fault = fault_in(texts, lossy)
    assert fault is not None
    assert fault[:2] == (1, code)


def test_ordinary_cells_have_no_fault() -> None:
    """Tabs, line ends, marks and a replaced character that came so are no fault of the reader's."""
    assert fault_in(["a\tb\nc", "\u200b", "\ufffd", "x" * LONGEST_CELL], lossy=False) is None


def test_places_in_a_csv_file() -> None:
    """The line and the character at which the cell begins, over lines too; the row alone beyond its end."""
    row = GridRow(7, ("a;b", "c\nd", "e"), source='"a;b";"c\nd";e')
    grid = Grid("lab.csv", FileKind.CSV, (row,), ";", "utf-8")
    assert [str(grid.place(row, column)) for column in range(4)] == [
        "lab.csv:7:1",
        "lab.csv:7:7",
        "lab.csv:8:4",
        "lab.csv:7",
    ]
    assert [row.cell(column) for column in (0, 2, 3)] == ["a;b", "e", ""]


def test_places_in_a_sheet() -> None:
    """Its row, the number of its column, and a path."""
    row = GridRow(7, ("a",))
    place = Grid("lab.xlsx", FileKind.XLSX, (row,), sheet="Results").place(row, 2)
    assert (place.line, place.column, place.path) == (7, 3, "sheet Results, C7")


def test_letters_count_on() -> None:
    """The last column of a sheet is XFD."""
    assert [column_letters(column) for column in (0, 25, 26, 701, 702, 16_383)] == ["A", "Z", "AA", "ZZ", "AAA", "XFD"]
