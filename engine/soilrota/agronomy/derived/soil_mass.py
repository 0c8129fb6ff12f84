"""The fine earth of a layer of one hectare: bulk density, depth and gravel.

Facts that it adds to a quantity's:

- `bulk_density`, `bulk_density_low`, `bulk_density_high`: of the fine earth, with its doubt [g/cm3];
- `bulk_density_from`: `measured`, `texture` (typical of it) or `organic-matter` (by formulas);
- `bulk_density_source`: where the figure, or its doubt where it was measured, comes from;
- `gravel_percent`: gravel that was taken off [% by volume]; `gravel_from`: `stated` or `taken-as-none`;
- `depth_cm`: thickness of the layer [cm].

Caution `topsoil-property`: the figures of the zone are its topsoil's, and the layer lies under another.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from soilrota.agronomy.derived.inputs import Bag
from soilrota.agronomy.derived.intervals import Doubtful, exact
from soilrota.agronomy.derived.total_carbon import organic_matter_percent
from soilrota.guidelines.bulk_density import density_of_organic_matter, gravel_share, measured_density, typical_density
from soilrota.guidelines.cited_tables import Figure, citation, weakest
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status
from soilrota.model.judgement import Refused, WhyNot


@dataclass(frozen=True, slots=True)
class SoilMass:
    """The fine earth of a layer.

    Attributes:
        density: bulk density [g/cm3].
        gravel: gravel by volume [-].
        depth_cm: thickness [cm].
        facts, status, cautions: of these figures.
    """

    density: Doubtful
    gravel: Doubtful
    depth_cm: float
    facts: Mapping[str, Fact]
    status: Status
    cautions: tuple[str, ...]


def soil_mass(bag: Bag) -> SoilMass | Refused:
    """Return the fine earth of a bag's layer; what is lacking where its bulk density cannot be told.

    A measured bulk density comes first, then what is typical of the zone's texture, then what the organic matter of the
    bag lets expect.
    """
    density, origin = _density(bag)
    if density is None:
        return Refused(WhyNot.NOT_MEASURED, {"needs": ("bulk-density", "texture")})
    percent = bag.zone.gravel_percent
    gravel = None if percent is None else gravel_share(percent)
    return SoilMass(
        density=doubtful(density),
        gravel=exact(0.0) if gravel is None else doubtful(gravel),
        depth_cm=bag.depth_cm,
        facts={
            "bulk_density": density.value,
            "bulk_density_low": density.low,
            "bulk_density_high": density.high,
            "bulk_density_from": origin,
            "bulk_density_source": citation(density.source),
            "gravel_percent": percent or 0.0,
            "gravel_from": "taken-as-none" if percent is None else "stated",
            "depth_cm": bag.depth_cm,
        },
        status=weakest(density.status, gravel.status if gravel and percent else Status.VERIFIED),
        cautions=topsoil_caution(bag),
    )


def kilograms_per_hectare(mg_kg: float, density: float, gravel: float, depth_cm: float) -> float:
    """Return what so much in a kilogram of fine earth makes in a layer of one hectare [kg/ha].

    A hectare of a layer of 1 cm at 1 g/cm3 weighs 100 t, so 1 mg/kg of it is 0.1 kg.

    >>> round(kilograms_per_hectare(8, 1.4, 0, 60), 9)
    67.2
    """
    return mg_kg * density * depth_cm * (1 - gravel) / 10


def topsoil_caution(bag: Bag) -> tuple[str, ...]:
    """Return the caution that properties of the zone are its topsoil's, where the bag is of a lower layer."""
    return ("topsoil-property",) if bag.top_cm > 0 else ()


def doubtful(figure: Figure) -> Doubtful:
    """Return a figure of a table as a number with its doubt."""
    return Doubtful(figure.value, figure.low, figure.high)


def _density(bag: Bag) -> tuple[Figure | None, str]:
    """Return the bulk density [g/cm3] and where it comes from; None where nothing tells it."""
    if bag.zone.bulk_density is not None:
        return measured_density(bag.zone.bulk_density), "measured"
    if (typical := typical_density(bag.zone.texture)) is not None:
        return typical, "texture"
    matter = organic_matter_percent(bag)
    return (None if matter is None else density_of_organic_matter(matter)), "organic-matter"
