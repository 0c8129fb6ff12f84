"""How much cores differ, told by earlier results of the same zones.

A series holds the results of one zone, one protocol, one layer and one method, each from a composite of so many cores.
Estimator: a straight line in time through the logarithms of each series (a trend is no spread), the squares of what is
left pooled over all series of the analyte. A series of m results gives m - 2 degrees of freedom, and they add up. The
logarithm makes zones of different level comparable; its standard deviation is the coefficient of variation of one
composite for the small values met here. The cores' part follows from

    composite² = core_cv² / n + laboratory_cv²

with n the harmonic mean of the cores, each result counted once. Two things make the answer too large, never too small,
and both are on the safe side: real ups and downs between years, and seasons. A value below or above the laboratory's
range says nothing of spread and is left out. Where the results differ no more than the laboratory's own part does, they
cannot tell the cores' part, and the cited figure stays.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from math import log, sqrt
from statistics import fmean, harmonic_mean

from soilrota.guidelines.core_spread import least_degrees
from soilrota.model.cores import Spread
from soilrota.model.results import Result

_LINE = 2
#: Zone, protocol, layer and method that results must share to be compared.
_Key = tuple[str, str, str, float, float, str, str]


@dataclass(frozen=True, slots=True)
class ResultSeries:
    """Results of one zone, one layer and one method, the oldest first.

    Attributes:
        analyte: id of the analyte.
        days: days of sampling, all different.
        values: results, above nought, in one unit.
        cores: cores of each composite [-].
    """

    analyte: str
    days: tuple[date, ...]
    values: tuple[float, ...]
    cores: tuple[int, ...]


def result_series(results: Iterable[Result], cores: Mapping[str, int], usual: int) -> tuple[ResultSeries, ...]:
    """Return the series among results, in the order in which they first come.

    Args:
        results: accepted results; censored values and values not above nought are left out, and of two results for one
            day the first stays.
        cores: cores taken, by bag id [-].
        usual: cores of a bag that is not among them [-].
    """
    found: dict[_Key, dict[date, tuple[float, int]]] = defaultdict(dict)
    for result in results:
        if result.qualifier or result.value <= 0:
            continue
        key = (
            result.farm,
            result.zone,
            result.protocol,
            result.top_cm,
            result.bottom_cm,
            result.analyte,
            result.method,
        )
        found[key].setdefault(result.sampled, (result.value, cores.get(result.bag, usual)))
    made = []
    for key, by_day in found.items():
        days = tuple(sorted(by_day))
        values, counts = zip(*(by_day[day] for day in days), strict=True)
        made.append(ResultSeries(key[-2], days, values, counts))
    return tuple(made)


def spread_from(earlier: Sequence[ResultSeries], cited: Spread) -> Spread:
    """Return the spread that earlier results tell, or the cited one where they do not tell enough.

    Args:
        earlier: series of any analytes; those of the cited analyte with at least three results count.
        cited: figures to fall back on; its laboratory's part is used in both cases.
    """
    series = [one for one in earlier if one.analyte == cited.analyte and len(one.values) > _LINE]
    degrees = sum(len(one.values) - _LINE for one in series)
    if degrees < least_degrees():
        return cited
    composite = sqrt(sum(_left_square(one) for one in series) / degrees) * 100
    cores = harmonic_mean([count for one in series for count in one.cores])
    core_square = (composite**2 - cited.laboratory_cv_percent**2) * cores
    if core_square <= 0:
        return cited
    return replace(
        cited,
        core_cv_percent=sqrt(core_square),
        degrees=degrees,
        source=f"earlier results of {len(series)} series with {degrees} degrees of freedom, trend taken out; "
        f"{_laboratory_part(cited.source)}",
    )


def _laboratory_part(source: str) -> str:
    """Return what a cited source says of the laboratory; all of it where it does not say it apart."""
    return source[max(source.find("laboratory:"), 0) :]


def _left_square(series: ResultSeries) -> float:
    """Return the sum of squares of logarithms round their straight line in time [-]."""
    times = [float(day.toordinal()) for day in series.days]
    logs = [log(value) for value in series.values]
    middle_time, middle_log = fmean(times), fmean(logs)
    time_square = sum((time - middle_time) ** 2 for time in times)
    product = sum((time - middle_time) * (one - middle_log) for time, one in zip(times, logs, strict=True))
    total = sum((one - middle_log) ** 2 for one in logs)
    return max(total - product**2 / time_square, 0.0)
