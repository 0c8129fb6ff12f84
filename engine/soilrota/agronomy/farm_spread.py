"""What the farm's mean of one analysis would have hidden: its zones beside it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from math import isclose
from statistics import fmean

from soilrota.agronomy.critical import is_under
from soilrota.agronomy.replicates import LOGARITHMIC_UNITS
from soilrota.model.client import Farm
from soilrota.model.judgement import FarmSpread, Rating, WhyNot, ZoneJudgement
from soilrota.model.results import Result

#: Farm-wide what one analysis of one layer is: analyte, method, unit, layer [cm].
_Analysis = tuple[str, str, str, float, float]
_LEAST_ZONES = 2


def farm_spreads(farm: Farm, judgements: Sequence[ZoneJudgement]) -> tuple[FarmSpread, ...]:
    """Return for each analysis and layer that at least two zones of a farm have how far they lie apart.

    Bags of one zone count as their mean. Where several protocols judge an analysis of a zone, the latest sampling
    counts. The mean is weighted by area; there is none of pH, nor of anything censored.

    Args:
        farm: the farm.
        judgements: of its zones; others are passed over.
    """
    areas = {zone.id: zone.area_ha for zone in farm.zones}
    held: defaultdict[_Analysis, dict[str, list[Result]]] = defaultdict(dict)
    rated: defaultdict[_Analysis, dict[str, Rating]] = defaultdict(dict)
    for judgement in sorted(judgements, key=lambda one: (one.sampled, one.protocol)):
        if judgement.farm == farm.id and judgement.zone in areas:
            _take(judgement, held, rated)
    return tuple(
        _spread(farm.id, analysis, zones, rated[analysis], areas)
        for analysis, zones in sorted(held.items())
        if len(zones) >= _LEAST_ZONES
    )


def _take(
    judgement: ZoneJudgement,
    held: Mapping[_Analysis, dict[str, list[Result]]],
    rated: Mapping[_Analysis, dict[str, Rating]],
) -> None:
    """Let a judgement's values stand for its zone, in the place of an earlier one's."""
    usable = [one.result for one in judgement.unrated if one.refused.why is not WhyNot.SAMPLE_UNUSABLE]
    values: defaultdict[_Analysis, list[Result]] = defaultdict(list)
    for result in (*(one.result for one in judgement.ratings), *usable):
        values[_analysis(result)].append(result)
    for analysis, results in values.items():
        held[analysis][judgement.zone] = results
        rated[analysis].pop(judgement.zone, None)
    for rating in judgement.ratings:
        rated[_analysis(rating.result)].setdefault(judgement.zone, rating)


def _analysis(result: Result) -> _Analysis:
    """Return what analysis of what layer a result is."""
    return result.analyte, result.method, result.unit, result.top_cm, result.bottom_cm


def _spread(
    farm: str,
    analysis: _Analysis,
    zones: Mapping[str, Sequence[Result]],
    ratings: Mapping[str, Rating],
    areas: Mapping[str, float],
) -> FarmSpread:
    """Return how far the zones of a farm lie apart in one analysis."""
    values = {zone: fmean(one.value for one in results) for zone, results in sorted(zones.items())}
    lines = {zone: one.critical for zone, one in sorted(ratings.items()) if one.critical is not None}
    weights = [areas[zone] for zone in values]
    is_censored = any(one.qualifier for results in zones.values() for one in results)
    is_told = analysis[2] not in LOGARITHMIC_UNITS and not is_censored and sum(weights) > 0
    mean = fmean(values.values(), weights) if is_told else None
    return FarmSpread(
        farm,
        *analysis,
        mean=mean,
        lowest=min(values.items(), key=lambda one: one[1]),
        highest=max(values.items(), key=lambda one: one[1]),
        below=tuple(zone for zone, line in lines.items() if is_under(values[zone], line)),
        above=tuple(zone for zone, line in lines.items() if not is_under(values[zone], line)),
        mean_below=_is_mean_below(mean, values, lines),
    )


def _is_mean_below(mean: float | None, values: Mapping[str, float], lines: Mapping[str, float]) -> bool | None:
    """Return whether the mean lies under the line of all zones; None where they share none."""
    if mean is None or set(lines) != set(values):
        return None
    first = next(iter(lines.values()))
    return is_under(mean, first) if all(isclose(line, first) for line in lines.values()) else None
