"""CSV cells, against the standard library's reader, with the places that it does not give."""

from __future__ import annotations

import csv
import io

from hypothesis import given, settings
from hypothesis import strategies as st

from soilrota.files.cells import split_rows
from soilrota.problems import Problem

TEXTS = st.text(alphabet=st.sampled_from('ab,"\n é;'), max_size=6)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.lists(TEXTS, min_size=2, max_size=4), max_size=5))
def test_cells_equal_the_standard_reader(rows: list[list[str]]) -> None:
    """What the standard writer writes comes back, and each cell's place points at its beginning."""
    file = io.StringIO(newline="")
    csv.writer(file, lineterminator="\n").writerows(rows)
    text = file.getvalue()
    found = list(split_rows(text, "x.csv"))
    assert not any(isinstance(row, Problem) for row in found)
    assert [[cell.text for cell in row] for row in found if not isinstance(row, Problem)] == rows
    lines = text.split("\n")
    for row in found:
        for cell in row if not isinstance(row, Problem) else ():
            rest = "\n".join(lines[cell.line - 1 :])[cell.column - 1 :]
            assert rest.startswith((cell.text, '"'))


def test_empty_lines_are_passed_over() -> None:
    """Blank lines are no rows, and lines go on counting."""
    rows = list(split_rows("a,b\n\n\nc,d", "x.csv"))
    assert [row[0].line for row in rows if not isinstance(row, Problem)] == [1, 4]


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet='a,"\n\r'))
def test_no_text_raises(text: str) -> None:
    """Any text ends in rows and problems."""
    assert isinstance(list(split_rows(text, "x.csv")), list)
