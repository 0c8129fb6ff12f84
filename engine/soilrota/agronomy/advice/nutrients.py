"""Needs of phosphorus, potassium, sulphur and magnesium: what the soil lacks, and what harvests take off.

    need = sum over harvests of (the rule's part + what is given back) - what was or will be spread

It is never below nought: what was spread beyond the need is not carried on (step `not-below-nought`). The interval
holds the doubt of the result, its line, the rule's figure and what harvests take off; maxima cut it like the amount.

Cautions: `removal-not-counted` (no crop plan, or a harvest that no edition speaks of), `build-up-not-sized` (the result
is under its line, and no source says what lifts it).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import exp, fsum

from soilrota.agronomy.advice.applied import NOTHING_APPLIED, Applied
from soilrota.agronomy.advice.caps import within
from soilrota.agronomy.advice.crop_plan import Harvest
from soilrota.agronomy.advice.limits import clear_of_line, is_above_limit, upper_limit
from soilrota.agronomy.advice.nutrient_rates import Asked, Rate, rate_of
from soilrota.agronomy.advice.removal import UNKNOWN, removed
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.advice.working import Beside, Part, need_of, part
from soilrota.agronomy.derived.intervals import WIDTH, Doubtful, exact, propagate
from soilrota.guidelines.nutrient_regions import NutrientRule
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.findings import Fact
from soilrota.model.judgement import Rating, Refused

#: Step that stands for what was spread beyond the need.
NOT_BELOW_NOUGHT = "not-below-nought"
#: A value that the laboratory gives as above a limit is at most so many times that limit.
_ABOVE = 1000


@dataclass(frozen=True, slots=True)
class NutrientCase:
    """What the need of one nutrient of one zone is reckoned from.

    Attributes:
        ground: ids of farm and zone.
        nutrient: of what.
        rating: what the result means.
        rule: the rule of the region.
        editions: removal editions, the one that goes first first.
        harvests: those that the need makes good, at least one.
        years: over how many years the soil is built up [years].
        applied: what was or will be spread since the sampling.
        caps: further maxima [kg/ha].
        cautions: further cautions.
    """

    ground: tuple[str, str]
    nutrient: Input
    rating: Rating
    rule: NutrientRule
    editions: tuple[str, ...]
    harvests: tuple[Harvest, ...]
    years: int
    applied: Applied = NOTHING_APPLIED
    caps: tuple[Cap, ...] = ()
    cautions: tuple[str, ...] = ()


def nutrient_need(case: NutrientCase) -> Need | NoNeed:
    """Return the need of one nutrient [kg/ha of the element], or why it cannot be reckoned."""
    rate = rate_of(
        case.rule, case.rating, case.nutrient, harvests=case.harvests, years=case.years, editions=case.editions
    )
    if isinstance(rate, Refused):
        return NoNeed(*case.ground, case.nutrient, rate)
    harvested = [_removals(case, harvest) for harvest in case.harvests]
    gross = _parts(case, rate, harvested)
    parts = [*gross, *case.applied.parts]
    over = -fsum(one.amount.value for one in parts)
    if over > 0:
        parts.append(part(NOT_BELOW_NOUGHT, over))
    caps = (*_caps(case), *case.caps)
    is_known = any(one.rows for one in case.harvests) and not any(
        one.step.rule == UNKNOWN for season in harvested for one in season
    )
    unknown = () if is_known else (SpreadingCaution.REMOVAL_NOT_COUNTED,)
    beside = Beside(
        rating=case.rating,
        cautions=(*case.cautions, *rate.cautions, *case.applied.cautions, *unknown),
        probability=case.rating.below,
    )
    return need_of(case.ground, case.nutrient, parts, caps, beside, whole=_whole(case, rate, harvested))


def value_of(rating: Rating) -> Doubtful:
    """Return a result with its doubt [unit of its row]; of a censored one all that it may be."""
    value, doubt = rating.result.value, rating.doubt
    if rating.result.qualifier == "<":
        return Doubtful(value / 2, 0.0, value, is_censored=True)
    if rating.result.qualifier == ">":
        return Doubtful(value, value, value * _ABOVE)
    if doubt.on_log_scale:
        spread = exp(WIDTH * doubt.sd)
        return Doubtful(value, value / spread, value * spread)
    return Doubtful(value, max(0.0, value - WIDTH * doubt.sd), value + WIDTH * doubt.sd)


def line_with_doubt(rating: Rating) -> Doubtful:
    """Return the line of a rating with its published interval; nought where the row has classes alone."""
    line = rating.critical or 0.0
    low, high = rating.critical_low, rating.critical_high
    return Doubtful(line, min(low, line), max(high, line)) if low is not None and high is not None else exact(line)


def _removals(case: NutrientCase, harvest: Harvest) -> tuple[Part, ...]:
    """Return what the crops of one harvest take off."""
    found = (removed(row, case.editions, case.nutrient) for row in harvest.rows)
    return tuple(one for one in found if one is not None)


def _caps(case: NutrientCase) -> Iterator[Cap]:
    """Yield the maxima that the rating itself sets."""
    yield from upper_limit(case.rating)
    if case.rule.stops_where_clear:
        yield from clear_of_line(case.rating)


def _parts(case: NutrientCase, rate: Rate, harvested: Sequence[Sequence[Part]]) -> list[Part]:
    """Return the working before what was spread: the rule's part, and every harvest's."""
    value, line = value_of(case.rating), line_with_doubt(case.rating)
    taken = [fsum(one.amount.value for one in season) for season in harvested]

    def by_rule(found: float, wanted: float, figure: float) -> float:
        return fsum(
            season(Asked(found, wanted, figure, removal))[0]
            for season, removal in zip(rate.seasons, taken, strict=True)
        )

    soil = propagate(by_rule, [value, line, rate.figure])
    facts: dict[str, Fact] = {
        "result": case.rating.result.value,
        "unit": case.rating.row.unit,
        "analysis": f"{case.rating.row.analyte}.{case.rating.row.method}",
        "harvests": len(rate.seasons),
        **({"line": case.rating.critical} if case.rating.critical is not None else {}),
        **({"class": case.rating.name} if case.rating.name else {}),
        **rate.facts,
    }
    parts = [part(rate.step, soil, facts, rate.cited)]
    for season, crops, removal in zip(rate.seasons, harvested, taken, strict=True):
        given = season(Asked(value.value, line.value, rate.figure.value, removal))[1]
        parts += [_given_back(one, given / removal if removal else 0.0) for one in crops]
    return parts


def _given_back(crop: Part, share: float) -> Part:
    """Return a harvest's step with the share of it that is given back; what is not known stays as it is."""
    if crop.step.rule == UNKNOWN:
        return crop
    facts: dict[str, Fact] = {**crop.step.facts, "removed": crop.step.amount, "share": share}
    low, value, high = (share * one for one in (crop.amount.low, crop.amount.value, crop.amount.high))
    return Part(replace(crop.step, amount=value, facts=facts), Doubtful(value, low, high))


def _whole(case: NutrientCase, rate: Rate, harvested: Sequence[Sequence[Part]]) -> Doubtful:
    """Return the need with its interval; the result moves the rule's part and the harvests' share together."""
    taken = [one.amount for season in harvested for one in season]
    off = [one.amount for one in case.applied.parts]
    sizes = [len(season) for season in harvested]
    caps = case.caps

    def need(found: float, wanted: float, figure: float, *rest: float) -> float:
        if is_above_limit(case.rating.row, found):
            return 0.0
        amounts, spread = rest[: len(taken)], rest[len(taken) :]
        gross, at = 0.0, 0
        for season, size in zip(rate.seasons, sizes, strict=True):
            gross += fsum(season(Asked(found, wanted, figure, fsum(amounts[at : at + size]))))
            at += size
        return within(exact(gross + fsum(spread)), caps).value

    inputs = [value_of(case.rating), line_with_doubt(case.rating), rate.figure, *taken, *off]
    return propagate(need, inputs)
