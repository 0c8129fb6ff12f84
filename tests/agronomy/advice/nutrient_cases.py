"""Ratings, harvests, products and applications for the tests of needs of nutrients."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from soilrota.agronomy.advice.crop_plan import Harvest
from soilrota.agronomy.advice.nutrients import NutrientCase, nutrient_need
from soilrota.agronomy.doubt import Evidence, doubt_of
from soilrota.agronomy.rating import rate
from soilrota.agronomy.row_choice import Ground
from soilrota.guidelines.nutrient_regions import region_of
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.advice import Input, Need
from soilrota.model.applications import Application, Standing
from soilrota.model.cropping import CropYear
from soilrota.model.judgement import Covariate, Rating
from soilrota.model.products import Product, ProductKind
from soilrota.problems import Place
from tests.agronomy.derived.bags import result

GROUND = ("home", "hill")
CORES = 25
PBI = "phosphorus-buffering-index.colwell-adjusted"
#: A bushel of corn an acre [t/ha].
CORN_BUSHEL = 56 * 0.45359237 / 0.40468564 / 1000
SOYBEAN_BUSHEL = 60 * 0.45359237 / 0.40468564 / 1000


def rating(
    code: str,
    value: float | str,
    set_: str,
    *,
    layer: tuple[float, float] = (0, 15),
    land_use: str = "crop",
    crops: tuple[str, ...] = (),
    texture: str = "",
    **covariates: float,
) -> Rating:
    """Return what a result means in a shipped set; `pbi=70` and `exchange_capacity=10` are covariates."""
    found = result(code, value, layer=layer)
    names = {name: PBI if name == "pbi" else name.replace("_", "-") for name in covariates}
    known = {names[name]: Covariate(names[name], one) for name, one in covariates.items()}
    ground = Ground(land_use=land_use, texture=texture, crops=crops, covariates=known)
    cores = Evidence(cores={("b1", *layer): CORES})
    judged = rate(found, (guideline_sets()[set_],), ground, doubt_of(found, cores))
    assert isinstance(judged, Rating), judged
    return judged


def crop(
    name: str, target: float | None = None, leaves: str = "", *, year: int = 2027, protein: float | None = None
) -> CropYear:
    """Return a row of the cropping plan of the zone."""
    return CropYear(*GROUND, year, name, target, protein, leaves, Place("cropping.csv", 2))


def case(nutrient: Input, of: Rating, *rows: CropYear, **changes: Any) -> NutrientCase:
    """Return a case by the region of the rating's set; the rows are one harvest a year."""
    region = region_of(guideline_sets()[of.set], "", "")
    assert region is not None
    years = sorted({row.year for row in rows}) or [2027]
    harvests = tuple(Harvest(year, tuple(row for row in rows if row.year == year)) for year in years)
    plain = NutrientCase(GROUND, nutrient, of, region.rules[nutrient], region.editions, harvests, 4)
    return replace(plain, **changes)


def need(nutrient: Input, of: Rating, *rows: CropYear, **changes: Any) -> Need:
    """Return the need of a case that has one."""
    found = nutrient_need(case(nutrient, of, *rows, **changes))
    assert isinstance(found, Need), found
    return found


def product(name: str, **contents: float) -> Product:
    """Return a fertiliser by what it holds [%]."""
    return Product(
        id=name.replace(" ", "-"), name=name, kind=ProductKind.FERTILISER, material_class="mineral-fertiliser",
        contents=contents, neutralising_percent=None, fractions=(), moisture_percent=0.0, purity_percent=None,
        cadmium_mg_kg_p=None, price_per_t=500.0, form="granules", least_kg_ha=40.0, most_kg_ha=600.0,
        step_kg_ha=5.0, pack_kg=0.0, land_uses=(), place=Place("products.yaml", 2),
    )  # fmt: skip


def spread(material: str, rate_kg_ha: float | None, day: date | None = date(2027, 3, 1), **changes: Any) -> Application:
    """Return an application on the zone."""
    plain = Application(
        "home",
        ("hill",),
        "mineral-fertiliser",
        material,
        day,
        day,
        Standing.DONE,
        rate_kg_ha,
        Place("applications.csv", 2),
    )
    return replace(plain, **changes)
