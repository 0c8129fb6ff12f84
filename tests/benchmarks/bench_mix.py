"""How long the cheapest mix of a farm takes, to proven optimum: 40 zones and 15 products, invented farms.

Prints a line a farm: needs, cost, products bought, whether it is proven that no mix is cheaper, and the seconds. Then
the same for smaller farms, with the runner-up and what needs add to the bill. Run it from the top of the checkout:
`sh .ci/with python tests/benchmarks/bench_mix.py`; with `--long` twenty big farms instead of five, and runner-up and
requirements for the first of them.
"""

from __future__ import annotations

import sys
from pathlib import Path
from random import Random
from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tests.agronomy.mix.making import Farm

ROOT = Path(__file__).resolve().parents[2]
ZONES = 40
FARMS, MANY_FARMS = 5, 20
#: Contents of nitrogen, phosphorus, potassium, sulphur, magnesium [%], price [currency/t], least, most and step
#: [kg/ha], pack [kg]: kinds of product, prices invented.
FERTILISERS = {
    "single-p": ((0, 8.8, 0, 11, 0), 420, 80, 500, 10, 0),
    "triple-p": ((0, 20.7, 0, 1.5, 0), 900, 50, 300, 10, 0),
    "ammonium-p": ((11, 21.9, 0, 1.5, 0), 1050, 40, 300, 5, 1000),
    "diammonium-p": ((18, 20, 0, 1.6, 0), 1080, 40, 300, 5, 1000),
    "urea": ((46, 0, 0, 0, 0), 780, 40, 400, 5, 0),
    "ammonium-s": ((21, 0, 0, 24, 0), 560, 50, 400, 10, 0),
    "potassium-cl": ((0, 0, 50, 0, 0), 850, 40, 400, 10, 0),
    "potassium-s": ((0, 0, 41, 17, 0), 1500, 40, 400, 10, 25),
    "mixed-pks": ((0, 5.5, 12.5, 7, 0), 610, 80, 600, 10, 0),
    "mixed-npks": ((10, 8, 10, 6, 0), 790, 80, 600, 10, 1000),
    "magnesium-s": ((0, 0, 0, 20, 15), 1100, 40, 300, 10, 25),
    "litter": ((2.5, 1.2, 1.8, 0.4, 0.5), 45, 1000, 6000, 500, 0),
}
#: Share of zones that need an input, and the least and most of it [kg/ha; t/ha].
WANTED = {
    "nitrogen": (0.6, 15, 80),
    "phosphorus": (0.8, 5, 25),
    "potassium": (0.6, 10, 60),
    "sulphur": (0.5, 5, 20),
    "magnesium": (0.2, 5, 20),
    "lime": (0.4, 0.5, 2.5),
    "gypsum": (0.1, 0.7, 2.0),
}


def farm(zones: int, seed: int) -> Farm:
    """Return an invented farm."""
    from soilrota.model.advice import Input
    from soilrota.model.products import ProductKind
    from tests.agronomy.mix.making import Farm, listed, need, product

    names = ("nitrogen", "phosphorus", "potassium", "sulphur", "magnesium")
    products = [
        product(
            id_,
            contents={name: float(share) for name, share in zip(names, contents, strict=True) if share},
            price_per_t=float(price),
            least_kg_ha=float(least),
            most_kg_ha=float(most),
            step_kg_ha=float(step),
            pack_kg=float(pack),
        )
        for id_, (contents, price, least, most, step, pack) in FERTILISERS.items()
    ]
    loose = {"least_kg_ha": 1000.0, "most_kg_ha": 5000.0, "step_kg_ha": 250.0}
    lime, gypsum = ProductKind.LIME, ProductKind.GYPSUM
    products += [
        product("fine-lime", lime, neutralising_percent=90.0, price_per_t=55.0, **loose),
        product("dolomite", lime, contents={"magnesium": 8.0}, neutralising_percent=85.0, price_per_t=75.0, **loose),
        product("gypsum", gypsum, contents={"sulphur": 14.0}, purity_percent=75.0, price_per_t=60.0, **loose),
    ]
    random = Random(seed)
    needs, areas = [], {}
    for number in range(zones):
        zone = f"zone-{number:02d}"
        areas[zone] = round(random.uniform(4, 40), 1)
        for name, (share, least, most) in WANTED.items():
            if random.random() < share:
                amount = round(random.uniform(least, most), 2)
                needs.append(need(Input(name), amount, zone, low=round(amount * 0.7, 2)))
    return Farm(tuple(needs), areas, listed(*products, call_price=120.0), dict.fromkeys(areas, "crop"))


def timed(zones: int, seed: int, *, whole: bool) -> bool:
    """Print one farm; return whether its mix is proven."""
    from soilrota.agronomy.mix import Effort, product_mix
    from soilrota.model.advice import NoMix

    made = farm(zones, seed)
    effort = Effort() if whole else Effort(requirements=0, runner_up=False)
    started = perf_counter()
    mix = product_mix("home", made.needs, made.areas, made.products, made.land_uses, effort=effort)
    seconds = perf_counter() - started
    if isinstance(mix, NoMix):
        print(f"{zones:5}  {seed:4}  {len(made.needs):5}  no mix: {mix.in_the_way} {dict(mix.facts)}")
        return False
    more = f"  runner-up {mix.runner_up}, {len(mix.requirements)} requirements" if whole else ""
    print(
        f"{zones:5}  {seed:4}  {len(made.needs):5}  {mix.cost:12,.2f}  {len(mix.packs):8}  {mix.proven!s:>6}"
        f"  {seconds:7.2f}{more}",
        flush=True,
    )
    return mix.proven


def main() -> None:
    """Print the tables."""
    sys.path.insert(0, str(ROOT))
    is_long = "--long" in sys.argv
    print("zones  seed  needs          cost  products  proven  seconds")
    proven = [timed(ZONES, seed, whole=False) for seed in range(MANY_FARMS if is_long else FARMS)]
    print(f"proven: {sum(proven)} of {len(proven)}")
    for zones in (4, 8, 12):
        timed(zones, 0, whole=True)
    if is_long:
        timed(ZONES, 0, whole=True)


if __name__ == "__main__":
    main()
