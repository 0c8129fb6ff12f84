"""Mineral nitrogen of a layer, and of the layers of one profile [kg/ha].

Facts are those of `soil_mass` and `forms`, what was added up: nitrate and ammonium, or nitrate alone. Of a profile they
are `forms`, `layers` (each as `0-10`), `layer_kg_ha` (a text a layer, in their order, with one decimal), and of
`soil_mass` those in which its layers do not differ.

Caution `nitrate-alone`: ammonium was not measured (in a profile: not in every layer), so nitrate alone is counted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from soilrota.agronomy.derived.inputs import Bag, Reading, Spread, bag_of, between_laboratories
from soilrota.agronomy.derived.outcomes import Outcome, Working, reckoned
from soilrota.agronomy.derived.soil_mass import SoilMass, kilograms_per_hectare, soil_mass
from soilrota.guidelines.bulk_density import stock_formula
from soilrota.model.client import Zone
from soilrota.model.findings import Fact
from soilrota.model.judgement import NoQuantity, Refused, WhyNot
from soilrota.model.results import Result
from soilrota.quantities import split_code

MINERAL_NITROGEN, PROFILE_NITROGEN = "mineral-nitrogen", "profile-nitrogen"
_NITRATE, _AMMONIUM = "nitrate-nitrogen.kcl", "ammonium-nitrogen.kcl"


def nitrogen_quantities(bag: Bag) -> Iterator[Outcome]:
    """Yield the mineral nitrogen of a bag's layer, or why it is not there; nothing where none was measured."""
    if bag.first(_NITRATE, _AMMONIUM):
        yield _summed(MINERAL_NITROGEN, (bag,))


def profile_nitrogen(
    bags: Sequence[Sequence[Result]], zone: Zone, *, spread: Spread = between_laboratories
) -> Outcome | None:
    """Return the mineral nitrogen of the layers of one profile together.

    Args:
        bags: results of the bags of one zone, of one day; each bag one layer. At least one.
        zone: the zone.
        spread: how much a result may be off.

    Returns:
        The quantity, from the top of the first layer to the bottom of the last; why not, where layers leave a gap or
        overlap; None where no bag has mineral nitrogen.

    Raises:
        ValueError: the bags are not of one zone and day: a fault of the program.
    """
    if len({one.sampled for results in bags for one in results}) > 1:
        raise ValueError("the layers of a profile are of one day")
    layers = sorted((bag_of(results, zone, spread) for results in bags), key=lambda bag: (bag.top_cm, bag.bottom_cm))
    layers = [bag for bag in layers if bag.first(_NITRATE, _AMMONIUM)]
    if not layers:
        return None
    for upper, lower in pairwise(layers):
        if upper.bottom_cm != lower.top_cm:
            reason = "layers-overlap" if lower.top_cm < upper.bottom_cm else "layers-apart"
            facts: dict[str, Fact] = {"reason": reason, "layers": tuple(map(_layer, layers))}
            return NoQuantity(
                PROFILE_NITROGEN, layers[0].top_cm, layers[-1].bottom_cm, Refused(WhyNot.RULE_VOID, facts)
            )
    return _summed(PROFILE_NITROGEN, layers)


def _summed(code: str, layers: Sequence[Bag]) -> Outcome:
    """Return the nitrogen of layers, of the forms that all of them have."""
    top, bottom = layers[0].top_cm, layers[-1].bottom_cm
    forms = (_NITRATE, _AMMONIUM) if all(bag.has(_AMMONIUM) for bag in layers) else (_NITRATE,)
    readings, masses = [], []
    for bag in layers:
        found, mass = bag.read(*forms, unit="mg/kg"), soil_mass(bag)
        if isinstance(found, Refused):
            return NoQuantity(code, top, bottom, found)
        if isinstance(mass, Refused):
            return NoQuantity(code, top, bottom, mass)
        readings.append(found)
        masses.append(mass)
    return _of_layers(code, layers, readings, masses)


def _of_layers(
    code: str, layers: Sequence[Bag], readings: Sequence[tuple[Reading, ...]], masses: Sequence[SoilMass]
) -> Outcome:
    """Return the nitrogen of layers; what the zone's bulk density is off, it is off in all of them together."""
    densities = list(dict.fromkeys(mass.density for mass in masses))
    count = len(readings[0])

    def formula(*values: float) -> float:
        """Return the sum of the layers [kg/ha] of concentrations by layer, bulk densities, and gravel."""
        of_density = dict(zip(densities, values[count * len(layers) :], strict=False))
        return sum(
            kilograms_per_hectare(
                sum(values[at * count : (at + 1) * count]), of_density[mass.density], values[-1], mass.depth_cm
            )
            for at, mass in enumerate(masses)
        )

    flat = [one for found in readings for one in found]
    facts = dict(masses[0].facts)
    if code == PROFILE_NITROGEN:
        facts = {name: fact for name, fact in facts.items() if all(mass.facts[name] == fact for mass in masses)}
        facts["layers"] = tuple(map(_layer, layers))
        facts["layer_kg_ha"] = tuple(f"{_kg_ha(found, mass):.1f}" for found, mass in zip(readings, masses, strict=True))
    return reckoned(
        layers[0].top_cm,
        layers[-1].bottom_cm,
        Working(
            code=code,
            unit="kg/ha",
            formula=formula,
            readings=flat,
            figures=(*densities, masses[0].gravel),
            cited=stock_formula(MINERAL_NITROGEN),
            statuses=[mass.status for mass in masses],
            facts={"forms": tuple(split_code(one.code)[0] for one in readings[0]), **facts},
            cautions=(*(() if count > 1 else ("nitrate-alone",)), *(name for mass in masses for name in mass.cautions)),
        ),
    )


def _kg_ha(readings: Sequence[Reading], mass: SoilMass) -> float:
    """Return the nitrogen of one layer [kg/ha]."""
    mg_kg = sum(one.amount.value for one in readings)
    return kilograms_per_hectare(mg_kg, mass.density.value, mass.gravel.value, mass.depth_cm)


def _layer(bag: Bag) -> str:
    """Return a layer as text."""
    return f"{bag.top_cm:g}-{bag.bottom_cm:g}"
