"""Rows of CSV text: RFC 4180 against the standard library, and what a stray quote costs."""

from __future__ import annotations

import csv
import io
import time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.files.csv_rows import cell_begin, row_at

_CELLS = st.text(st.sampled_from('ab;"\n\r 1,'), max_size=6)


def _rows(text: str, delimiter: str = ";", usual: int = 0) -> list[tuple[int, list[str], str]]:
    """Return line, cells and fault of each row."""
    rows = []
    at, line = 0, 1
    while at < len(text):
        row = row_at(text, at, delimiter, usual)
        rows.append((line, row.cells, row.wrong))
        at, line = row.after, line + row.lines
    return rows


@given(
    st.lists(st.lists(_CELLS, min_size=2, max_size=4), max_size=6),
    st.sampled_from([("\n", csv.QUOTE_ALL), ("\r\n", csv.QUOTE_MINIMAL)]),
)
def test_what_the_standard_library_writes_comes_back(table: list[list[str]], style: tuple[str, Any]) -> None:
    """Quoted delimiters, quotes and line ends come back as they went."""
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=";", lineterminator=style[0], quoting=style[1]).writerows(table)
    assert [cells for _, cells, _ in _rows(text.getvalue())] == table


@given(st.text(st.sampled_from('ab;"\n\r'), max_size=40), st.integers(0, 3))
def test_no_text_is_lost(text: str, usual: int) -> None:
    """Whatever the text, rows follow each other without a gap, and lines are counted as they stand."""
    at, line = 0, 1
    while at < len(text):
        row = row_at(text, at, ";", usual)
        assert row.after > at
        assert row.after - row.end <= 2
        lines = text[at : row.after].replace("\r\n", "\n").replace("\r", "\n").count("\n")
        assert lines in {row.lines, row.lines - 1}
        assert row.wrong in {"", "open-quotes", "text-after-quotes"}
        at, line = row.after, line + row.lines


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ('a;"b\nc;d', [(1, ["a", '"b'], "open-quotes"), (2, ["c", "d"], "")]),
        ('a;"b"x\nc;d', [(1, ["a", '"b"x'], "text-after-quotes"), (2, ["c", "d"], "")]),
        ('a;"b" \nc;d', [(1, ["a", "b"], ""), (2, ["c", "d"], "")]),
        ('a;"b\nc";d\ne;f', [(1, ["a", "b\nc", "d"], ""), (3, ["e", "f"], "")]),
        ('a;5" core\nc;d', [(1, ["a", '5" core'], ""), (2, ["c", "d"], "")]),
        ('"a""";""\r\rb', [(1, ['a"', ""], ""), (2, [""], ""), (3, ["b"], "")]),
        (
            'a;"b;c\n"d";e;f\ng;h;i',
            [(1, ["a", '"b', "c"], "text-after-quotes"), (2, ["d", "e", "f"], ""), (3, ["g", "h", "i"], "")],
        ),
    ],
)
def test_a_bad_row_ends_at_its_line(text: str, rows: list[tuple[int, list[str], str]]) -> None:
    """Reading goes on at the next line."""
    assert _rows(text) == rows


def test_two_rows_with_a_stray_quote_each_stay_two() -> None:
    """By RFC 4180 they are one row; where each line is a full row by itself that is not believed."""
    text = 'a;"b;c\nd;e";f\n'
    assert _rows(text) == [(1, ["a", "b;c\nd;e", "f"], "")]
    assert _rows(text, usual=3) == [(1, ["a", '"b', "c"], "open-quotes"), (2, ["d", 'e"', "f"], "")]


def test_a_cell_over_lines_longer_than_a_cell_is_an_open_quote() -> None:
    """A quote at the top and another at the bottom do not make one cell of a whole file."""
    text = '"a;b\n' + "c;d\n" * 3_000 + '";e\n'
    assert _rows(text)[:2] == [(1, ['"a', "b"], "open-quotes"), (2, ["c", "d"], "")]


def test_quotes_take_time_in_proportion() -> None:
    """A text of nothing but quotes, and lines that each open one, are read once, not once a line."""

    def seconds(size: int) -> float:
        begin = time.process_time()
        for text in ('"' * size, '"x\n' * (size // 3), ';"""\n' * (size // 5), 'a;"' + '""\n' * (size // 3)):
            _rows(text)
        return time.process_time() - begin

    seconds(10_000)
    assert seconds(800_000) < 40 * max(seconds(100_000), 0.005)


def test_the_begin_of_a_cell() -> None:
    """Quotes round cells before it are counted."""
    assert [cell_begin('"a;b";c;"d', column, ";") for column in range(5)] == [0, 3, 6, 8, None]
    assert [cell_begin('"a;b";c', column, ";") for column in range(3)] == [0, 6, None]
    assert cell_begin("a", -1, ";") is None
