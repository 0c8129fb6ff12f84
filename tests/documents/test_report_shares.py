"""The bar of cation shares: pieces as wide as their shares, every label on its own."""

from __future__ import annotations

from itertools import pairwise
from xml.etree import ElementTree

import pytest

from soilrota.documents.label_places import word_width
from soilrota.documents.report_shares import WIDTH, share_bar

SVG = "{http://www.w3.org/2000/svg}"
SHARES = [
    ("Calcium", 68.0, "68.0%"),
    ("Magnesium", 17.5, "17.5%"),
    ("Potassium", 5.5, "5.5%"),
    ("Sodium", 7.0, "7.0%"),
    ("Aluminium", 2.0, "2.0%"),
]


def test_pieces_and_words() -> None:
    """Widths follow the shares; the alternative names each."""
    root = ElementTree.fromstring(share_bar(SHARES, "Shares, 0–10 cm"))
    title = root.find(f"{SVG}title")
    assert title is not None
    assert title.text == (
        "Shares, 0–10 cm: Calcium 68.0%, Magnesium 17.5%, Potassium 5.5%, Sodium 7.0%, Aluminium 2.0%."
    )
    pieces = [float(one.get("width", 0)) for one in root.iter(f"{SVG}rect")]
    for (_, share, _), width in zip(SHARES, pieces, strict=False):
        assert width == pytest.approx(share / 100 * WIDTH, abs=0.01)


@pytest.mark.parametrize("shares", [SHARES, SHARES[::-1], [(name, 1.0, "1.0%") for name, *_ in SHARES]])
def test_no_label_covers_another_or_leaves_the_page(shares: list[tuple[str, float, str]]) -> None:
    """Even where every piece is too narrow for its own."""
    root = ElementTree.fromstring(share_bar(shares, "Shares"))
    rows: dict[str, list[tuple[float, float]]] = {}
    for one in root.iter(f"{SVG}text"):
        left = float(one.get("x", 0))
        rows.setdefault(str(one.get("y")), []).append((left, left + word_width(str(one.text), 9)))
    for row in rows.values():
        row.sort()
        assert row[0][0] >= 0
        assert row[-1][1] <= WIDTH + 0.01
        assert all(after[0] >= before[1] for before, after in pairwise(row))
