"""One table in the dialects of laboratories, and files that are none."""

from __future__ import annotations

import codecs
import io
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest

from soilrota.files import read_grid
from soilrota.files.csv_grids import LARGEST_CSV
from soilrota.model.laboratory_files import FileKind, GridForm
from tests.hostile.making import HEADINGS, table_rows

_TABLE = [[cell.replace("R1", "R1 µ") for cell in row] for row in table_rows(12)]


def _csv(delimiter: str, sign: str = ".") -> str:
    """Return the table as CSV, figures with this decimal sign."""
    rows = [[*row[:4], *(cell.replace(".", sign) for cell in row[4:])] for row in _TABLE]
    return "".join(delimiter.join(row) + "\r\n" for row in [list(HEADINGS), *rows])


def _workbook() -> bytes:
    """Return the table as a workbook under two merged title rows, figures as numbers."""
    book = openpyxl.Workbook()
    sheet = book.active
    for number, title in enumerate(("Soil results", "spring 2027"), start=1):
        sheet.cell(number, 1, title)
        sheet.merge_cells(start_row=number, end_row=number, start_column=1, end_column=7)
    sheet.append(HEADINGS)
    for row in _TABLE:
        sheet.append([*row[:4], *map(float, row[4:])])
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


@pytest.mark.parametrize(
    ("make", "name", "found"),
    [
        (lambda: _csv(",").encode(), "lab.csv", (FileKind.CSV, ",", "utf-8")),
        (lambda: _csv(";", ",").encode(), "lab.csv", (FileKind.CSV, ";", "utf-8")),
        (lambda: codecs.BOM_UTF16_LE + _csv("\t", ",").encode("utf-16-le"), "lab.txt", (FileKind.CSV, "\t", "utf-16")),
        (lambda: _csv(";", ",").encode("cp1252"), "lab.csv", (FileKind.CSV, ";", "windows-1252")),
        (_workbook, "lab.xlsx", (FileKind.XLSX, "", "")),
    ],
)
def test_the_same_table_in_five_dialects(
    tmp_path: Path, make: Callable[[], bytes], name: str, found: tuple[FileKind, str, str]
) -> None:
    """Every cell comes back; a number is the same number."""
    file = tmp_path / name
    file.write_bytes(make())
    grid, problems = read_grid(file, f"inbox/{name}", GridForm())
    assert problems == ()
    assert grid is not None
    assert (grid.kind, grid.delimiter, grid.encoding) == found
    rows = grid.rows[-13:]
    assert rows[0].cells == HEADINGS
    for row, wanted in zip(rows[1:], _TABLE, strict=True):
        assert row.cells[:4] == tuple(wanted[:4])
        assert [float(cell.replace(",", ".")) for cell in row.cells[4:]] == [float(cell) for cell in wanted[4:]]
        assert row.numeric == (frozenset({4, 5, 6}) if grid.kind is FileKind.XLSX else frozenset())
        assert row.wrong is None
        assert grid.place(row, 0).file == f"inbox/{name}"
        assert grid.place(row, 0).line == row.number


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b"", "empty-document"),
        (b"%PDF-1.7", "not-a-table"),
        (b"PK\x03\x04", "damaged-workbook"),
        (b"x" * (LARGEST_CSV + 1), "too-large"),
    ],
)
def test_files_that_are_no_table(tmp_path: Path, raw: bytes, code: str) -> None:
    """One located problem with its mend, and no grid."""
    file = tmp_path / "lab.csv"
    file.write_bytes(raw)
    grid, (problem,) = read_grid(file, "lab.csv")
    assert grid is None
    assert (problem.code, problem.place.file, bool(problem.mend)) == (code, "lab.csv", True)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    """Is said, not raised; so is a folder."""
    for file in (tmp_path / "none.csv", tmp_path):
        assert [problem.code for problem in read_grid(file, "none.csv")[1]] == ["cannot-read"]


def test_an_ending_that_says_otherwise_is_a_note(tmp_path: Path) -> None:
    """The content counts."""
    for name, raw, kind in (("a.csv", _workbook(), FileKind.XLSX), ("a.XLSX", _csv(";").encode(), FileKind.CSV)):
        file = tmp_path / name
        file.write_bytes(raw)
        grid, _ = read_grid(file, name)
        assert grid is not None
        assert (grid.kind, [note.code for note in grid.notes]) == (kind, ["other-ending"])
