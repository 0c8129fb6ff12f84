"""products.yaml to the products of the practice."""

from __future__ import annotations

from soilrota.model.products import ProductKind, SizeFraction
from tests.book.small_book import Book

PRODUCTS = """\
currency: AUD
pass_price_ha: 9.5
call_price: 140
products:
  - {id: plain-p, name: Plain P, kind: fertiliser, class: mineral-fertiliser, contents: {phosphorus: 9},
     price_per_t: 400, least_kg_ha: 80, most_kg_ha: 500, step_kg_ha: 10}
  - id: chalk
    name: Chalk
    kind: lime
    class: lime
    neutralising_percent: 90
    fractions:
      - {low_mm: 0, high_mm: 0.3, mass_percent: 60}
      - {low_mm: 0.3, high_mm: 1, mass_percent: 40, neutralising_percent: 80}
    price_per_t: 60
    least_kg_ha: 1000
    most_kg_ha: 5000
    step_kg_ha: 250
"""


def test_a_book_without_products(book: Book) -> None:
    """Products may be missing: then nothing is bought."""
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    assert shared.practice.products is None


def test_products_are_read(book: Book) -> None:
    """Defaults are filled in; a grain size without a neutralising value has the product's."""
    book.write("products.yaml", PRODUCTS)
    shared, problems = book.shared()
    assert problems == ()
    assert shared is not None
    products = shared.practice.products
    assert products is not None
    assert (products.currency, products.pass_price_ha, products.call_price) == ("AUD", 9.5, 140.0)
    plain, chalk = products.products["plain-p"], products.products["chalk"]
    assert (plain.kind, plain.material_class, plain.contents) == (
        ProductKind.FERTILISER,
        "mineral-fertiliser",
        {"phosphorus": 9.0},
    )
    assert (plain.pack_kg, plain.moisture_percent, plain.land_uses, plain.purity_percent) == (0.0, 0.0, (), None)
    assert chalk.fractions == (SizeFraction(0, 0.3, 60, 90), SizeFraction(0.3, 1, 40, 80))
    assert str(chalk.place).startswith("products.yaml:7")
