"""Products of a book: each mistake is one located problem with its mend."""

from __future__ import annotations

import pytest

from tests.book.small_book import Book
from tests.book.test_products import PRODUCTS

GYPSUM = """\
  - {id: rock, name: Rock, kind: gypsum, class: gypsum, purity_percent: 80, price_per_t: 40, least_kg_ha: 1000,
     most_kg_ha: 5000, step_kg_ha: 250}
"""


@pytest.fixture(autouse=True)
def products(book: Book) -> None:
    """Add products to the small book."""
    book.write("products.yaml", PRODUCTS + GYPSUM)


def test_they_are_sound(book: Book) -> None:
    """What the other tests start from has no problem."""
    assert book.shared_problems() == ()


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("id: chalk", "id: plain-p", "repeated-id"),
        ("{phosphorus: 9}", "{phosphorus: 60, calcium: 41}", "contents-above-whole"),
        ("{phosphorus: 9}", "{phosphorus: 101}", "out-of-range"),
        ("{phosphorus: 9}", "{phosphorus: -1}", "out-of-range"),
        ("{phosphorus: 9}", "{phosphorus: 0}", "contents-missing"),
        ("{phosphorus: 9}", "{phosphate: 9}", "unknown-key"),
        ("    neutralising_percent: 90\n", "", "neutralising-value-missing"),
        ("purity_percent: 80, ", "", "purity-missing"),
        ("mass_percent: 60", "mass_percent: 50", "grain-sizes-not-whole"),
        ("low_mm: 0.3, high_mm: 1", "low_mm: 0.2, high_mm: 1", "grain-sizes-overlap"),
        ("low_mm: 0.3, high_mm: 1", "low_mm: 1, high_mm: 0.5", "grain-size-empty"),
        ("least_kg_ha: 80", "least_kg_ha: 800", "rates-reversed"),
        ("least_kg_ha: 80, most_kg_ha: 500,", "least_kg_ha: 81, most_kg_ha: 89,", "no-rate"),
        ("step_kg_ha: 10", "step_kg_ha: 0", "out-of-range"),
        ("class: lime", "class: chalk", "unknown-word"),
        ("price_per_t: 60", "price_per_t: -60", "out-of-range"),
        ("currency: AUD", "currency: dollars", "wrong-form"),
    ],
)  # fmt: skip
def test_a_mistake(book: Book, old: str, new: str, code: str) -> None:
    """The problem stands in products.yaml, and says how to mend it."""
    book.edit("products.yaml", old, new)
    problem = book.only(shared=True)
    assert problem.place.file == "products.yaml"
    assert problem.place.line > 0
    assert problem.mend
    assert problem.code == code
