"""Which sheet is read, and the small workbook that is made of it."""

from __future__ import annotations

import pytest
from python_calamine import load_workbook

from soilrota.files.workbooks import (
    Sheet,
    Workbook,
    choose_sheet,
    lone_sheet,
    open_workbook,
    per_cent_styles,
    sheet_notes,
)
from soilrota.files.xml_parts import PartRefusedError
from soilrota.files.zip_parts import Parts, open_parts
from soilrota.problems import Problem
from tests.hostile.making import sheet_xml, table_rows, workbook_parts, zipped

_FULL = sheet_xml(table_rows(3))
_EMPTY = "<worksheet><sheetData/></worksheet>"


def _parts(parts: dict[str, str]) -> Parts:
    """Return the parts of a workbook."""
    opened = open_parts(zipped(parts), "a.xlsx")
    assert isinstance(opened, Parts)
    return opened


def _book(hidden: str) -> Workbook:
    """Return a workbook of sheets A, B, C ...: `h` for each that is hidden, `v` for one that can be seen."""
    sheets = tuple(Sheet(name, f"xl/{name}.xml", each == "h") for name, each in zip("ABCD", hidden, strict=False))
    return Workbook(sheets, None, None, from_1904=False)


def test_the_first_sheet_that_can_be_seen() -> None:
    """Or the one that is named, hidden or not; blanks and capitals do not count."""
    assert choose_sheet(_book("hvv"), "", "a.xlsx") == Sheet("B", "xl/B.xml", hidden=False)
    assert choose_sheet(_book("hvv"), " a ", "a.xlsx") == Sheet("A", "xl/A.xml", hidden=True)


def test_a_sheet_that_is_not_there() -> None:
    """The problem names those that are, and the nearest."""
    book = Workbook((Sheet("Results", "x", hidden=False), Sheet("Old", "y", hidden=False)), None, None, from_1904=False)
    problem = choose_sheet(book, "Result", "a.xlsx")
    assert isinstance(problem, Problem)
    assert problem.code == "unknown-sheet"
    assert "`Results`, `Old`" in problem.expected
    assert "`Results`" in problem.mend
    assert isinstance(choose_sheet(_book("h"), "", "a.xlsx"), Problem)


def test_sheets_are_found_through_their_relations() -> None:
    """In the order of the workbook; relations to the outside and charts are none."""
    parts = workbook_parts({"First": _FULL, "Second": _EMPTY})
    book = open_workbook(_parts(parts))
    assert [(sheet.name, sheet.part) for sheet in book.sheets] == [
        ("First", "xl/worksheets/sheet1.xml"),
        ("Second", "xl/worksheets/sheet2.xml"),
    ]
    rels = parts["xl/_rels/workbook.xml.rels"]
    parts["xl/_rels/workbook.xml.rels"] = rels.replace('Id="r1"', 'Id="r1" TargetMode="External"')
    assert [sheet.name for sheet in open_workbook(_parts(parts)).sheets] == ["Second"]
    parts["xl/_rels/workbook.xml.rels"] = rels.replace("worksheets/sheet1.xml", "/xl/worksheets/sheet1.xml")
    assert open_workbook(_parts(parts)).sheets[0].part == "xl/worksheets/sheet1.xml"


def test_a_workbook_without_its_list_is_refused() -> None:
    """Which sheet is which cannot be told."""
    parts = workbook_parts({"First": _FULL})
    del parts["xl/workbook.xml"]
    with pytest.raises(PartRefusedError):
        open_workbook(_parts(parts))


def test_other_sheets_with_values_are_noted() -> None:
    """Unless the sheet was named, or the others are empty."""
    parts = _parts(workbook_parts({"First": _FULL, "Second": _EMPTY, "Third": _FULL}))
    book = open_workbook(parts)
    (note,) = sheet_notes(book, book.sheets[0], parts, "", "a.xlsx")
    assert note.code == "other-sheets"
    assert "Third" in note.found
    assert "Second" not in note.found
    assert sheet_notes(book, book.sheets[0], parts, "First", "a.xlsx") == []


def test_the_small_workbook_holds_the_sheet_alone() -> None:
    """A reader finds the values."""
    made = load_workbook(lone_sheet(_FULL.encode(), _book("v")))
    assert made.sheet_names == ["sheet"]
    assert made.get_sheet_by_index(0).to_python()[1][0] == "B00000"


def test_styles_that_show_per_cent() -> None:
    """Built in or declared; a sign in quotes is text."""
    styles = (
        '<styleSheet><numFmts><numFmt numFmtId="164" formatCode="0.000%"/>'
        '<numFmt numFmtId="165" formatCode="0&quot;%&quot;"/>'
        '</numFmts><cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>'
        '<cellXfs><xf numFmtId="0"/><xf numFmtId="9"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs></styleSheet>'
    )
    assert per_cent_styles(styles.encode()) == frozenset({"1", "2"})
    assert per_cent_styles(None) == frozenset()
