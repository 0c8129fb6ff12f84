"""Rows set aside, written, mended and dropped again."""

from __future__ import annotations

from dataclasses import replace

from soilrota.results.set_aside_table import set_aside_table
from tests.results.laboratory_grids import column, forms, grid, reasons, taken, written

DIGEST = "0123456789abcdef" * 4
BOOK = {
    "name": "book",
    "kind": "xlsx",
    "sheet": "Soil",
    "sample": "Tag",
    "report": {"label": "Report no."},
    "sampled": "Taken",
    "columns": [column("P", "phosphorus.olsen", unit_row=True), column("pH", "ph.water", "pH")],
}
ROWS = (
    ["Report no.", "77"],
    ["Tag", "Taken", "P", "pH"],
    ["", "", "mg/kg", ""],
    ["B-1", "2026-02-20", "12.125", "x"],
    ["", "2026-02-20", "=1+1"],
    ["B-3", "2026-02-20", "14", "6.1"],
)


def test_what_is_written() -> None:
    """The rows above, our two headings, the units, and each row with its name, its reasons and all its cells."""
    known = forms(BOOK)
    file = taken(grid(*ROWS, kind="xlsx", numeric=True, sheet="Soil"), *known)
    assert (file.rows_read, len(file.rows)) == (3, 1)
    table = set_aside_table(file, file.set_aside, DIGEST)
    assert table[:3] == (
        ("", "", "Report no.", "77"),
        ("set aside as", "because", "Tag", "Taken", "P", "pH"),
        ("", "", "", "", "mg/kg", ""),
    )
    first, second = table[3:]
    assert first[0] == "0123456789ab:4"
    assert "'x'" in first[1]
    assert "To mend: " in first[1]
    # Three digits behind a point may be a group where nobody declared the sign; a nought makes them decimals.
    assert first[2:] == ("B-1", "2026-02-20", "12.1250", "x")
    assert second[1].count(" | ") == len(file.set_aside[1].reasons) - 1 == 1
    assert second[2:] == ("", "2026-02-20", "=1+1", "")


def test_a_mended_row_says_what_it_should_and_where_it_comes_from() -> None:
    """Mended in a spreadsheet and dropped again: read by the same form, though it is CSV now.

    A row that is set aside once more is named by the file that it came back in.
    """
    known = forms(BOOK)
    file = taken(grid(*ROWS, kind="xlsx", numeric=True, sheet="Soil"), *known)
    table = [list(row) for row in set_aside_table(file, file.set_aside, DIGEST)]
    table[3][5] = "6.2"
    again = taken(written(table), *known)
    (row,) = again.rows
    assert (row.origin, row.sample, row.report, str(row.sampled)) == ("0123456789ab:4", "B-1", "77", "2026-02-20")
    assert [value.value for value in row.values] == [12.125, 6.2]
    assert reasons(again) == [["no-sample", "cell-refused"]]
    third = [list(one) for one in set_aside_table(again, again.set_aside, "f" * 64)]
    name = f"{'f' * 12}:{again.set_aside[0].number}"
    assert third[3][0] == name
    third[3][2:] = ["B-2", "2026-02-20", "13", "6"]
    (last,) = taken(written(third), *known).rows
    assert (last.origin, [value.value for value in last.values]) == (name, [13, 6])


def test_untouched_rows_are_set_aside_again_for_the_same_reasons() -> None:
    """Nothing is lost where nothing was mended."""
    known = forms(BOOK)
    file = taken(grid(*ROWS, kind="xlsx", numeric=True, sheet="Soil"), *known)
    again = taken(written(set_aside_table(file, file.set_aside, DIGEST)), *known)
    assert reasons(again) == reasons(file)
    assert [row.cells for row in again.set_aside] == [
        replace(row).cells + ("",) * (4 - len(row.cells)) for row in file.set_aside
    ]
