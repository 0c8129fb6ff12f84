"""What a zone usually has of an analysis, told by its own earlier results, and how far off a later one lies.

Comparable are results of one zone, protocol (and so season), layer, analyte and method, from before the day of sampling
and from other reports; a zone that was redrawn starts a new series. Concentrations are compared as logarithms, pH as it
is. With n earlier samplings, m their median and s the spread of one value,

    z = (value - m) / sqrt(s² (1 + k/n) + rounding),    k/n = pi/2 / n, at most 1

where k/n is the variance of a median of a normal sample. s is the larger of 1.4826 MAD (from four samplings on) and the
spread of the cited table: few values that happen to agree do not make a zone that never changes. A value is known to
half a step of its last printed decimal, which adds step²/12 to the variance of the value and to that of the median. A
value below or above what the laboratory can tell is every value that it may be: z is the least of them.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from math import exp, inf, log, sqrt
from operator import itemgetter
from statistics import median

from soilrota.guidelines.plausibility import check_of, history_figures, usual_spread
from soilrota.model.client import Client
from soilrota.model.findings import Fact
from soilrota.model.result_findings import ResultFinding, ResultKey, ResultRule
from soilrota.model.results import Result
from soilrota.quantities import method
from soilrota.results.bags import Between, between, code_of

#: Farm, zone, protocol, layer and analysis that results must share to be compared.
_Series = tuple[str, str, str, float, float, str, str]
#: Days from which the series of a zone, (farm, zone), start anew.
_Starts = Mapping[tuple[str, str], Sequence[date]]
_VARIANCE_OF_ROUNDING = 1 / 12  # of a uniform spread over one step


@dataclass(frozen=True, slots=True)
class Usual:
    """What a zone usually has of one analysis, on the scale on which its values are compared.

    Attributes:
        samplings: earlier samplings [-]; at least one.
        middle: their median; all that it may be where some of them were not told exactly.
        spread: standard deviation of one value.
        variance: that of the difference between a later value and the median, rounding apart.
        is_log: whether the scale is that of logarithms.
        step: of the last decimal that is printed [unit].
    """

    samplings: int
    middle: Between
    spread: float
    variance: float
    is_log: bool
    step: float

    def on_scale(self, value: Between) -> Between:
        """Return a value on the scale of comparison."""
        return _on_scale(value, self.step, is_log=self.is_log)

    def sd_of(self, value: Between) -> float:
        """Return the standard deviation of the difference between this value and the median, rounding included."""
        return sqrt(self.variance + self.rounding_of(value) + self.rounding_of(self.middle))

    def rounding_of(self, value: Between) -> float:
        """Return the variance that printing adds to a value on the scale of comparison."""
        relative = self.step / exp(_told(value)) if self.is_log else self.step
        return relative * relative * _VARIANCE_OF_ROUNDING

    def distance(self, result: Result) -> float:
        """Return how far off a result lies [-], the least that it may be; below nought where it is lower than usual."""
        value = self.on_scale(between(result))
        if value.low > self.middle.high:
            return (value.low - self.middle.high) / self.sd_of(value)
        if value.high < self.middle.low:
            return (value.high - self.middle.low) / self.sd_of(value)
        return 0.0

    def in_unit(self) -> tuple[float, float]:
        """Return the usual value and the standard deviation of one value [unit]."""
        middle = _told(self.middle)
        if not self.is_log:
            return middle, self.spread
        return exp(middle), exp(middle) * self.spread


def _told(value: Between) -> float:
    """Return the end of a value that the laboratory told: the upper of one below what it can tell."""
    return value.low if value.high == inf else value.high


def _on_scale(value: Between, step: float, *, is_log: bool) -> Between:
    """Return a value on the scale of comparison; nought is less than half a step, and taken for that."""
    if not is_log:
        return value
    return Between(log(max(value.low, step / 2)), log(max(value.high, step / 2)))


class History:
    """The standing results of a client, by series and day."""

    def __init__(self, client: Client) -> None:
        self._starts: _Starts = {
            (farm.id, zone.id): sorted(forebear.since for forebear in zone.follows)
            for farm in client.farms
            for zone in farm.zones
            if zone.follows
        }
        self._series = _by_series(client.results)

    def usual(self, result: Result) -> Usual | None:
        """Return what the zone usually had before a result was sampled; None where nothing compares."""
        return usual_value(self._earlier(result), result)

    def _earlier(self, result: Result) -> list[Result]:
        """Return the results that compare with a result, the oldest first."""
        days, results = self._series.get(_series_of(result), ([], []))
        since = self._since(result)
        first = bisect_left(days, since) if since else 0
        own = (result.laboratory, result.report)
        return [
            one for one in results[first : bisect_left(days, result.sampled)] if (one.laboratory, one.report) != own
        ]

    def _since(self, result: Result) -> date | None:
        """Return the day from which the zone is as it was when the result was sampled; None for always."""
        starts = [day for day in self._starts.get((result.farm, result.zone), ()) if day <= result.sampled]
        return starts[-1] if starts else None


def _series_of(result: Result) -> _Series:
    """Return which series a result belongs to."""
    return (
        result.farm,
        result.zone,
        result.protocol,
        result.top_cm,
        result.bottom_cm,
        result.analyte,
        result.method,
    )


def _by_series(results: Iterable[Result]) -> dict[_Series, tuple[list[date], list[Result]]]:
    """Return the days and results of each series, in order of sampling."""
    found: defaultdict[_Series, list[tuple[date, Result]]] = defaultdict(list)
    for result in results:
        found[_series_of(result)].append((result.sampled, result))
    made: dict[_Series, tuple[list[date], list[Result]]] = {}
    for series, dated in found.items():
        dated.sort(key=itemgetter(0))
        made[series] = [day for day, _ in dated], [result for _, result in dated]
    return made


def usual_value(earlier: Iterable[Result], result: Result) -> Usual | None:
    """Return what earlier results say is usual for a result; None where there are none.

    Args:
        earlier: comparable results; of several of one day the last stands.
        result: the result that is judged by them.
    """
    table, figures = usual_spread(result.analyte), history_figures()
    known = method(result.analyte, result.method)
    step = 10.0 ** -(known.decimals if known else 2)
    by_day = {one.sampled: between(one) for one in earlier}
    values = [_on_scale(value, step, is_log=table.is_log) for value in by_day.values()]
    if not values:
        return None
    middle = Between(median(value.low for value in values), median(value.high for value in values))
    spread = max(table.sd, _own_spread([value.low for value in values if value.is_plain]))
    variance = spread * spread * (1 + min(1.0, figures.median_variance / len(values)))
    return Usual(len(values), middle, spread, variance, table.is_log, step)


def _own_spread(values: Sequence[float]) -> float:
    """Return the robust standard deviation of values; nought where they are too few to tell."""
    figures = history_figures()
    if len(values) < figures.least_for_own_spread:
        return 0.0
    middle = median(values)
    return figures.mad_to_sd * median(abs(value - middle) for value in values)


def check_history(result: Result, history: History) -> ResultFinding | None:
    """Return that a result lies far from what its zone usually has; None where it does not, or nothing compares."""
    usual = history.usual(result)
    if usual is None:
        return None
    far = abs(usual.distance(result))
    rule = ResultRule.HISTORY
    case = next((case for case in ("extreme", "doubt") if far > check_of(rule, case).figures["above"]), "")
    if not case:
        return None
    middle, spread = usual.in_unit()
    facts: dict[str, Fact] = {
        "analysis": code_of(result),
        "value": f"{result.qualifier}{result.value:.10g}" if result.qualifier else result.value,
        "usual": middle,
        "spread": spread,
        "years": usual.samplings,
    }
    return ResultFinding(
        ResultKey.of(result), rule, check_of(rule, case).grade, (code_of(result),), facts, result.place
    )
