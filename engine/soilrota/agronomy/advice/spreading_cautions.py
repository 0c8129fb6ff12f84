"""Cautions that stand beside needs of nutrients. Words are made at the edge.

All of them are usual practice and defer to local rules, to the product's label and to licensed advice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from enum import StrEnum

from soilrota.guidelines.spreading import is_grazed, near_water_m, runs_off
from soilrota.model.advice import Input
from soilrota.model.client import Zone
from soilrota.model.products import Product


class SpreadingCaution(StrEnum):
    """A caution."""

    #: Something was spread, or will be, of which product or rate is not known: it is not taken off.
    APPLIED_UNKNOWN = "applied-unknown"
    #: Something was spread, nobody knows when: it is not taken off.
    APPLIED_UNDATED = "applied-undated"
    #: No source says what a crop finds of manure in its year here: all is taken off, and the range reaches to none.
    MANURE_AVAILABILITY = "manure-availability"
    #: What a harvest takes off is not counted: there is no plan, or no edition speaks of it.
    REMOVAL_NOT_COUNTED = "removal-not-counted"
    #: The result is under its line, and no source says what lifts it.
    BUILD_UP_NOT_SIZED = "build-up-not-sized"
    #: A later edition of the region's rules exists, which was not read.
    SUPERSEDED = "superseded"
    #: The law has maxima here, but none was read for this use of the land: look it up.
    LEGAL_MAXIMUM_UNKNOWN = "legal-maximum-unknown"
    #: What the crop must find carries the recovery of fertiliser: it is never divided by a recovery again.
    RECOVERY_IN_DEMAND = "recovery-in-demand"
    #: What the crop must find is what it takes up: what is lost of fertiliser is not in it, and is not added.
    RECOVERY_NOT_IN = "recovery-not-in"
    #: A legume stood before, and no figure that was read holds for it: what it leaves is not taken off.
    LEGUME_CREDIT_LEFT_OUT = "legume-credit-left-out"
    #: Not before heavy rain, nor where water runs off to a drain or a neighbour.
    RUN_OFF = "run-off"
    #: Not on ground that is waterlogged, flooded, frozen or under snow.
    WET_OR_FROZEN_GROUND = "wet-or-frozen-ground"
    #: Water is near: keep the distance that local rules say.
    NEAR_WATER = "near-water"
    #: Stock stay off after spreading, as the label and local rules say.
    STOCK_OFF = "stock-off"
    #: Phosphorus fertiliser brings cadmium: ask for the product's content, and add the load up over years.
    CADMIUM = "cadmium"
    #: Local rules, the label and licensed advice go before all of this.
    LOCAL_RULES = "local-rules"


def cautions_of_spreading(zone: Zone, nutrient: Input, products: Iterable[Product] = ()) -> Iterator[SpreadingCaution]:
    """Yield the cautions that belong beside a need that is to be spread on a zone.

    Args:
        zone: the zone.
        nutrient: of what.
        products: what may be spread; cadmium is no concern where all that bring phosphorus are known to have none.
    """
    yield SpreadingCaution.LOCAL_RULES
    yield SpreadingCaution.WET_OR_FROZEN_GROUND
    if runs_off(zone.landscape_position):
        yield SpreadingCaution.RUN_OFF
    if zone.distance_to_water_m is not None and zone.distance_to_water_m < near_water_m():
        yield SpreadingCaution.NEAR_WATER
    if is_grazed(zone.land_use):
        yield SpreadingCaution.STOCK_OFF
    if nutrient is Input.PHOSPHORUS:
        cadmium = [one.cadmium_mg_kg_p for one in products if one.contents.get(Input.PHOSPHORUS.value)]
        if not cadmium or any(one is None or one > 0 for one in cadmium):
            yield SpreadingCaution.CADMIUM


def cadmium_load(phosphorus: float, cadmium_mg_kg_p: float) -> float:
    """Return the cadmium that phosphorus [kg P/ha] brings [g/ha], by its cadmium [mg/kg of phosphorus].

    >>> cadmium_load(20, 280)
    5.6
    """
    return phosphorus * cadmium_mg_kg_p / 1000
