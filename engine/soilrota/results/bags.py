"""The results of one bag in one report, and what each of them may be: a value below a limit is all that lies there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

from soilrota.model.result_findings import ResultKey
from soilrota.model.results import Result
from soilrota.quantities import method


@dataclass(frozen=True, slots=True)
class Between:
    """All that a value may be, both ends included; a plain value has one end only.

    >>> Between(1, 2) + Between(3, 3)
    Between(low=4, high=5)
    """

    low: float
    high: float

    def __add__(self, other: Between) -> Between:
        """Return all that the sum may be."""
        return Between(self.low + other.low, self.high + other.high)

    def __sub__(self, other: Between) -> Between:
        """Return all that the difference may be."""
        return Between(self.low - other.high, self.high - other.low)

    def __truediv__(self, other: Between) -> Between:
        """Return all that the ratio may be, of values not below nought; nought over nought may be anything."""
        return Between(self.low / other.high if other.high else 0.0, self.high / other.low if other.low else inf)

    def times(self, factor: float) -> Between:
        """Return all that the value may be, times a factor above nought."""
        return Between(self.low * factor, self.high * factor)

    @property
    def is_plain(self) -> bool:
        """Return whether there is one value only."""
        return self.low == self.high


def between(result: Result) -> Between:
    """Return all that a result may be: from the lower limit of the glossary on, without an upper end."""
    if result.qualifier == "<":
        known = method(result.analyte, result.method)
        return Between(min(known.low if known else 0.0, result.value), result.value)
    if result.qualifier == ">":
        return Between(result.value, inf)
    return Between(result.value, result.value)


def code_of(result: Result) -> str:
    """Return the analysis code of a result, for instance `ph.cacl2`."""
    return f"{result.analyte}.{result.method}"


@dataclass(frozen=True, slots=True)
class BagResults:
    """The results of one bag in one report: one a code, in the order of the report."""

    key: ResultKey
    results: dict[str, Result]


def bags_of(results: Iterable[Result]) -> tuple[BagResults, ...]:
    """Return results by bag, in the order in which the bags first come; of a code that comes twice the last stands."""
    found: defaultdict[ResultKey, dict[str, Result]] = defaultdict(dict)
    for result in results:
        found[ResultKey.of(result)][code_of(result)] = result
    return tuple(BagResults(key, by_code) for key, by_code in found.items())
