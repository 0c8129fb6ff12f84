"""How many cores a zone needs, and what a number of cores can tell.

One composite of n cores, analysed once, has the relative standard error [%]

    SE = sqrt(core_cv² / n + laboratory_cv²)

and its mean the two-sided interval ± t · SE. The degrees of freedom of t are those of the estimate where the spread
comes from earlier results; for a cited spread they are n - 1, as if these cores had to tell it themselves, which is the
published convention and on the wide side. Since t and SE both fall with n, the smallest number that satisfies a wanted
half-width is found by halving; it equals the fixed point of the usual iteration n = (t · cv / E)² wherever that
iteration settles, and the larger of its two numbers wherever it swings between neighbours.

Two samplings, drawn independently, differ by chance by up to z · sqrt(2) · SE.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import inf, sqrt
from statistics import NormalDist

from soilrota.guidelines.core_spread import cited_spread, wanted_precision
from soilrota.layout.earlier_spread import ResultSeries, spread_from
from soilrota.model.cores import CoreCount, Precision, Spread

#: No zone has more cores than this; a wish that needs more has no answer [-].
_MOST_CORES = 1_000_000
_TEN_MORE = 10


def standard_error_percent(spread: Spread, cores: int) -> float:
    """Return the standard error of one composite of so many cores [% of the mean].

    >>> from soilrota.model.cores import Spread
    >>> round(standard_error_percent(Spread("phosphorus", 40, 8, None, ""), 20), 1)
    12.0
    """
    return sqrt(spread.core_cv_percent**2 / cores + spread.laboratory_cv_percent**2)


def half_width_percent(spread: Spread, cores: int, confidence: float) -> float:
    """Return the half-width of the two-sided interval for the mean [% of the mean].

    Args:
        spread: what is known of the cores and the laboratory.
        cores: cores of the composite [-]; one core is held with the degrees of freedom of two.
        confidence: of the interval [-], for instance 0.9.
    """
    degrees = spread.degrees if spread.degrees is not None else max(cores - 1, 1)
    return _student(confidence, degrees) * standard_error_percent(spread, cores)


def least_change_percent(spread: Spread, cores: int, confidence: float) -> float:
    """Return the smallest difference between two such samplings that chance does not explain [% of the mean]."""
    return _normal(confidence) * sqrt(2) * standard_error_percent(spread, cores)


def cores_needed(spread: Spread, wanted: Precision, least: int = 1) -> int | None:
    """Return the smallest number of cores that gives the wanted precision, never under `least` [-].

    None where no number does, because the laboratory's part alone is as wide as what is wanted.
    """
    quantile = _normal(wanted.confidence) if spread.degrees is None else _student(wanted.confidence, spread.degrees)
    if quantile * spread.laboratory_cv_percent >= wanted.within_percent:
        return None
    if _reaches(spread, wanted, least):
        return least
    below, enough = least, 2 * least
    while not _reaches(spread, wanted, enough):
        if enough > _MOST_CORES:
            return None
        below, enough = enough, 2 * enough
    while enough - below > 1:
        middle = (below + enough) // 2
        if _reaches(spread, wanted, middle):
            enough = middle
        else:
            below = middle
    return enough


def core_count(spread: Spread, wanted: Precision, planned: int, least: int) -> CoreCount:
    """Return what a planned number of cores can tell, what the wanted precision needs, and what ten more would buy.

    Args:
        spread: what is known of the cores and the laboratory.
        wanted: the precision asked for.
        planned: cores planned [-].
        least: the protocol's least number [-].
    """
    return CoreCount(
        spread=spread,
        wanted=wanted,
        planned=planned,
        least=least,
        needed=cores_needed(spread, wanted, least),
        reached_percent=half_width_percent(spread, planned, wanted.confidence),
        change_percent=least_change_percent(spread, planned, wanted.confidence),
        ten_more_percent=half_width_percent(spread, planned + _TEN_MORE, wanted.confidence),
    )


def core_counts(
    analytes: Iterable[str], planned: int, least: int, earlier: Sequence[ResultSeries] = ()
) -> tuple[CoreCount, ...]:
    """Return what planned cores can tell of each analyte, the most demanding first.

    Args:
        analytes: ids in the glossary; one that is named twice is answered once.
        planned: cores planned for the layer [-].
        least: the protocol's least number [-].
        earlier: earlier results of this layer that may speak of the spread; see `earlier_spread`.
    """
    counts = [
        core_count(spread_from(earlier, cited_spread(analyte)), wanted_precision(analyte), planned, least)
        for analyte in dict.fromkeys(analytes)
    ]
    return tuple(sorted(counts, key=_demand, reverse=True))


def _demand(count: CoreCount) -> tuple[float, float]:
    """Return how much is asked: the cores needed (no number is most), then how far the planned ones fall short."""
    needed = inf if count.needed is None else float(count.needed)
    return needed, count.reached_percent / count.wanted.within_percent


def _reaches(spread: Spread, wanted: Precision, cores: int) -> bool:
    """Return whether so many cores give the wanted precision."""
    return half_width_percent(spread, cores, wanted.confidence) <= wanted.within_percent


def _normal(confidence: float) -> float:
    """Return the two-sided quantile of the normal distribution [-]."""
    return NormalDist().inv_cdf(0.5 + confidence / 2)


def _student(confidence: float, degrees: int) -> float:
    """Return the two-sided quantile of Student's t [-]."""
    # What `scipy.stats.t` asks as well, without the second of loading that comes with it; still too long for most.
    from scipy.special import stdtrit  # noqa: PLC0415

    return float(stdtrit(degrees, 0.5 + confidence / 2))
