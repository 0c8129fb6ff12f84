"""Where a spreader puts how much of one product."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.model.ground import Outline


@dataclass(frozen=True, slots=True)
class ZoneRate:
    """One zone of a rate map.

    Attributes:
        zone, name: id and what people call it.
        outline: its polygons; None where the map does not draw it.
        rate_kg_ha: rate of one pass [kg/ha].
        passes: how often it is spread at that rate [-].
        area_ha: area [ha].
        total_kg: all passes together [kg].
    """

    zone: str
    name: str
    outline: Outline | None
    rate_kg_ha: float
    passes: int
    area_ha: float
    total_kg: float


@dataclass(frozen=True, slots=True)
class RateMap:
    """One product on one farm.

    Attributes:
        farm, farm_name: id and what people call it.
        product, name: id and what people call it.
        zones: zones that get any, in the order of the farm.
        total_kg: over the farm [kg].
        bought_t: what is bought, whole packs included [t].
    """

    farm: str
    farm_name: str
    product: str
    name: str
    zones: tuple[ZoneRate, ...]
    total_kg: float
    bought_t: float
