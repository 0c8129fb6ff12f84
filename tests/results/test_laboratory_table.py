"""The laboratory's table: new, or one of ours that came back."""

from __future__ import annotations

from soilrota.results.laboratory_table import BECAUSE, SET_ASIDE_AS, as_table
from tests.results.laboratory_grids import grid

ORIGIN = "0123456789ab:7"


def test_a_new_file_stays_as_it_is() -> None:
    """No cell is taken away, no row has an origin; a file that only looks like ours is none."""
    for headings in (["Bag", "pH"], [SET_ASIDE_AS, "Bag"], ["Set aside as", BECAUSE]):
        table = as_table(grid(headings, ["'B-1", "5.2"], ["", ""]))
        assert not table.is_ours
        assert [row.cells for row in table.rows] == [tuple(headings), ("'B-1", "5.2"), ("", "")]
        assert [row.is_empty for row in table.rows] == [False, False, True]
        assert {row.origin for row in table.rows} == {""}


def test_our_own_columns_are_taken_away() -> None:
    """Rows know where they came from; places stay those of the file; formulas lose their guard."""
    table = as_table(
        grid(
            ["", "", "Report no.", "'=7"],
            [SET_ASIDE_AS, BECAUSE, "Bag", "pH"],
            [ORIGIN, "why", "B-1", "'-"],
            ["", "", "B-2", "5"],
            ["row 7", "why", "B-3", "5"],
            ["", "", "", ""],
        )
    )
    assert table.is_ours
    above, headings, first, new, bad, empty = table.rows
    assert above.cells == ("Report no.", "=7")
    assert headings.cells == ("Bag", "pH")
    assert (first.cells, first.origin) == (("B-1", "-"), ORIGIN)
    assert (new.origin, new.wrong, empty.is_empty) == ("", None, True)
    assert bad.wrong is not None
    assert (bad.wrong.code, bad.wrong.place.column) == ("bad-origin", 1)
    assert table.place(first, 0) == table.grid.place(table.grid.rows[2], 2)


def test_cells_beyond_a_row_are_empty() -> None:
    """A row that is shorter than the headings has empty cells there."""
    (row,) = as_table(grid([" B-1 "])).rows
    assert [row.cell(column) for column in (0, 1, None)] == ["B-1", "", ""]
