"""What a sheet holds beyond its values."""

from __future__ import annotations

from array import array

import pytest

from soilrota.files.sheet_scan import SheetScan, scan_sheet, shared_lengths
from soilrota.files.xml_parts import PartRefusedError

_SHARED = array("L", [3, 0])


def _scan(rows: str) -> SheetScan:
    """Return the scan of a sheet of these rows."""
    return scan_sheet(f"<worksheet><sheetData>{rows}</sheetData><c r='A1'><v>1</v></c></worksheet>".encode(), _SHARED)


def test_values_are_counted_by_row() -> None:
    """Numbers, texts, shared texts that are not empty, results of formulas; styles alone are no value."""
    scan = _scan(
        '<row r="2"><c r="A2"><v>1</v></c><c r="B2" t="s"><v>0</v></c><c r="C2" t="s"><v>1</v></c><c r="D2" s="1"/></row>'
        '<row><c t="inlineStr"><is><r><t>a</t></r></is></c><c t="str"><f>1</f><v>b</v></c><c t="str"><f>1</f><v/></c></row>'
    )
    assert scan == SheetScan(filled={2: 2, 3: 2}, formulas=2)


def test_what_a_reader_loses_is_written_down() -> None:
    """Error values, formulas without their value, and cells that readers read differently."""
    scan = _scan(
        '<row r="1"><c r="A1" t="e"><v>#DIV/0!</v></c><c r="B1"><f>1</f></c><c r="C1"><f>1</f><v></v></c></row>'
        '<row r="2"><c r="B2"><v>1</v></c><c r="B2"><v>1</v></c></row>'
        '<row r="3"><c r="C3"><v>1</v><v>1</v></c></row><row r="4"><c r="D4"><v>1<!-- --></v></c></row>'
    )
    assert scan.errors == {(1, 0): "#DIV/0!"}
    assert scan.unreckoned == {1: 1}
    assert scan.odd == {2: 1, 3: 2, 4: 3}
    assert scan.formulas == 2


@pytest.mark.parametrize(
    ("rows", "code", "row"),
    [
        ('<row r="2"/><row r="2"/>', "damaged-workbook", 2),
        ('<row r="2"/><row r="1"/>', "damaged-workbook", 1),
        ('<row r="0"/>', "damaged-workbook", 0),
        ('<row r="99999999999999999999"/>', "damaged-workbook", 0),
        ('<row r="2"><c r="A3"/></row>', "damaged-workbook", 2),
        ('<row r="2"><c r="2"/></row>', "damaged-workbook", 2),
        ('<row r="2"><c r="ABCD2"/></row>', "damaged-workbook", 2),
        ('<row r="2"><c t="?"/></row>', "damaged-workbook", 2),
        ('<row r="2"><c t="s"><v>2</v></c></row>', "damaged-workbook", 2),
        ('<row r="2"><c t="s"><v>-1</v></c></row>', "damaged-workbook", 2),
        ('<row r="2"><c t="e"><v>#ODD</v></c></row>', "damaged-workbook", 2),
        ("</sheetData><sheetData>", "damaged-workbook", 0),
        ('<row r="100001"><c><v>1</v></c></row>', "too-large", 100_001),
        ('<row r="2"><c r="ALM2"><v>1</v></c></row>', "too-large", 2),
        (
            '<row r="1"><c r="A1"><v>1</v></c></row><row r="99999"><c r="AZ99999"><v>1</v></c></row>',
            "too-large",
            99_999,
        ),
    ],
)
def test_what_would_harm_or_be_lost_is_refused(rows: str, code: str, row: int) -> None:
    """With the row where there is one."""
    with pytest.raises(PartRefusedError) as fault:
        _scan(rows)
    assert (fault.value.code, fault.value.row) == (code, row)


def test_cells_without_a_value_may_lie_anywhere() -> None:
    """A style far below the table takes no room."""
    assert _scan('<row r="1048576"><c r="XFD1048576" s="1"/></row>') == SheetScan()


def test_shared_text_counts_as_often_as_it_is_used() -> None:
    """A short sheet may ask for more text than there is memory."""
    rows = "".join(f"<row><c t='s'><v>0</v></c></row>" for _ in range(6))
    with pytest.raises(PartRefusedError) as fault:
        scan_sheet(f"<worksheet><sheetData>{rows}</sheetData></worksheet>".encode(), array("L", [10_000_000]))
    assert (fault.value.code, fault.value.row) == ("too-large", 6)


def test_lengths_of_shared_texts() -> None:
    """Of all their runs; none where there is no such part; asides are refused."""
    part = "<sst><si><t>ab</t></si><si><r><t>cd</t></r> <r><t>µ</t></r></si><si/></sst>"
    assert list(shared_lengths(part.encode())) == [2, 3, 0]
    assert list(shared_lengths(None)) == []
    with pytest.raises(PartRefusedError):
        shared_lengths(b"<sst><si><t>a<!-- -->b</t></si></sst>")
