"""How comparable values of a zone moved: slope, test, and the last change against the least that can be told.

Censored values: everything at or below the greatest `<` limit of the series counts as equal to that limit, everything
at or above the least `>` limit as equal to that one, measured or not; so no order is claimed that nobody saw. The equal
ones are ties in the test and stand at the limit for the slope, which pulls it towards nought. With fewer than three
values told exactly there is no slope and no test.

Least detectable change: 1.96 sqrt(s1² + s2²) of the standard errors of the first and the last value. Values of one
laboratory differ by what one laboratory repeats; where laboratories changed, by what laboratories differ by.

Verdict: from five values on, where the test can reach its level, by the test; with three or four, which no order of
values could make significant, by the change against the least detectable one. Both are asked at 5 in 100.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import factorial

from soilrota.agronomy.barred import Barred
from soilrota.agronomy.comparable import Key, Run, runs_of
from soilrota.agronomy.doubt import Between, Evidence, doubt_of, evidence_of, standard_error
from soilrota.agronomy.kendall import Slope, kendall_score, sen_slope, two_sided_p
from soilrota.agronomy.probability import least_difference
from soilrota.guidelines.judging import judging_figures
from soilrota.model.client import Client, Zone
from soilrota.model.judgement import Trend, TrendVerdict
from soilrota.model.results import Result

#: A year of the calendar, on average over 400 of them [d].
_DAYS_A_YEAR = 365.2425


def trends_of(
    client: Client,
    zone: Zone,
    protocol: str,
    key: Key,
    *,
    barred: Barred | None = None,
    evidence: Evidence | None = None,
) -> tuple[Trend, ...]:
    """Return how the values of a zone under a protocol moved, one trend for each series that still goes on.

    Args:
        client: whose results are asked.
        zone: the zone.
        protocol: id of the protocol.
        key: what values must have in common, for instance `soilrota.results.history.comparability_key`.
        barred: samples whose results are barred from advice; they are left out.
        evidence: of `evidence_of(client)`, where it is at hand already.
    """
    proof = evidence or evidence_of(client)
    return tuple(trend_of(run, proof) for run in runs_of(client, zone, protocol, key, barred))


def trend_of(run: Run, evidence: Evidence) -> Trend:
    """Return how the values of one series moved; its change is None too where the first or last is censored."""
    points = run.points
    first, last = points[0], points[-1]
    told = not first.qualifier and not last.qualifier and len(points) > 1
    change = last.value - first.value if told else None
    detectable = _detectable(first, last, evidence)
    slope, p = _moved(points)
    return Trend(
        analyte=last.analyte,
        method=last.method,
        unit=last.unit,
        top_cm=last.top_cm,
        bottom_cm=last.bottom_cm,
        points=points,
        slope=slope.slope if slope else None,
        slope_low=slope.low if slope else None,
        slope_high=slope.high if slope else None,
        p=p,
        change=change,
        detectable=detectable,
        verdict=_verdict(slope, p, change, detectable, len(points)),
        broken_by=run.broken_by,
        left_out=run.left_out,
    )


def recensored(points: Sequence[Result]) -> tuple[list[float], int]:
    """Return values in which equal means not told apart, and how many of them are told exactly."""
    lowest = max((one.value for one in points if one.qualifier == "<"), default=None)
    highest = min((one.value for one in points if one.qualifier == ">"), default=None)
    values, exact = [], 0
    for one in points:
        value = one.value
        if lowest is not None and value <= lowest:
            value = lowest
        elif highest is not None and value >= highest:
            value = highest
        else:
            exact += 1
        values.append(value)
    return values, exact


def _moved(points: Sequence[Result]) -> tuple[Slope | None, float | None]:
    """Return slope a year and p of a series; None where too short."""
    figures = judging_figures()
    values, exact = recensored(points)
    times = [(one.sampled - points[0].sampled).days / _DAYS_A_YEAR for one in points]
    if exact < figures.least_for_slope or len(set(times)) < figures.least_for_slope:
        return None, None
    slope = sen_slope(times, values, figures.change_confidence)
    return slope, two_sided_p(kendall_score(times, values), figures.exact_up_to)


def _detectable(first: Result, last: Result, evidence: Evidence) -> float:
    """Return the least change between two values that can be told from chance [unit]."""
    same = first.laboratory == last.laboratory
    between = Between.ONE_LABORATORY if same else Between.LABORATORIES
    errors = [standard_error(one.value, doubt_of(one, evidence, between)) for one in (first, last)]
    return least_difference(*errors)


def _verdict(
    slope: Slope | None, p: float | None, change: float | None, detectable: float, values: int
) -> TrendVerdict:
    """Return what a series says."""
    if slope is None or p is None:
        return TrendVerdict.TOO_SHORT
    level = 1 - judging_figures().change_confidence
    can_be_tested = 2 / factorial(values) <= level
    shown = p <= level if can_be_tested else change is not None and abs(change) > detectable
    direction = slope.slope if can_be_tested else change or 0.0
    if not shown or direction == 0:
        return TrendVerdict.NO_CHANGE_SHOWN
    return TrendVerdict.RISING if direction > 0 else TrendVerdict.FALLING
