"""Salinity of the saturation extract (ECe) from that of a 1:5 extract, and what crops lose to it.

The factor follows clay by the printed table where clay is known, the field texture otherwise (from memory). With gypsum
in the soil the rule is void: gypsum holds a 1:5 extract at about 2.2 dS/m whatever the salinity.

Facts of `ece`:

- `factor`, `factor_low`, `factor_high`: ECe over EC 1:5 [-]; `factor_by`: `clay` or `texture`; `factor_source`,
  `factor_status`: where it comes from, and whether it was read there;
- `clay_percent` or `texture`: what it follows;
- `regression_low`, `regression_high`: ECe by the regressions that are blind to texture, as a cross-check [dS/m]; not in
  fresh soil.

Facts of `relative-yield`: `crop` as it was asked, `crop_id` as the table has it, `ece` [dS/m], `threshold` [dS/m],
`slope` [% a dS/m], `tolerance_source`, `tolerance_status`, and the `factor...` of `ece`.

Cautions: `gypsum-possible`, so salty that gypsum may hold it there; `topsoil-property`, clay and texture are the
topsoil's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from soilrota.agronomy.derived.inputs import Bag
from soilrota.agronomy.derived.outcomes import Outcome, Working, reckoned, refused
from soilrota.agronomy.derived.soil_mass import doubtful, topsoil_caution
from soilrota.guidelines.cited_tables import Figure, citation, weakest
from soilrota.guidelines.salinity import (
    factor_by_clay,
    factor_by_texture,
    gypsum_extract,
    gypsum_possible_from,
    regressions,
    salinity_formula,
    salt_tolerance,
    salt_tolerances,
)
from soilrota.model.findings import Fact
from soilrota.model.judgement import NoQuantity, Quantity, Refused, WhyNot

ECE, RELATIVE_YIELD = "ece", "relative-yield"
_CONDUCTIVITY = "conductivity.ec-1-5"


def salinity_quantities(bag: Bag, crops: Sequence[str] = (), *, has_gypsum: bool = False) -> Iterator[Outcome]:
    """Yield ECe and the relative yield of each crop, or why each is not there; nothing without EC 1:5."""
    if not bag.has(_CONDUCTIVITY):
        return
    ece = _ece(bag, has_gypsum=has_gypsum)
    yield ece
    for crop in crops:
        yield _relative_yield(bag, crop, ece)


def _ece(bag: Bag, *, has_gypsum: bool) -> Outcome:
    """Return ECe [dS/m]."""
    if has_gypsum:
        return refused(bag, ECE, Refused(WhyNot.RULE_VOID, {"reason": "gypsum", "extract": gypsum_extract().value}))
    factor, readings = _factor(bag), bag.read(_CONDUCTIVITY)
    if isinstance(factor, Refused):
        return refused(bag, ECE, factor)
    if isinstance(readings, Refused):
        return refused(bag, ECE, readings)
    figure, by = factor
    conductivity = readings[0].amount.value
    blind = regressions(conductivity)
    facts: dict[str, Fact] = {
        "factor": figure.value,
        "factor_low": figure.low,
        "factor_high": figure.high,
        "factor_source": citation(figure.source),
        "factor_status": figure.status.value,
        **by,
        **({"regression_low": min(blind.values()), "regression_high": max(blind.values())} if blind else {}),
    }
    is_gypsum_possible = conductivity >= gypsum_possible_from().value
    return reckoned(
        bag.top_cm,
        bag.bottom_cm,
        Working(
            code=ECE,
            unit="dS/m",
            formula=lambda extract, factor: extract * factor,
            readings=readings,
            figures=(doubtful(figure),),
            cited=salinity_formula(ECE),
            statuses=(figure.status,),
            facts=facts,
            cautions=(*(("gypsum-possible",) if is_gypsum_possible else ()), *topsoil_caution(bag)),
        ),
    )


def _factor(bag: Bag) -> tuple[Figure, dict[str, Fact]] | Refused:
    """Return ECe over EC 1:5 with what it follows; what is lacking where neither clay nor texture tells it."""
    clay, texture = bag.zone.clay_percent, bag.zone.texture
    if clay is not None and (by_clay := factor_by_clay(clay)) is not None:
        return by_clay, {"factor_by": "clay", "clay_percent": clay}
    if (by_texture := factor_by_texture(texture)) is not None:
        return by_texture, {"factor_by": "texture", "texture": texture}
    if clay is not None:
        return Refused(WhyNot.OUTSIDE_CALIBRATION, {"covariate": "clay-percent", "value": clay})
    return Refused(WhyNot.COVARIATE_MISSING, {"covariate": "clay-percent"})


def _relative_yield(bag: Bag, crop: str, ece: Outcome) -> Outcome:
    """Return what salt leaves of a crop's yield [%], never below 0 nor above 100.

    It falls all the way with ECe, so its ends are those of ECe; nobody prints how sure a tolerance is.
    """
    tolerance = salt_tolerance(crop)
    if tolerance is None:
        known = tuple(sorted(one.id for one in salt_tolerances()))
        return refused(bag, RELATIVE_YIELD, Refused(WhyNot.OTHER_GROUND, {"crop": crop, "crops": known}))
    if isinstance(ece, NoQuantity):
        return refused(bag, RELATIVE_YIELD, Refused(ece.refused.why, {"crop": crop, **ece.refused.facts}))
    source, status = salinity_formula(RELATIVE_YIELD)
    kept = {name: fact for name, fact in ece.facts.items() if name.startswith("factor") or name == "censored"}
    return Quantity(
        code=RELATIVE_YIELD,
        value=tolerance.relative_yield(ece.value),
        low=tolerance.relative_yield(ece.high),
        high=tolerance.relative_yield(ece.low),
        unit="%",
        top_cm=ece.top_cm,
        bottom_cm=ece.bottom_cm,
        inputs=ece.inputs,
        facts={
            "crop": crop,
            "crop_id": tolerance.id,
            "ece": ece.value,
            "threshold": tolerance.threshold,
            "slope": tolerance.slope,
            "tolerance_source": citation(tolerance.source),
            "tolerance_status": tolerance.status.value,
            **kept,
        },
        source=source,
        status=weakest(status, ece.status, tolerance.status),
        cautions=ece.cautions,
    )
