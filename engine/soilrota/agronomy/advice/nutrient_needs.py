"""Needs of nutrients of one zone: which result speaks, which rule holds, what was spread, which harvests count.

Where a zone is sampled under several protocols, each nutrient is reckoned from the latest sampling that rates it.

Reasons of a need that is not there, beside those of an unrated result: `no-rule` (of a region or land use),
`crop-without-rate`, `no-crop-plan`, `classes-unknown`, `crop-without-figures`, `earlier-season` (a profile's nitrogen
that an earlier crop has used).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from soilrota.agronomy.advice.applied import Applied, applied_of, spread_on
from soilrota.agronomy.advice.crop_plan import harvests_between, next_harvest, season_end
from soilrota.agronomy.advice.legume_credit import legume_before
from soilrota.agronomy.advice.limits import legal_maxima
from soilrota.agronomy.advice.nitrogen import NitrogenCase, nitrogen_need
from soilrota.agronomy.advice.nutrients import NutrientCase, nutrient_need
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution, cautions_of_spreading
from soilrota.agronomy.barred import barred_samples, rules_against
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.agronomy.derived.nitrogen import PROFILE_NITROGEN
from soilrota.guidelines.choosing import known_sets
from soilrota.guidelines.judging import judging_figures
from soilrota.guidelines.nutrient_regions import NutrientRegion, default_build_up_years, region_of
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.client import Client, Zone
from soilrota.model.cropping import CropYear
from soilrota.model.findings import SampleFinding
from soilrota.model.guideline import GuidelineSet, Sense
from soilrota.model.judgement import NoQuantity, Quantity, Rating, Refused, Unrated, WhyNot, ZoneJudgement
from soilrota.model.products import Product
from soilrota.model.results import Result

#: Nutrients that a soil test rates.
TESTED = (Input.PHOSPHORUS, Input.POTASSIUM, Input.SULPHUR, Input.MAGNESIUM)
_DAYS_A_YEAR = 365.25


@dataclass(frozen=True, slots=True)
class Choices:
    """What needs are reckoned by, beside what was judged.

    Attributes:
        on: day of the advice.
        products: what can be bought; their names tell what was spread.
        rain_mm: rain of the growing season at the zone, with what it may be [mm]; None where nobody said.
        caps: the practice's own maxima by input [kg/ha of the element].
        findings: on samples of the client.
        makes_acid_good: whether lime makes good what harvests acidify, besides what the target pH asks for.
    """

    on: date
    products: tuple[Product, ...] = ()
    rain_mm: Doubtful | None = None
    caps: Mapping[Input, tuple[Cap, ...]] = field(default_factory=dict)
    findings: tuple[SampleFinding, ...] = ()
    makes_acid_good: bool = False


def nutrient_needs(
    client: Client, zone: Zone, judgements: Sequence[ZoneJudgement], by: Choices
) -> tuple[Need | NoNeed, ...]:
    """Return the need of every nutrient of a zone, or why there is none.

    Args:
        client: whose zone it is; its cropping plan and its applications are asked.
        zone: the zone.
        judgements: of the zone, one a protocol.
        by: what needs are reckoned by.
    """
    found = [_tested(client, zone, judgements, nutrient, by) for nutrient in TESTED]
    found.append(_nitrogen(client, zone, judgements, by))
    return tuple(_with_cautions(one, zone, by) for one in found)


def applied_since(client: Client, zone: Zone, wanted: Input, sampled: date, by: Choices) -> Applied:
    """Return what was or will be spread on a zone since a sampling, for the season that is asked for.

    Args:
        client: whose applications are asked.
        zone: the zone.
        wanted: of what.
        sampled: day of the sampling.
        by: day of the advice, and products.
    """
    until = season_end(next_harvest(max(by.on, sampled), client.hemisphere), client.hemisphere)
    region = f"{client.country}-{client.subdivision}" if client.subdivision else client.country
    return applied_of(spread_on(client.applications, zone, sampled, until), by.products, wanted, region)


def _with_cautions(one: Need | NoNeed, zone: Zone, by: Choices) -> Need | NoNeed:
    """Return a need with the cautions of spreading, where there is anything to spread."""
    if isinstance(one, NoNeed) or one.amount <= 0:
        return one
    added = (*one.cautions, *cautions_of_spreading(zone, one.input, by.products))
    return replace(one, cautions=tuple(dict.fromkeys(added)))


def _tested(
    client: Client, zone: Zone, judgements: Sequence[ZoneJudgement], nutrient: Input, by: Choices
) -> Need | NoNeed:
    """Return the need of a nutrient that a soil test rates."""
    rating = _rating(client, judgements, nutrient)
    if isinstance(rating, Refused):
        return NoNeed(zone.farm, zone.id, nutrient, rating)
    region = _region(client, rating)
    rule = region.rules.get(nutrient) if region else None
    if region is None or rule is None or (rule.land_uses and zone.land_use not in rule.land_uses):
        why = Refused(WhyNot.RULE_VOID, {"reason": "no-rule", "set": rating.set, "land_use": zone.land_use})
        return NoNeed(zone.farm, zone.id, nutrient, why)
    sampled = rating.result.sampled
    caps: tuple[Cap, ...] = tuple(by.caps.get(nutrient, ()))
    cautions: tuple[str, ...] = (SpreadingCaution.SUPERSEDED,) if region.is_superseded else ()
    if nutrient is Input.PHOSPHORUS:
        spread = _spread_in_year(client, zone, nutrient, by)
        legal, silence = legal_maxima((client.country, client.subdivision), zone, rating, spread)
        caps, cautions = caps + legal, cautions + silence
    return nutrient_need(
        NutrientCase(
            ground=(zone.farm, zone.id),
            nutrient=nutrient,
            rating=rating,
            rule=rule,
            editions=region.editions_on(zone.land_use),
            harvests=harvests_between(_plan(client, zone), sampled, by.on, client.hemisphere),
            years=client.build_up_years or default_build_up_years(),
            applied=applied_since(client, zone, nutrient, sampled, by),
            caps=caps,
            cautions=cautions,
        )
    )


def _nitrogen(client: Client, zone: Zone, judgements: Sequence[ZoneJudgement], by: Choices) -> Need | NoNeed:
    """Return the nitrogen budget of the season that is asked for."""
    region = region_of(_set(client, judgements), client.country, client.subdivision)
    if region is None or not region.has_nitrogen_budget:
        why = Refused(WhyNot.RULE_VOID, {"reason": "no-rule", "land_use": zone.land_use})
        return NoNeed(zone.farm, zone.id, Input.NITROGEN, why)
    found = _profile(judgements)
    if isinstance(found, NoQuantity):
        return NoNeed(zone.farm, zone.id, Input.NITROGEN, found.refused)
    sampled = found.inputs[0].sampled if found else by.on
    harvest = harvests_between(_plan(client, zone), by.on, by.on, client.hemisphere)[-1]
    if next_harvest(sampled, client.hemisphere) < harvest.year:
        why = Refused(WhyNot.RULE_VOID, {"reason": "earlier-season", "sampled": sampled})
        return NoNeed(zone.farm, zone.id, Input.NITROGEN, why)
    return nitrogen_need(
        NitrogenCase(
            ground=(zone.farm, zone.id),
            harvest=harvest,
            profile=found,
            organic_carbon=_organic_carbon(client, zone, by),
            rain_mm=by.rain_mm,
            applied=applied_since(client, zone, Input.NITROGEN, sampled, by),
            legume=legume_before(_plan(client, zone), harvest.year, sampled, client.hemisphere),
            caps=tuple(by.caps.get(Input.NITROGEN, ())),
        )
    )


def _rating(client: Client, judgements: Sequence[ZoneJudgement], nutrient: Input) -> Rating | Refused:
    """Return the rating that speaks of a nutrient: the latest, of a test with a figure of build-up, the uppermost."""
    rated = [
        one
        for judgement in judgements
        for one in judgement.ratings
        if one.row.analyte == nutrient.value and one.row.sense is Sense.SUFFICIENCY
    ]
    if rated:
        return min(
            rated,
            key=lambda one: (-one.result.sampled.toordinal(), not _has_figure(client, one, nutrient), one.row.top_cm),
        )
    return _refused(judgements, nutrient)


def _refused(judgements: Sequence[ZoneJudgement], nutrient: Input) -> Refused:
    """Return why no result speaks of a nutrient: what the latest and uppermost lacks, or that it was not measured.

    A result that a row describes in classes alone was measured; what it lacks is a line of what is enough.
    """
    unrated: list[Unrated] = [
        one for judgement in judgements for one in judgement.unrated if one.result.analyte == nutrient.value
    ]
    if unrated:
        return min(unrated, key=lambda one: (-one.result.sampled.toordinal(), one.result.top_cm)).refused
    if any(one.row.analyte == nutrient.value for judgement in judgements for one in judgement.ratings):
        return Refused(WhyNot.RULE_VOID, {"reason": "no-line"})
    return Refused(WhyNot.NOT_MEASURED, {"needs": (nutrient.value,)})


def _has_figure(client: Client, rating: Rating, nutrient: Input) -> bool:
    """Return whether the region has a figure of build-up for the test of a rating."""
    region = _region(client, rating)
    rule = region.rules.get(nutrient) if region else None
    code = f"{rating.row.analyte}.{rating.row.method}"
    return rule is not None and any(one.test == code for one in rule.figures)


def _region(client: Client, rating: Rating) -> NutrientRegion | None:
    """Return the region of a rating."""
    return region_of(known_sets(client.practice).get(rating.set), client.country, client.subdivision)


def _set(client: Client, judgements: Sequence[ZoneJudgement]) -> GuidelineSet | None:
    """Return the guideline set that a zone was judged by first."""
    sets = known_sets(client.practice)
    return next((sets[one.set] for one in judgements if one.set in sets), None)


def _plan(client: Client, zone: Zone) -> tuple[CropYear, ...]:
    """Return the cropping plan of a zone."""
    return tuple(row for row in client.cropping if (row.farm, row.zone) == (zone.farm, zone.id))


def _spread_in_year(client: Client, zone: Zone, nutrient: Input, by: Choices) -> float:
    """Return what was or will be spread in the calendar year of the advice [kg/ha of the element]."""
    since, until = date(by.on.year, 1, 1) - timedelta(days=1), date(by.on.year, 12, 31)
    return applied_of(spread_on(client.applications, zone, since, until), by.products, nutrient).in_year(by.on.year)


def _profile(judgements: Sequence[ZoneJudgement]) -> Quantity | NoQuantity | None:
    """Return the mineral nitrogen of the latest profile, or why it could not be reckoned; None where none was taken."""
    there = [one for judgement in judgements for one in judgement.quantities if one.code == PROFILE_NITROGEN]
    if there:
        return max(there, key=lambda one: one.inputs[0].sampled)
    return next((one for judgement in judgements for one in judgement.missing if one.code == PROFILE_NITROGEN), None)


def _organic_carbon(client: Client, zone: Zone, by: Choices) -> Result | None:
    """Return the topsoil's latest organic carbon, under any protocol, not older than a covariate may be."""
    barred = barred_samples(by.findings)
    since = by.on - timedelta(days=judging_figures().covariate_years * _DAYS_A_YEAR)
    found = [
        one
        for one in client.results
        if (one.farm, one.zone, one.analyte, one.unit) == (zone.farm, zone.id, "organic-carbon", "%")
        and one.top_cm == 0
        and since <= one.sampled <= by.on
        and not rules_against(one, barred)
    ]
    return max(found, key=lambda one: one.sampled, default=None)
