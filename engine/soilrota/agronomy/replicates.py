"""What the practice's own replicates say: two bags of one zone, protocol and layer on one day, measured alike.

The squares of what is left round each group's mean are pooled over all groups of an analysis; a group of m bags gives
m - 1 degrees of freedom. Concentrations are compared as logarithms, so that zones of different level add up; pH is a
logarithm already and is compared as it is.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import dataclass
from math import log, sqrt
from statistics import fmean

from soilrota.model.results import Result

#: Units whose values are logarithms already.
LOGARITHMIC_UNITS = frozenset({"pH"})


@dataclass(frozen=True, slots=True)
class Replicates:
    """How much replicate bags of one analysis differ.

    Attributes:
        sd: standard deviation of one bag, of the natural logarithm [-], or of the value where that is one [unit].
        degrees: degrees of freedom behind it [-].
        groups: how many zones and days there are replicates of [-].
    """

    sd: float
    degrees: int
    groups: int


def is_on_log_scale(unit: str) -> bool:
    """Return whether values of a unit are compared as logarithms."""
    return unit not in LOGARITHMIC_UNITS


def replicates_of(results: Iterable[Result]) -> Mapping[str, Replicates]:
    """Return what replicate bags say, by analysis code; an analysis without any is not there.

    Censored values and values that have no logarithm are left out; of two reports of one bag the first counts.
    """
    groups: defaultdict[Hashable, dict[str, Result]] = defaultdict(dict)
    for result in results:
        if result.bag and not result.qualifier and (result.value > 0 or not is_on_log_scale(result.unit)):
            groups[_group(result)].setdefault(result.bag.casefold(), result)
    found: defaultdict[str, list[list[float]]] = defaultdict(list)
    for bags in groups.values():
        if len(bags) > 1:
            first = next(iter(bags.values()))
            is_log = is_on_log_scale(first.unit)
            found[f"{first.analyte}.{first.method}"].append(
                [log(one.value) if is_log else one.value for one in bags.values()]
            )
    return {code: _pooled(values) for code, values in found.items()}


def _group(result: Result) -> tuple[Hashable, ...]:
    """Return what replicates have in common."""
    ground = (result.farm, result.zone, result.protocol, result.top_cm, result.bottom_cm, result.sampled)
    return (*ground, result.analyte, result.method, result.unit, result.laboratory)


def _pooled(groups: list[list[float]]) -> Replicates:
    """Return the pooled standard deviation within groups."""
    degrees = sum(len(group) - 1 for group in groups)
    squares = sum((value - fmean(group)) ** 2 for group in groups for value in group)
    return Replicates(sqrt(squares / degrees), degrees, len(groups))
