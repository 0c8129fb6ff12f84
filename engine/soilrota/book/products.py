"""From products.yaml to the products that can be bought and spread."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soilrota.book.parts import Located
from soilrota.book.places import items
from soilrota.model.products import Product, ProductKind, ProductList, SizeFraction


def build_products(file: Located[Mapping[str, Any]]) -> tuple[Located[Product], ...]:
    """Return the products in the order of the file, so that repeated ids show.

    Args:
        file: the top of products.yaml.
    """
    return tuple(item.holding(_product(item)) for item in items(file, "products"))


def build_product_list(file: Located[Mapping[str, Any]]) -> ProductList:
    """Return the products by id with what spreading costs; of a repeated id the last, which a rule reports.

    Args:
        file: the top of products.yaml.
    """
    return ProductList(
        currency=file.data["currency"],
        pass_price_ha=float(file.data["pass_price_ha"]),
        call_price=float(file.data["call_price"]),
        products={product.value.id: product.value for product in build_products(file)},
    )


def _product(item: Located[Mapping[str, Any]]) -> Product:
    """Return one product."""
    data = item.data
    neutralising = _number(data.get("neutralising_percent"))
    return Product(
        id=data["id"],
        name=data["name"],
        kind=ProductKind(data["kind"]),
        material_class=data["class"],
        contents={element: float(share) for element, share in data.get("contents", {}).items()},
        neutralising_percent=neutralising,
        fractions=tuple(_fraction(fraction, neutralising or 0.0) for fraction in data.get("fractions", ())),
        moisture_percent=float(data.get("moisture_percent", 0)),
        purity_percent=_number(data.get("purity_percent")),
        cadmium_mg_kg_p=_number(data.get("cadmium_mg_kg_p")),
        price_per_t=float(data["price_per_t"]),
        form=data.get("form", ""),
        least_kg_ha=float(data["least_kg_ha"]),
        most_kg_ha=float(data["most_kg_ha"]),
        step_kg_ha=float(data["step_kg_ha"]),
        pack_kg=float(data.get("pack_kg", 0)),
        land_uses=tuple(data.get("land_uses", ())),
        place=item.at(),
    )


def _fraction(data: Mapping[str, Any], neutralising: float) -> SizeFraction:
    """Return one grain size; without a neutralising value of its own it has the product's."""
    return SizeFraction(
        low_mm=float(data["low_mm"]),
        high_mm=float(data["high_mm"]),
        mass_percent=float(data["mass_percent"]),
        neutralising_percent=float(data.get("neutralising_percent", neutralising)),
    )


def _number(written: float | None) -> float | None:
    """Return a number that may be missing."""
    return None if written is None else float(written)
