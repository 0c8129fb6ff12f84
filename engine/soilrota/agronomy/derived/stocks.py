"""Nutrients of a layer by each method that measured them [kg/ha]: what the method finds, not what the soil holds.

Facts are those of `soil_mass` and `analysis`, the code that it is of; several quantities share the code
`nutrient-stock`. Caution `extract-only`: an extract is an index of supply; only a total is all that there is.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.agronomy.derived.inputs import Bag
from soilrota.agronomy.derived.outcomes import Outcome, Working, reckoned, refused
from soilrota.agronomy.derived.soil_mass import kilograms_per_hectare, soil_mass
from soilrota.guidelines.bulk_density import stock_formula
from soilrota.model.judgement import NoQuantity, Refused
from soilrota.quantities import split_code

NUTRIENT_STOCK = "nutrient-stock"
_NUTRIENTS = (
    "phosphorus",
    "potassium",
    "sulphur",
    "calcium",
    "magnesium",
    "nitrogen",
    "zinc",
    "copper",
    "manganese",
    "boron",
)
_TOTALS = ("phosphorus.total", "nitrogen.dry-combustion", "nitrogen.kjeldahl")


def stock_quantities(bag: Bag) -> Iterator[Outcome]:
    """Yield the stock of each nutrient by each method that measured it, or why it is not there."""
    for code in bag.results:
        if split_code(code)[0] in _NUTRIENTS:
            yield _stock(bag, code)


def _stock(bag: Bag, code: str) -> Outcome:
    """Return the stock by one analysis [kg/ha]."""
    readings, mass = bag.read(code, unit="mg/kg"), soil_mass(bag)
    if isinstance(readings, Refused):
        return _refused(bag, code, readings)
    if isinstance(mass, Refused):
        return _refused(bag, code, mass)
    depth = mass.depth_cm
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=NUTRIENT_STOCK,
            unit="kg/ha",
            formula=lambda mg_kg, density, gravel: kilograms_per_hectare(mg_kg, density, gravel, depth),
            readings=readings,
            figures=(mass.density, mass.gravel),
            cited=stock_formula(NUTRIENT_STOCK),
            statuses=(mass.status,),
            facts={"analysis": code, **mass.facts},
            cautions=(*(() if code in _TOTALS else ("extract-only",)), *mass.cautions),
        ),
    )


def _refused(bag: Bag, code: str, why: Refused) -> NoQuantity:
    """Return that there is no stock by one analysis."""
    return refused(bag, NUTRIENT_STOCK, Refused(why.why, {"analysis": code, **why.facts}))
