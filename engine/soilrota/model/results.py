"""Accepted laboratory results: value, unit, method, depth and censoring always together."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date
from math import isclose

from soilrota.problems import Place


@dataclass(frozen=True, slots=True)
class Result:
    """One measurement of one bag.

    Attributes:
        report: laboratory report number.
        sampled: day of sampling.
        reported: day of the laboratory's report.
        farm, zone, protocol: ids.
        bag: bag id; may be empty.
        top_cm, bottom_cm: depth of the layer [cm].
        analyte: id in the glossary of quantities, for instance `phosphorus`.
        method: id of the method in the glossary, for instance `colwell`.
        qualifier: empty, `<` or `>` (below or above the range that the laboratory reports).
        value: the number, in `unit`.
        unit: unit as in the glossary.
        laboratory: id of the laboratory.
        place: the row.
        issue: issue of the report, from 1; a higher one corrects a lower one.
        received: day on which the laboratory received the bag; None when not known.
        as_reported: the value as the laboratory wrote it, with its unit; may be empty.
        origin: row of the laboratory's file, `digest:number`; may be empty.
    """

    report: str
    sampled: date
    reported: date
    farm: str
    zone: str
    protocol: str
    bag: str
    top_cm: float
    bottom_cm: float
    analyte: str
    method: str
    qualifier: str
    value: float
    unit: str
    laboratory: str
    place: Place
    issue: int = 1
    received: date | None = None
    as_reported: str = ""
    origin: str = ""

    @property
    def sample(self) -> tuple[Hashable, ...]:
        """Return what names the sample within a report: its bag, or else its ground and day, without a layer."""
        return (self.bag.casefold(),) if self.bag else (self.farm, self.zone, self.sampled)

    @property
    def key(self) -> tuple[Hashable, ...]:
        """Return what names the value in every issue of its report."""
        layer = (self.top_cm, self.bottom_cm)
        return (self.laboratory, self.report, *self.sample, *layer, self.analyte, self.method)

    def says_the_same(self, other: Result) -> bool:
        """Return whether another issue says the same of the same soil: value, unit, qualifier, ground and day."""
        return _said(self) == _said(other) and isclose(self.value, other.value, rel_tol=1e-9)


def _said(result: Result) -> tuple[Hashable, ...]:
    """Return what a result says apart from its number, which may have gone through a conversion."""
    ground = (result.farm, result.zone, result.protocol, result.top_cm, result.bottom_cm, result.sampled)
    return (result.qualifier, result.unit, *ground)


@dataclass(frozen=True, slots=True)
class Correction:
    """A value that a later issue of the same report changed, added, or did not repeat.

    Attributes:
        earlier: the value of the lower issue; None where the later issue added it.
        later: the value of the higher issue; None where it did not repeat it, and then the earlier stands.
        issue: the later issue.
        reported: day of the later issue.
    """

    earlier: Result | None
    later: Result | None
    issue: int
    reported: date

    @property
    def report(self) -> str:
        """Return the number of the report."""
        result = self.later or self.earlier
        assert result is not None  # a correction is of a value
        return result.report


@dataclass(frozen=True, slots=True)
class Target:
    """A target of the client for one analyte by one method.

    Attributes:
        analyte, method: ids in the glossary.
        unit: unit of `low` and `high`, as in the glossary.
        low, high: the wanted range; None where it is open.
        land_uses: land uses it holds for; empty for all.
        zones: zone ids it holds for, as `farm/zone`; empty for all.
        top_cm, bottom_cm: layer it holds for [cm].
        source: author and year, or who set it.
        place: where it is declared.
    """

    analyte: str
    method: str
    unit: str
    low: float | None
    high: float | None
    land_uses: tuple[str, ...]
    zones: tuple[str, ...]
    top_cm: float
    bottom_cm: float
    source: str
    place: Place
