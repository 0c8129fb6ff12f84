"""How a sample is taken: season, interval, layers, cores, pattern, analyses."""

from __future__ import annotations

from dataclasses import dataclass

from soilrota.problems import Place


@dataclass(frozen=True, slots=True)
class Layer:
    """One depth layer of a protocol: from `top_cm` to `bottom_cm` [cm], `cores` [-] in one composite."""

    top_cm: float
    bottom_cm: float
    cores: int


@dataclass(frozen=True, slots=True)
class Protocol:
    """A sampling protocol.

    Attributes:
        id: its id.
        name: what people call it.
        purpose: what it is for, one sentence; may be empty.
        season: id of a season of the practice's calendar.
        interval_months: calendar months between two samplings [month].
        tolerance_days: distance from the anniversary within which results compare directly [d].
        layers: from the top down, without gap or overlap.
        pattern: `transect`, `zigzag`, `cluster` or `strata`.
        largest_area_ha: largest area for one composite [ha].
        analyses: ids of analytes (and methods, see the glossary) asked of the laboratory.
        laboratory: id of the laboratory; empty when none is named.
        gap_months: calendar months to wait after an application by class, where this protocol asks for more.
        soil_state: `moist` or `dry`: which soil is preferred.
        reasons: written reasons for departures from the practice's minimum, by the property they explain.
        place: where it is declared.
        spacing_m: distance between cores along the walk [m]; None spreads them over the whole line.
        edge_m: distance that cores keep from the zone's edge [m]; None for the default.
    """

    id: str
    name: str
    purpose: str
    season: str
    interval_months: int
    tolerance_days: int
    layers: tuple[Layer, ...]
    pattern: str
    largest_area_ha: float
    analyses: tuple[str, ...]
    laboratory: str
    gap_months: dict[str, int]
    soil_state: str
    reasons: dict[str, str]
    place: Place
    spacing_m: float | None = None
    edge_m: float | None = None
