"""The character between cells, found out."""

from __future__ import annotations

import random

import pytest

from soilrota.files.delimiters import CANDIDATES, find_delimiter, usual_cells


@pytest.mark.parametrize(
    ("text", "delimiter", "usual"),
    [
        ("Bag,pH,P\nB1,5.5,12\n", ",", 3),
        ("Bag;pH;P\n" + "B1;5,5;12,1\n" * 9, ";", 3),
        ("Bag;pH;P;K\n" + "B1;5,5;12,1;100,2\n" * 9, ";", 4),
        ("Bag\tpH\nB1\t5,5\n", "\t", 2),
        ("Bag|pH\nB1|5.5\n", "|", 2),
        ("Soil results, spring\n\nof; a client\nBag;pH;P\nB1;5,5;1\nB2;5,6;1\n", ";", 3),
        ("Bag,Note\n" + 'B1,"wet; cold; dark"\n' * 9, ",", 2),
        ("Bag;Site, block;pH\n" + "B1;North, 3;5,5\n" * 9, ";", 3),
        ("Bag;pH;P;K\nB1;5;6\nB2;5\nB3;5;7;8\nB4;1;2\n", ";", 4),
        ("Bag;pH CaCl2;P", ";", 3),
    ],
)
def test_found(text: str, delimiter: str, usual: int) -> None:
    """Decimal commas, titles and text that holds other candidates do not disturb."""
    found = find_delimiter(text)
    assert found is not None
    assert (found.delimiter, found.usual) == (delimiter, usual)


@pytest.mark.parametrize("text", ["", "Bag\nB1\nB2\n", "a;b,c\n1;2,3\n", ";;;\n;;;\n", "x|y,z\n" * 9])
def test_not_told(text: str) -> None:
    """One column, nothing, or two that fit equally well: a person says."""
    assert find_delimiter(text) is None


def test_any_table_of_numbers_is_told_apart() -> None:
    """Random tables in every dialect, with titles above: the delimiter that wrote them is found."""
    draw = random.Random(5)
    for _ in range(200):
        delimiter = draw.choice(CANDIDATES)
        sign = "." if delimiter == "," else draw.choice(".,")
        columns = draw.randint(2, 9)
        title = "Results of soil; spring, 2027\n" * draw.randint(0, 3)
        head = delimiter.join(f"column {number}" for number in range(columns))
        rows = [
            delimiter.join(f"{draw.uniform(0, 99):.1f}".replace(".", sign) for _ in range(columns))
            for _ in range(draw.randint(6, 30))
        ]
        found = find_delimiter(title + "\n".join([head, *rows]))
        assert found is not None
        assert (found.delimiter, found.usual) == (delimiter, columns)


def test_the_usual_number_of_cells() -> None:
    """By a delimiter that was declared; nought where most rows do not agree."""
    assert usual_cells("a;b;c\n1;2;3\n", ";") == 3
    assert usual_cells("a,b\n1,2\n", ";") == 0
    assert usual_cells("a;b\n1;2;3\n1\n1;2;3;4\n", ";") == 0


def test_only_the_beginning_is_looked_at() -> None:
    """A long text is judged by its first rows, whole ones only."""
    found = find_delimiter("Bag;pH\n" + "B1;5,5\n" * 100_000 + ",,,\n" * 100_000)
    assert found is not None
    assert found.rows == 500
