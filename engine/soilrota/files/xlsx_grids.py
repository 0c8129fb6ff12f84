"""Reads one sheet of a workbook (XLSX) into a grid.

Formulas are never reckoned: the value that the laboratory's program stored is used, and a formula without one makes its
row wrong. A number becomes the shortest text that reads back to it, with a point; a day becomes ISO 8601.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from typing import Any

from soilrota.files.grid_rows import MOST_ROWS, Grid, GridRow, clean, fault_in, has_marks, marks_note, sheet_place
from soilrota.files.sheet_scan import SheetScan, scan_sheet, shared_lengths
from soilrota.files.workbooks import Sheet, Workbook, choose_sheet, lone_sheet, open_workbook, sheet_notes
from soilrota.files.xml_parts import PartRefusedError
from soilrota.files.zip_parts import DamagedPartError, damaged, open_parts
from soilrota.model.laboratory_files import FileKind
from soilrota.problems import Place, Problem, error, warning

#: Largest file [byte].
LARGEST_XLSX = 20_000_000


def read_xlsx_grid(raw: bytes, name: str, sheet: str = "") -> tuple[Grid | None, tuple[Problem, ...]]:
    """Return the rows of a sheet of a workbook.

    Args:
        raw: bytes of the file.
        name: its name, for places.
        sheet: name of the sheet; empty for the first one that is not hidden.

    Returns:
        The grid; or None and the problem that keeps the whole file from being read. What is wrong with a row stands in
        the row.
    """
    parts = open_parts(raw, name)
    if isinstance(parts, Problem):
        return None, (parts,)
    try:
        book = open_workbook(parts)
        chosen = choose_sheet(book, sheet, name)
        if isinstance(chosen, Problem):
            return None, (chosen,)
        part = parts.read(chosen.part)
        if part is None:
            return None, (damaged(Place(name), f"sheet `{chosen.name}` is missing from the archive"),)
        scan = scan_sheet(part, shared_lengths(book.shared))
    except DamagedPartError as fault:
        return None, (damaged(Place(name), str(fault)),)
    except PartRefusedError as fault:
        return None, (_refused(fault, name),)
    read = _values(part, book)
    if read is None:
        return None, (damaged(Place(name), f"sheet `{chosen.name}` cannot be read"),)
    return _grid(read, scan, chosen, sheet_notes(book, chosen, parts, sheet, name), name)


def _refused(fault: PartRefusedError, name: str) -> Problem:
    """Return the problem of a part that is not handed on."""
    place = Place(name, fault.row)
    if fault.code == "damaged-workbook":
        return damaged(place, fault.found)
    expected = f"at most {MOST_ROWS:,} rows, and no cell far from the others"
    return error(fault.code, place, fault.found, expected, "delete what stands far from the table, or save it as CSV")


def _values(part: bytes, book: Workbook) -> list[tuple[int, list[Any]]] | None:
    """Return the number of each row with values, and its values from column A on; None for a damaged sheet."""
    from python_calamine import load_workbook  # noqa: PLC0415 - a quiet night needs none of it

    try:
        sheet = load_workbook(lone_sheet(part, book)).get_sheet_by_index(0)
        left = sheet.start[1] if sheet.start else 0
        return list(_filled_rows(sheet.iter_rows(), left))
    except Exception:  # noqa: BLE001 - whatever the reader makes of a damaged sheet, it costs that file alone
        return None
    except BaseException as fault:
        # A panic of the reader's native code is no Exception, and its type has no name to import.
        if type(fault).__name__ == "PanicException":
            return None
        raise


def _filled_rows(rows: Iterator[list[Any]], left: int) -> Iterator[tuple[int, list[Any]]]:
    """Yield the number of each row that has a value, and its values up to the last one."""
    for number, values in enumerate(rows, start=1):
        while values and values[-1] == "":
            values.pop()
        if values:
            yield number, [""] * left + values


def _grid(
    read: list[tuple[int, list[Any]]], scan: SheetScan, sheet: Sheet, notes: list[Problem], name: str
) -> tuple[Grid | None, tuple[Problem, ...]]:
    """Return the rows of a sheet, with what the reader did not say of them."""
    by_number = dict(read)
    for number, column in scan.errors:
        values = by_number.setdefault(number, [])
        values += [""] * (column + 1 - len(values))
    for number in (*scan.unreckoned, *scan.odd):
        by_number.setdefault(number, [])
    rows = []
    marked: Place | None = None
    for number in sorted(by_number):
        values = by_number[number]
        texts = [scan.errors.get((number, column)) or _text(value) for column, value in enumerate(values)]
        numeric = frozenset(column for column, value in enumerate(values) if _is_number(value))
        cells = tuple(map(clean, texts))
        wrong = _wrong(number, values, texts, scan, Grid(name, FileKind.XLSX, (), sheet=sheet.name))
        if any(cells) or wrong is not None:
            rows.append(GridRow(number, cells, wrong, numeric))
        if marked is None and any(map(has_marks, texts)):
            marked = Place(name, number)
    if not rows:
        mend = "name the right sheet, or ask the laboratory for the file again"
        return None, (error("empty-document", Place(name, 1), f"sheet `{sheet.name}` is empty", "a table", mend),)
    if scan.formulas:
        notes = [*notes, _formula_note(scan.formulas, Place(name))]
    if marked is not None:
        notes = [*notes, marks_note(marked)]
    return Grid(name, FileKind.XLSX, tuple(rows), sheet=sheet.name, notes=tuple(notes)), ()


def _wrong(number: int, values: list[Any], texts: list[str], scan: SheetScan, grid: Grid) -> Problem | None:
    """Return what is wrong with a row as a whole."""
    place = sheet_place(grid.name, grid.sheet, number, scan.unreckoned.get(number, scan.odd.get(number, 0)))
    if number in scan.unreckoned:
        mend = "open the file in a spreadsheet, save it, and drop it again; or write the value instead of the formula"
        return error("formula-without-value", place, "the cell holds a formula without its value", "a value", mend)
    told = sum(value != "" for value in values)
    if number in scan.odd or told != scan.filled.get(number, 0):
        mend = "save the workbook again as XLSX or CSV and drop it again"
        return error("damaged-row", place, "cells of the row cannot be told for certain", "each cell once", mend)
    for column, value in enumerate(values):
        if isinstance(value, float) and not math.isfinite(value):
            at = sheet_place(grid.name, grid.sheet, number, column)
            return error(
                "not-a-number", at, "the cell holds a number that is none", "a number", "write the value again"
            )
    fault = fault_in(texts, lossy=False)
    if fault is None:
        return None
    column, code, found, mend = fault
    return error(code, sheet_place(grid.name, grid.sheet, number, column), found, "", mend)


def _is_number(value: Any) -> bool:
    """Return whether a value was stored as a number."""
    return isinstance(value, int | float) and not isinstance(value, bool)


def _text(value: Any) -> str:
    """Return a value of a sheet as text.

    >>> _text(5.0), _text(0.1), _text(True), _text(datetime(2027, 3, 1)), _text(timedelta(hours=30))
    ('5', '0.1', 'TRUE', '2027-03-01', '30:00:00')
    """
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return repr(value).removesuffix(".0")
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat()
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, timedelta):
        minutes, seconds = divmod(round(value.total_seconds()), 60)
        return f"{minutes // 60}:{minutes % 60:02}:{seconds:02}"
    return str(value)


def _formula_note(count: int, place: Place) -> Problem:
    """Return the warning that values come from formulas."""
    found = f"{count:,} cells hold formulas; the values that were stored with them are used"
    return warning("formulas", place, found, "", "nothing, where the laboratory's program reckoned them")
