"""What a guideline row hangs on besides the result: buffering, clay, carbon of the same ground.

A covariate of the same bag comes first; else the zone's latest value of the same layer, no further away in time than
`guidelines/judging.yaml` says; else a quantity that was reckoned for that layer, or what the map says of the zone. A
censored value is no covariate, nor is a value of a sample that is barred, or from before the zone was redrawn.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from soilrota.guidelines.judging import judging_figures
from soilrota.model.client import Zone
from soilrota.model.guideline import GuidelineSet
from soilrota.model.judgement import Covariate, Quantity
from soilrota.model.results import Result

#: The covariate that the map tells too.
CLAY = "clay-percent"
_DAYS_A_YEAR = 365.2425


def codes_of(sets: Iterable[GuidelineSet]) -> frozenset[str]:
    """Return every covariate that rows of guideline sets name."""
    rows = [row for one in sets for row in one.rows]
    ranges = {held.covariate for row in rows for held in row.ranges}
    return frozenset(ranges | {row.line.covariate for row in rows if row.line is not None})


def covariates_for(
    result: Result, codes: Iterable[str], zone: Zone, known: Sequence[Result], quantities: Sequence[Quantity] = ()
) -> Mapping[str, Covariate]:
    """Return the covariates of a result that are known, by code.

    Args:
        result: the result.
        codes: analysis codes, or analytes where any method will do, or `clay-percent`.
        zone: the zone, as the map has it.
        known: results of the zone that may be used; barred samples are not among them.
        quantities: what was reckoned for the zone.
    """
    near = [one for one in known if _may_serve(one, result, zone)]
    found = ((code, _covariate(code, result, near, zone, quantities)) for code in sorted(codes))
    return {code: covariate for code, covariate in found if covariate is not None}


def _may_serve(one: Result, result: Result, zone: Zone) -> bool:
    """Return whether a value is of the same ground as a result, and near enough in time."""
    layer = (one.top_cm, one.bottom_cm) == (result.top_cm, result.bottom_cm)
    ground = (one.farm, one.zone) == (result.farm, result.zone)
    years = abs((one.sampled - result.sampled).days) / _DAYS_A_YEAR
    near = years <= judging_figures().covariate_years
    return layer and ground and near and not one.qualifier and one.sampled >= _shape_since(zone, result.sampled)


def _shape_since(zone: Zone, day: date) -> date:
    """Return the day since which a zone has had the shape of a day."""
    return max((one.since for one in zone.follows if one.since <= day), default=date.min)


def _covariate(
    code: str, result: Result, near: Sequence[Result], zone: Zone, quantities: Sequence[Quantity]
) -> Covariate | None:
    """Return one covariate; None where it is not known."""
    measured = [one for one in near if code in {f"{one.analyte}.{one.method}", one.analyte}]
    if measured:
        best = max(measured, key=lambda one: (_is_same_bag(one, result), one.sampled, one.method, one.report))
        return Covariate(code, best.value, best)
    if code == CLAY and zone.clay_percent is not None:
        return Covariate(code, zone.clay_percent)
    for quantity in quantities:
        if quantity.code == code and (quantity.top_cm, quantity.bottom_cm) == (result.top_cm, result.bottom_cm):
            return Covariate(code, quantity.value, quantity.inputs[0] if len(quantity.inputs) == 1 else None)
    return None


def _is_same_bag(one: Result, result: Result) -> bool:
    """Return whether two results are of one bag."""
    return one.sampled == result.sampled and one.bag.casefold() == result.bag.casefold()
