"""The nitrogen budget of a crop: what it must find, less what the soil has and will give [kg N/ha].

    need = demand - mineral nitrogen of the profile - what a legume still adds to it - mineralised in the season
           - what was or will be spread

Wheat: demand is the nitrogen of the grain at target yield and protein times 2 to 3. That factor already carries the
recovery of fertiliser, so nothing is divided by a recovery again (caution `recovery-in-demand`). Canola: demand is what
the whole crop takes up; no recovery is in it, and none is added (caution `recovery-not-in`).

Steps: `demand`, `soil-mineral-nitrogen`, those of `legume_credit`, `mineralised`, those of `applied`,
`not-below-nought`. Where rain, organic
carbon or the profile's nitrogen is not known there is no budget: it would ask for too much.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import fsum

from soilrota.agronomy.advice.applied import NOTHING_APPLIED, Applied
from soilrota.agronomy.advice.crop_plan import Harvest
from soilrota.agronomy.advice.legume_credit import Legume, legume_credit
from soilrota.agronomy.advice.nutrients import NOT_BELOW_NOUGHT
from soilrota.agronomy.advice.spreading_cautions import SpreadingCaution
from soilrota.agronomy.advice.working import Beside, Part, need_of, part, total
from soilrota.agronomy.derived.intervals import Doubtful, propagate, with_cv
from soilrota.guidelines.laboratory_spread import laboratory_cv
from soilrota.guidelines.nitrogen import (
    NitrogenDemand,
    demand_of,
    mineralisation_doubt,
    mineralised,
    nitrogen_figures,
    wheat_grain_nitrogen,
)
from soilrota.model.advice import Cap, Input, Need, NoNeed
from soilrota.model.cropping import CropYear
from soilrota.model.findings import Fact
from soilrota.model.judgement import Quantity, Refused, WhyNot
from soilrota.model.results import Result


@dataclass(frozen=True, slots=True)
class NitrogenCase:
    """What the budget of one zone is reckoned from.

    Attributes:
        ground: ids of farm and zone.
        harvest: the harvest that it is for.
        profile: mineral nitrogen of the profile [kg/ha]; None where it was not measured.
        organic_carbon: the topsoil's organic carbon; None where it was not measured.
        rain_mm: rain of the growing season, with what it may be [mm]; None where nobody said.
        applied: what was or will be spread since the sampling.
        legume: the legume before; None where there was none.
        caps: maxima [kg/ha].
        cautions: further cautions.
    """

    ground: tuple[str, str]
    harvest: Harvest
    profile: Quantity | None
    organic_carbon: Result | None
    rain_mm: Doubtful | None
    applied: Applied = NOTHING_APPLIED
    legume: Legume | None = None
    caps: tuple[Cap, ...] = ()
    cautions: tuple[str, ...] = ()


def nitrogen_need(case: NitrogenCase) -> Need | NoNeed:
    """Return the need of nitrogen [kg/ha], or why it cannot be reckoned."""
    found = _inputs(case)
    if isinstance(found, Refused):
        return NoNeed(*case.ground, Input.NITROGEN, found)
    row, demand, profile, carbon, rain = found
    credit, left_out = legume_credit(case.legume)
    parts = [
        _demanded(row, demand),
        _profile(profile),
        *credit,
        _mineralised(carbon, rain),
        *case.applied.parts,
    ]
    whole = total(parts)
    over = -fsum(one.amount.value for one in parts)
    if over > 0:
        parts.append(part(NOT_BELOW_NOUGHT, over))
    beside = Beside(
        quantities=(profile,),
        cautions=(
            *case.cautions,
            SpreadingCaution.RECOVERY_IN_DEMAND if demand.by_protein else SpreadingCaution.RECOVERY_NOT_IN,
            *left_out,
            *case.applied.cautions,
            *profile.cautions,
        ),
    )
    return need_of(case.ground, Input.NITROGEN, parts, case.caps, beside, whole=whole)


def _inputs(
    case: NitrogenCase,
) -> tuple[CropYear, NitrogenDemand, Quantity, Result, Doubtful] | Refused:
    """Return all that a budget takes, or what it lacks."""
    if not case.harvest.rows:
        return Refused(WhyNot.RULE_VOID, {"reason": "no-crop-plan", "year": case.harvest.year})
    row = case.harvest.rows[0]
    demand = demand_of(row.crop)
    if demand is None:
        return Refused(WhyNot.RULE_VOID, {"reason": "crop-without-figures", "crop": row.crop})
    lacking = tuple(_lacking(case, row, demand))
    if lacking or case.profile is None or case.organic_carbon is None or case.rain_mm is None:
        return Refused(WhyNot.NOT_MEASURED, {"needs": lacking})
    return row, demand, case.profile, case.organic_carbon, case.rain_mm


def _lacking(case: NitrogenCase, row: CropYear, demand: NitrogenDemand) -> Iterator[str]:
    """Yield what a budget lacks."""
    if row.target_yield is None:
        yield "target-yield"
    if demand.by_protein and row.target_protein_percent is None:
        yield "target-protein"
    if case.profile is None:
        yield "profile-nitrogen"
    if case.organic_carbon is None or case.organic_carbon.qualifier:
        yield "organic-carbon"
    if case.rain_mm is None:
        yield "growing-season-rain"


def _demanded(row: CropYear, demand: NitrogenDemand) -> Part:
    """Return what the crop must find."""
    figure = demand.figure
    assert row.target_yield is not None  # asked before
    facts: dict[str, Fact] = {"crop": row.crop, "year": row.year, "target_yield": row.target_yield}
    base = row.target_yield
    if demand.by_protein:
        assert row.target_protein_percent is not None  # asked before
        base = wheat_grain_nitrogen(row.target_yield, row.target_protein_percent)
        facts |= {"protein_percent": row.target_protein_percent, "grain_nitrogen": base}
    facts |= {"per_unit": figure.value, "per_unit_low": figure.low, "per_unit_high": figure.high}
    facts["recovery"] = "in" if demand.by_protein else "not-in"
    return part("demand", Doubtful(figure.value, figure.low, figure.high).times(base), facts, figure.cited)


def _profile(profile: Quantity) -> Part:
    """Return what the profile has, taken off."""
    facts: dict[str, Fact] = {"top_cm": profile.top_cm, "bottom_cm": profile.bottom_cm}
    found = part("soil-mineral-nitrogen", Doubtful(-profile.value, -profile.high, -profile.low), facts)
    return Part(replace(found.step, source=profile.source, status=profile.status), found.amount)


def _mineralised(carbon: Result, rain: Doubtful) -> Part:
    """Return what the soil gives in the season, taken off."""
    low, high = mineralisation_doubt()
    code = f"{carbon.analyte}.{carbon.method}"
    given = propagate(
        lambda percent, mm, doubt: -mineralised(percent, mm) * doubt,
        [with_cv(carbon.value, laboratory_cv(code, carbon.value)), rain, Doubtful(1.0, low, high)],
    )
    facts: dict[str, Fact] = {
        "organic_carbon": carbon.value, "analysis": code, "rain_mm": rain.value, "doubt_low": low, "doubt_high": high,
    }  # fmt: skip
    return part(
        "mineralised",
        Doubtful(given.value, given.low, min(0.0, given.high)),
        facts,
        nitrogen_figures()["mineralisation"].cited,
    )
