"""Workbooks to grids: values as they were stored."""

from __future__ import annotations

import io
from datetime import date, datetime, time, timedelta
from typing import Any

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.files.grid_rows import Grid
from soilrota.files.xlsx_grids import read_xlsx_grid
from tests.hostile.making import sheet_xml, table_rows, workbook_parts, zipped


def _saved(book: openpyxl.Workbook) -> bytes:
    """Return a workbook as it is saved."""
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def _grid(raw: bytes, sheet: str = "") -> Grid:
    """Return the grid of a workbook that can be read."""
    grid, problems = read_xlsx_grid(raw, "lab.xlsx", sheet)
    assert problems == ()
    assert grid is not None
    return grid


def _written(values: list[list[Any]]) -> bytes:
    """Return a workbook of one sheet with these values from A1 on."""
    book = openpyxl.Workbook()
    for row in values:
        book.active.append(row)
    return _saved(book)


def test_values_become_text() -> None:
    """Numbers with a point, days in ISO 8601, words for true and false; numbers are told from text."""
    moment = datetime(2027, 3, 1, 10, 5)  # noqa: DTZ001 - a sheet knows no time zones
    row = ["B1", 5, 5.5, 1234.0, -0.25, True, date(2027, 3, 1), moment, time(10, 5)]
    (read,) = _grid(_written([[*row, timedelta(hours=30), "5,5"]])).rows
    assert read.cells == (
        *("B1", "5", "5.5", "1234", "-0.25", "TRUE", "2027-03-01", "2027-03-01T10:05:00", "10:05:00"),
        *("30:00:00", "5,5"),
    )
    assert read.numeric == frozenset({1, 2, 3, 4})
    assert read.wrong is None


@given(st.lists(st.floats(allow_nan=False, allow_infinity=False), min_size=1, max_size=20))
def test_any_number_reads_back(numbers: list[float]) -> None:
    """To the same number, bit for bit but for the sign of nought."""
    cells = "".join(f"<c><v>{number!r}</v></c>" for number in numbers)
    sheet = f"<worksheet><sheetData><row>{cells}</row></sheetData></worksheet>"
    (row,) = _grid(zipped(workbook_parts({"R": sheet}))).rows
    assert [float(cell) for cell in row.cells] == numbers
    assert row.numeric == frozenset(range(len(numbers)))


@given(
    st.lists(st.lists(st.integers(-5, 5), max_size=4), min_size=1, max_size=6), st.integers(1, 30), st.integers(0, 9)
)
def test_rows_and_columns_keep_their_numbers(table: list[list[int]], top: int, left: int) -> None:
    """Wherever the table begins; nought is a value and not an empty cell."""
    book = openpyxl.Workbook()
    for down, row in enumerate(table):
        for right, value in enumerate(row):
            book.active.cell(top + down, left + right + 1, value)
    grid, problems = read_xlsx_grid(_saved(book), "lab.xlsx")
    expected = [(top + down, ("",) * left + tuple(map(str, row))) for down, row in enumerate(table) if row]
    assert ([(row.number, row.cells) for row in grid.rows] if grid else []) == expected
    assert [problem.code for problem in problems] == ([] if expected else ["empty-document"])


def test_a_merged_title_stands_in_its_first_cell() -> None:
    """The others are empty; places are those of the sheet."""
    book = openpyxl.Workbook()
    book.active.title = "Results"
    book.active["B2"] = "Soil results"
    book.active.merge_cells("B2:F3")
    book.active["B5"] = "Bag"
    grid = _grid(_saved(book))
    assert [(row.number, row.cells) for row in grid.rows] == [(2, ("", "Soil results")), (5, ("", "Bag"))]
    assert grid.place(grid.rows[1], 1).path == "sheet Results, B5"
    assert (grid.sheet, grid.delimiter, grid.encoding) == ("Results", "", "")


def test_formulas_are_never_reckoned() -> None:
    """The stored value counts; without one the row is wrong; one note says how many there are."""
    rows = (
        '<row r="9"><c r="A9"><v>1</v></c><c r="B9"><f>A9+1</f><v>7</v></c></row>'
        '<row r="10"><c r="A10"><v>1</v></c><c r="B10"><f>A10+1</f></c></row>'
        '<row r="11"><c r="C11"><f>A10+1</f></c></row>'
    )
    grid = _grid(zipped(workbook_parts({"Results": sheet_xml(table_rows(2), extra=rows)})))
    good, *bad = grid.rows[3:]
    assert (good.cells, good.wrong) == (("1", "7"), None)
    assert [(row.number, row.wrong and (row.wrong.code, row.wrong.place.path)) for row in bad] == [
        (10, ("formula-without-value", "sheet Results, B10")),
        (11, ("formula-without-value", "sheet Results, C11")),
    ]
    assert [note.code for note in grid.notes] == ["formulas"]
    assert "3 cells" in grid.notes[0].found


def test_error_values_keep_their_text() -> None:
    """At the end of a row, in it, and alone in it."""
    rows = (
        '<row r="9"><c r="A9" t="e"><v>#N/A</v></c><c r="B9"><v>1</v></c></row>'
        '<row r="10"><c r="A10"><v>1</v></c><c r="C10" t="e"><v>#DIV/0!</v></c></row>'
        '<row r="11"><c r="B11" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>'
    )
    grid = _grid(zipped(workbook_parts({"Results": sheet_xml(table_rows(2), extra=rows)})))
    assert [(row.cells, row.wrong) for row in grid.rows[3:]] == [
        (("#N/A", "1"), None),
        (("1", "", "#DIV/0!"), None),
        (("", "#DIV/0!"), None),
    ]


def test_days_may_count_from_1904() -> None:
    """As the workbook says."""
    book = openpyxl.Workbook()
    book.epoch = openpyxl.utils.datetime.CALENDAR_MAC_1904
    book.active.append([date(2027, 3, 1)])
    assert _grid(_saved(book)).rows[0].cells == ("2027-03-01",)


def test_sheets() -> None:
    """The first, the named one, and one that is empty."""
    book = openpyxl.Workbook()
    book.active.append(["first"])
    book.create_sheet("Second").append(["second"])
    book.create_sheet("Third")
    raw = _saved(book)
    grid = _grid(raw)
    assert (grid.sheet, [note.code for note in grid.notes]) == ("Sheet", ["other-sheets"])
    assert _grid(raw, "second").rows[0].cells == ("second",)
    assert [problem.code for problem in read_xlsx_grid(raw, "lab.xlsx", "Third")[1]] == ["empty-document"]
    assert [problem.code for problem in read_xlsx_grid(raw, "lab.xlsx", "Secnd")[1]] == ["unknown-sheet"]


@pytest.mark.parametrize(
    ("cell", "code"),
    [
        ('<c r="B9"><v>1</v></c><c r="B9"><v>2</v></c>', "damaged-row"),
        ('<c r="B9" t="str"><v><![CDATA[x]]></v></c>', "damaged-row"),
        ('<c r="B9"><v>1e999</v></c>', "not-a-number"),
        ('<c r="B9" t="str"><v>a_x0007_</v></c>', "unsafe-character"),
        (f'<c r="B9" t="str"><v>{"x" * 5_001}</v></c>', "cell-too-long"),
    ],
)
def test_a_bad_cell_costs_its_row(cell: str, code: str) -> None:
    """The others are read."""
    rows = f'<row r="9"><c r="A9"><v>1</v></c>{cell}</row><row r="10"><c r="A10"><v>1</v></c></row>'
    raw = zipped(workbook_parts({"Results": sheet_xml(table_rows(2), extra=rows)}), packed=False)
    rows_read = _grid(raw).rows
    assert [row.wrong and row.wrong.code for row in rows_read] == [None, None, None, code, None]
    assert rows_read[3].wrong is not None
    assert rows_read[3].wrong.place.line == 9


def test_fractions_shown_as_per_cent_are_noted() -> None:
    """The stored number is read, and a person is told."""
    book = openpyxl.Workbook()
    book.active.append(["C", 0.0125])
    book.active["B1"].number_format = "0.00%"
    grid = _grid(_saved(book))
    assert grid.rows[0].cells == ("C", "0.0125")
    assert [(note.code, note.place.path) for note in grid.notes] == [("shown-as-per-cent", "sheet Sheet, B1")]


@pytest.mark.parametrize("space", ["", ' xml:space="preserve"'])
@pytest.mark.parametrize("blank", ["", " ", "&#10;", "&#160;", "\t"])
def test_cells_of_blanks_are_empty(space: str, blank: str) -> None:
    """However they are stored; the row is sound."""
    cells = (
        f'<c r="A9"><v>1</v></c><c r="B9" t="s"><v>0</v></c><c r="C9" t="inlineStr"><is><t{space}>{blank}</t></is></c>'
        f'<c r="D9" t="str"><v{space}>{blank}</v></c><c r="E9"><v>2</v></c>'
    )
    sheet = sheet_xml([], extra=f'<row r="9">{cells}</row>')
    row = _grid(zipped(workbook_parts({"Results": sheet}, f"<si><t{space}>{blank}</t></si>"))).rows[1]
    assert (row.cells, row.wrong) == (("1", "", "", "", "2"), None)
