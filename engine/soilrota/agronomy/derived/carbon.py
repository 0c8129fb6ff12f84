"""Stock of organic carbon [t/ha], organic matter [%] where it is asked for, and the ratio of carbon to nitrogen.

Facts are those of `total_carbon`; of the stock also those of `soil_mass`; of organic matter `matter_factor`,
`matter_factor_low`, `matter_factor_high`, `matter_factor_source`; of the ratio `nitrogen_method` and
`nitrogen_percent`.

Where the bulk density comes from the organic matter, both follow the same carbon; the doubt of such a bulk density is
so much the larger that they are taken as erring on their own.
"""

from __future__ import annotations

from collections.abc import Iterator

from soilrota.agronomy.derived.inputs import Bag
from soilrota.agronomy.derived.outcomes import Outcome, Working, reckoned, refused
from soilrota.agronomy.derived.soil_mass import doubtful, soil_mass
from soilrota.agronomy.derived.total_carbon import CARBON, total_carbon
from soilrota.guidelines.carbon import carbon_formula, organic_matter_factor
from soilrota.guidelines.cited_tables import citation
from soilrota.model.judgement import Refused, WhyNot
from soilrota.quantities import split_code

STOCK, MATTER, RATIO = "carbon-stock", "organic-matter", "carbon-nitrogen-ratio"
_NITROGEN = ("nitrogen.dry-combustion", "nitrogen.kjeldahl")


def carbon_quantities(bag: Bag, *, with_organic_matter: bool = False) -> Iterator[Outcome]:
    """Yield the stock, the ratio and, where it is asked for, the organic matter, or why each is not there."""
    if bag.first(*CARBON):
        yield _stock(bag)
        if with_organic_matter:
            yield _matter(bag)
    if bag.first(*CARBON, *_NITROGEN):
        yield _ratio(bag)


def _stock(bag: Bag) -> Outcome:
    """Return the carbon of a layer [t/ha]: 1 % of the fine earth of 1 cm at 1 g/cm3 is 1 t/ha."""
    carbon, mass = total_carbon(bag), soil_mass(bag)
    if isinstance(carbon, Refused):
        return refused(bag, STOCK, carbon)
    if isinstance(mass, Refused):
        return refused(bag, STOCK, mass)
    depth = mass.depth_cm
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=STOCK,
            unit="t/ha",
            formula=lambda percent, factor, density, gravel: percent * factor * density * depth * (1 - gravel),
            readings=(carbon.reading,),
            figures=(carbon.factor, mass.density, mass.gravel),
            cited=carbon_formula(STOCK),
            statuses=(carbon.status, mass.status),
            facts={**carbon.facts, **mass.facts},
            cautions=(*carbon.cautions, *mass.cautions),
        ),
    )


def _matter(bag: Bag) -> Outcome:
    """Return the organic matter that the carbon lets expect [%]."""
    carbon, figure = total_carbon(bag), organic_matter_factor()
    if isinstance(carbon, Refused):
        return refused(bag, MATTER, carbon)
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=MATTER,
            unit="%",
            formula=lambda percent, factor, matter: percent * factor * matter,
            readings=(carbon.reading,),
            figures=(carbon.factor, doubtful(figure)),
            cited=carbon_formula(MATTER),
            statuses=(carbon.status, figure.status),
            facts={
                **carbon.facts,
                "matter_factor": figure.value,
                "matter_factor_low": figure.low,
                "matter_factor_high": figure.high,
                "matter_factor_source": citation(figure.source),
            },
            cautions=carbon.cautions,
        ),
    )


def _ratio(bag: Bag) -> Outcome:
    """Return organic carbon over total nitrogen, by mass."""
    code = bag.first(*_NITROGEN)
    if not code or not bag.first(*CARBON):
        return refused(bag, RATIO, Refused(WhyNot.NOT_MEASURED, {"needs": CARBON if code else _NITROGEN}))
    carbon, nitrogen = total_carbon(bag), bag.read(code, unit="%")
    if isinstance(carbon, Refused):
        return refused(bag, RATIO, carbon)
    if isinstance(nitrogen, Refused):
        return refused(bag, RATIO, nitrogen)
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=RATIO,
            unit="ratio",
            formula=lambda percent, nitrogen, factor: percent * factor / nitrogen,
            readings=(carbon.reading, *nitrogen),
            figures=(carbon.factor,),
            cited=carbon_formula(RATIO),
            statuses=(carbon.status,),
            facts={
                **carbon.facts,
                "nitrogen_method": split_code(code)[1],
                "nitrogen_percent": nitrogen[0].amount.value,
            },
            cautions=carbon.cautions,
        ),
    )
