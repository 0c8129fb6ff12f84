"""What was or will be spread since the sampling, taken off a need [kg/ha of the element; t/ha of pure lime or gypsum].

A row of the applications log names its material in words; it is known where one product of the book has that name,
capitals apart, and the row has a rate. Anything else is never guessed: it is a caution.

Steps: `already-applied` (done) and `planned` with `product`, `day`, `rate_kg_ha`, `content_percent`. Of
manure what the cited share says a crop finds in its year. Where no source that was read says so, manure, compost and
biosolids count in full, with an interval down to nought.

Cautions: `applied-unknown`, `applied-undated` (done, nobody knows when), `manure-availability`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from math import fsum

from soilrota.agronomy.advice.effectiveness import effectiveness_of
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.advice.working import Part, part
from soilrota.agronomy.derived.intervals import Doubtful, exact
from soilrota.guidelines.manure import ManureShare, manure_share
from soilrota.guidelines.nutrient_regions import is_organic, may_carry
from soilrota.model.advice import Input
from soilrota.model.applications import Application, Standing
from soilrota.model.client import Zone
from soilrota.model.findings import Fact
from soilrota.model.products import Product, ProductKind

ALREADY, PLANNED = "already-applied", "planned"
_PURE = {Input.LIME: ProductKind.LIME, Input.GYPSUM: ProductKind.GYPSUM}
_KG_A_TONNE = 1000
_STEPS = {Standing.DONE: ALREADY, Standing.PLANNED: PLANNED}


@dataclass(frozen=True, slots=True)
class Applied:
    """What was or will be spread on a zone of one nutrient.

    Attributes:
        parts: steps of the working, each below nought.
        cautions: ids of cautions.
    """

    parts: tuple[Part, ...] = ()
    cautions: tuple[str, ...] = ()

    def in_year(self, year: int) -> float:
        """Return what was or will be spread in a calendar year [kg/ha of the element]."""
        days = ((one, one.step.facts.get("day")) for one in self.parts)
        return -fsum(one.amount.value for one, day in days if isinstance(day, date) and day.year == year)


NOTHING_APPLIED = Applied()


def spread_on(applications: Iterable[Application], zone: Zone, since: date, until: date) -> tuple[Application, ...]:
    """Return the applications on a zone that a sampling did not see, and those of which nobody knows the day.

    Args:
        applications: the log.
        zone: the zone.
        since: day of the sampling; what ended on it was seen.
        until: last day that counts for the season that is asked for.
    """
    return tuple(
        one
        for one in applications
        if one.farm == zone.farm
        and (not one.zones or zone.id in one.zones)
        and one.standing is not Standing.CANCELLED
        and ((day := day_of(one)) is None or since < day <= until)
    )


def day_of(application: Application) -> date | None:
    """Return the last day of an application that is known; None where none is."""
    return application.last_day or application.first_day


def applied_of(spread: Iterable[Application], products: Iterable[Product], wanted: Input, region: str = "") -> Applied:
    """Return what applications brought, or will bring, of an input.

    Args:
        spread: applications on the zone since the sampling, of `spread_on`.
        products: the products of the book.
        wanted: of what.
        region: ISO 3166-1 code, or 3166-2 such as `AU-WA`, by whose scheme limes are worth what they are.
    """
    by_name: defaultdict[str, list[Product]] = defaultdict(list)
    for product in products:
        by_name[product.name.casefold()].append(product)
    parts: list[Part] = []
    cautions: list[str] = []
    for one in spread:
        named = by_name.get(one.material.casefold(), [])
        content = _content(named[0], wanted, region) if len(named) == 1 else None
        if content is None or (content and one.rate_kg_ha is None):
            cautions += [SpreadingCaution.APPLIED_UNKNOWN] if wanted in may_carry(one.material_class) else []
        elif content and day_of(one) is None and one.standing is Standing.DONE:
            cautions.append(SpreadingCaution.APPLIED_UNDATED)
        elif content:
            classes = [name for name in (named[0].material_class, one.material_class) if is_organic(name)]
            share = manure_share(classes[0], wanted, region[:2]) if classes else None
            parts.append(_taken_off(one, content, wanted, share, is_unknown=bool(classes) and share is None))
            cautions += [SpreadingCaution.MANURE_AVAILABILITY] if classes and share is None else []
    return Applied(tuple(parts), tuple(dict.fromkeys(cautions)))


def _content(product: Product, wanted: Input, region: str) -> float:
    """Return what a product holds of an input [%]: of pure lime or gypsum as far as it is spread for that."""
    if wanted in _PURE:
        return 100 * effectiveness_of(product, region) if product.kind is _PURE[wanted] else 0.0
    return product.contents.get(wanted.value, 0.0)


def _taken_off(one: Application, content: float, wanted: Input, share: ManureShare | None, *, is_unknown: bool) -> Part:
    """Return the step of one application, by what its product holds [%] and what a crop finds of that."""
    assert one.rate_kg_ha is not None  # asked before
    amount = one.rate_kg_ha * content / 100 / (_KG_A_TONNE if wanted in _PURE else 1)
    facts: dict[str, Fact] = {"product": one.material, "rate_kg_ha": one.rate_kg_ha, "content_percent": content}
    day = day_of(one)
    if day is not None:
        facts["day"] = day
    if share is None:
        return part(_STEPS[one.standing], Doubtful(-amount, -amount, 0.0) if is_unknown else exact(-amount), facts)
    facts["found_percent"] = 100 * share.value
    found = Doubtful(-share.value, -share.high, -share.low).times(amount)
    return part(_STEPS[one.standing], found, facts, share.cited)
