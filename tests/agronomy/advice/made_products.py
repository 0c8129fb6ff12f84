"""Invented products."""

from __future__ import annotations

from dataclasses import replace

from soilrota.model.products import Product, ProductKind
from soilrota.problems import Place

_LIME = Product(
    id="lime", name="Pit lime", kind=ProductKind.LIME, material_class="lime", contents={}, neutralising_percent=90.0,
    fractions=(), moisture_percent=0.0, purity_percent=None, cadmium_mg_kg_p=None, price_per_t=40.0, form="powder",
    least_kg_ha=500.0, most_kg_ha=8000.0, step_kg_ha=100.0, pack_kg=0.0, land_uses=(), place=Place("products.yaml"),
)  # fmt: skip


def lime(**changes: object) -> Product:
    """Return a lime of 90 %, dry."""
    return replace(_LIME, **changes)


def gypsum(**changes: object) -> Product:
    """Return a gypsum of 90 %, dry."""
    plain = replace(_LIME, id="gypsum", kind=ProductKind.GYPSUM, material_class="gypsum", neutralising_percent=None)
    return replace(plain, **{"purity_percent": 90.0, **changes})
