"""What can be bought and spread: fertilisers, limes, gypsum, manures."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from soilrota.problems import Place


class ProductKind(StrEnum):
    """What a product is spread for."""

    FERTILISER = "fertiliser"
    LIME = "lime"
    GYPSUM = "gypsum"
    MANURE = "manure"


@dataclass(frozen=True, slots=True)
class SizeFraction:
    """A share of a lime by grain size: above `low_mm`, up to `high_mm` [mm]; its mass and neutralising value [%]."""

    low_mm: float
    high_mm: float
    mass_percent: float
    neutralising_percent: float


@dataclass(frozen=True, slots=True)
class Product:
    """A product of `products.yaml`.

    Attributes:
        id, name: its id and what people call it.
        kind: what it is spread for.
        material_class: class of application, as `applications.csv` names it; it decides how long sampling waits.
        contents: elements by mass as bought [%], for instance `nitrogen`, `phosphorus`, `calcium`.
        neutralising_percent: neutralising value, pure calcium carbonate being 100 [%]; None where it is no lime.
        fractions: grain sizes of a lime; empty where not known.
        moisture_percent: water as bought [%].
        purity_percent: share of pure gypsum [%]; None where it is none.
        cadmium_mg_kg_p: cadmium in its phosphorus [mg/kg of phosphorus]; None where not known.
        price_per_t: price as bought, carriage included [currency/t].
        form: in words, for instance `granules`; may be empty.
        least_kg_ha, most_kg_ha: rates that the spreader and the label allow [kg/ha].
        step_kg_ha: rates go in such steps [kg/ha].
        pack_kg: it is bought in whole packs of so much [kg]; 0 for loose.
        land_uses: land uses that it may go on; empty for all.
        place: where it is declared.
    """

    id: str
    name: str
    kind: ProductKind
    material_class: str
    contents: dict[str, float]
    neutralising_percent: float | None
    fractions: tuple[SizeFraction, ...]
    moisture_percent: float
    purity_percent: float | None
    cadmium_mg_kg_p: float | None
    price_per_t: float
    form: str
    least_kg_ha: float
    most_kg_ha: float
    step_kg_ha: float
    pack_kg: float
    land_uses: tuple[str, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class ProductList:
    """The products of the practice.

    Attributes:
        currency: ISO 4217 code of all prices.
        pass_price_ha: price of one spreading pass [currency/ha].
        call_price: price of bringing the spreader to a farm for one product [currency].
        products: by id.
    """

    currency: str
    pass_price_ha: float
    call_price: float
    products: dict[str, Product]
