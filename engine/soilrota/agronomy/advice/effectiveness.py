"""What a tonne of lime or gypsum as bought does, of what a tonne of the pure substance does.

Lime: neutralising value (pure calcium carbonate being 100) times what is not water, and fineness where the region's
scheme was read: Western Australia by size fractions, New York by sieves. Elsewhere, and where the fractions do not fit
the scheme's sizes, coarse grains count like fine ones, and the facts say so. Gypsum: purity times what is not water.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from soilrota.guidelines.advice_regions import fineness_scheme, sieve_opening, sieves_cited
from soilrota.guidelines.cited import Cited
from soilrota.guidelines.cited_tables import weakest
from soilrota.guidelines.gypsum import gypsum_source
from soilrota.guidelines.lime_quality import new_york_value, quality_sources, western_australia_value
from soilrota.model.findings import Fact
from soilrota.model.products import Product, ProductKind, SizeFraction


@dataclass(frozen=True, slots=True)
class Effectiveness:
    """What a product is worth.

    Attributes:
        share: tonnes of the pure substance that a tonne as bought stands for [-]; nought where it is of no use for it.
        scheme: `western-australia`, `new-york`, `neutralising-value` or `purity`.
        facts: the figures that went in; `fineness` is `counted`, `not-known`, `not-in-scheme` or `no-scheme`.
        cited: where the scheme comes from.
    """

    share: float
    scheme: str
    facts: Mapping[str, Fact]
    cited: Cited


def effectiveness_of(product: Product, region: str) -> float:
    """Return how many tonnes of the pure substance a tonne of a product as bought stands for [-].

    Args:
        product: a lime or a gypsum; another product is worth nought.
        region: ISO 3166-1 code, or 3166-2 such as `AU-WA`.
    """
    return worth_of(product, region).share


def worth_of(product: Product, region: str) -> Effectiveness:
    """Return what a product is worth, with the working."""
    dry = 1 - product.moisture_percent / 100
    if product.kind is ProductKind.GYPSUM:
        purity = product.purity_percent or 0.0
        facts: dict[str, Fact] = {"purity_percent": purity, "moisture_percent": product.moisture_percent}
        return Effectiveness(purity / 100 * dry, "purity", facts, gypsum_source("material"))
    value, scheme, facts, cited = _lime_value(product, region)
    return Effectiveness(value / 100 * dry, scheme, facts | {"moisture_percent": product.moisture_percent}, cited)


def new_york_fineness(fractions: Sequence[SizeFraction]) -> tuple[float, float, float] | None:
    """Return the mass that passes 20, 60 and 100 meshes an inch [%]; None where a fraction lies across a sieve."""
    openings = [sieve_opening(meshes) for meshes in (20, 60, 100)]
    if any(one.low_mm < opening < one.high_mm for one in fractions for opening in openings):
        return None
    through = [fsum(one.mass_percent for one in fractions if one.high_mm <= opening) for opening in openings]
    return through[0], through[1], through[2]


def _lime_value(product: Product, region: str) -> tuple[float, str, dict[str, Fact], Cited]:
    """Return the effective neutralising value of a dry lime [%], the scheme, its facts, and where it comes from."""
    value = product.neutralising_percent or 0.0
    country, _, subdivision = region.partition("-")
    scheme = fineness_scheme(country, subdivision)
    facts: dict[str, Fact] = {"neutralising_percent": value}
    by_scheme = _by_scheme(product.fractions, value, scheme) if value and product.fractions else None
    if by_scheme is not None:
        effective, cited = by_scheme
        return effective, scheme, facts | {"fineness": "counted", "effective_percent": effective}, cited
    why = "no-scheme" if not scheme else "not-in-scheme" if product.fractions else "not-known"
    return value, "neutralising-value", facts | {"fineness": why}, quality_sources()["pure"]


def _by_scheme(fractions: Sequence[SizeFraction], value: float, scheme: str) -> tuple[float, Cited] | None:
    """Return the effective neutralising value by a scheme [%]; None where it does not say."""
    if scheme == "western-australia":
        effective = western_australia_value(fractions)
        return None if effective is None else (effective, quality_sources()["western_australia"])
    passing = new_york_fineness(fractions) if scheme == "new-york" else None
    if passing is None:
        return None
    cited, sieves = quality_sources()["new_york"], sieves_cited()
    return new_york_value(*passing, value), Cited(cited.source, weakest(cited.status, sieves.status), cited.note)
