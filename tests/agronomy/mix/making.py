"""Products and needs for the tests of the mix, and random farms small enough to be counted out."""

from __future__ import annotations

import os
from dataclasses import dataclass
from random import Random

from soilrota.model.advice import Cap, Input, Need
from soilrota.model.products import Product, ProductKind, ProductList
from soilrota.problems import Place

#: Random farms of an ordinary run, and of the long one.
FARMS = 1_500 if os.environ.get("SOILROTA_LONG") == "1" else 400


def product(id_: str, kind: ProductKind = ProductKind.FERTILISER, **said: object) -> Product:
    """Return a product; what is not said is plain."""
    plain: dict[str, object] = {
        "name": id_, "material_class": "mineral-fertiliser", "contents": {}, "neutralising_percent": None,
        "fractions": (), "moisture_percent": 0.0, "purity_percent": None, "cadmium_mg_kg_p": None,
        "price_per_t": 500.0, "form": "", "least_kg_ha": 50.0, "most_kg_ha": 500.0, "step_kg_ha": 10.0,
        "pack_kg": 0.0, "land_uses": (), "place": Place("products.yaml", 1),
    }  # fmt: skip
    return Product(id=id_, kind=kind, **(plain | said))  # type: ignore[arg-type]


def listed(*products: Product, pass_price: float = 9.0, call_price: float = 100.0) -> ProductList:
    """Return a list of products."""
    return ProductList("AUD", pass_price, call_price, {one.id: one for one in products})


def need(
    input_: Input,
    amount: float,
    zone: str = "hill",
    *,
    low: float | None = None,
    cap: float | None = None,
    dressings: int = 1,
) -> Need:
    """Return a need of the farm `home`."""
    caps = () if cap is None else (Cap(cap, "limit"),)
    split = (amount / dressings,) * dressings if dressings > 1 else ()
    return Need("home", zone, input_, amount, amount if low is None else low, amount, (), caps, split)


@dataclass(frozen=True)
class Farm:
    """A farm as `product_mix` takes it."""

    needs: tuple[Need, ...]
    areas: dict[str, float]
    products: ProductList
    land_uses: dict[str, str]


_ELEMENTS = (Input.NITROGEN, Input.PHOSPHORUS, Input.SULPHUR)
#: Zones and products of the random farms: few enough that every mix can be counted.
_SIZES = ((1, 4), (2, 3), (3, 2), (1, 3), (2, 2))


def random_farm(seed: int) -> Farm:
    """Return a small farm: coarse steps, round contents, maxima that sometimes bind, packs, a forbidden land use."""
    random = Random(seed)
    zones, number = _SIZES[seed % len(_SIZES)]
    products = []
    for index in range(number):
        contents = {one.value: random.choice((0, 4, 9, 11, 20, 46)) for one in _ELEMENTS}
        if not any(contents.values()):
            contents["phosphorus"] = 12
        step = random.choice((25, 40, 50))
        products.append(
            product(
                f"p{index}",
                contents={name: float(share) for name, share in contents.items()},
                price_per_t=float(random.randrange(200, 1200, 7)),
                least_kg_ha=float(random.choice((20, 50, 75))),
                most_kg_ha=float(step * random.randint(4, 8)),
                step_kg_ha=float(step),
                pack_kg=float(random.choice((0, 0, 25, 500, 1000))),
                land_uses=random.choice(((), (), (), ("pasture",))),
            )
        )
    needs = []
    names = [f"z{index}" for index in range(zones)]
    for zone in names:
        for input_ in random.sample(_ELEMENTS, random.randint(1, 3)):
            amount = random.choice((0.0, random.randrange(20, 240) / 10))
            cap = random.choice((None, None, amount + random.randrange(0, 300) / 10))
            needs.append(need(input_, amount, zone, low=round(amount * random.choice((0.0, 0.5, 0.8)), 2), cap=cap))
    return Farm(
        tuple(needs),
        {zone: random.randrange(20, 300) / 10 for zone in names},
        listed(*products, pass_price=random.choice((0.0, 9.0)), call_price=random.choice((0.0, 60.0, 400.0))),
        {zone: random.choice(("crop", "pasture")) for zone in names},
    )
