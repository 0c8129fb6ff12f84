"""How many cores: what is known of the spread, what is wanted, and what so many cores can tell."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    """How much single cores of one zone differ, and the laboratory's part.

    Attributes:
        analyte: id of the analyte.
        core_cv_percent: coefficient of variation between cores of one zone [%].
        laboratory_cv_percent: coefficient of variation of one laboratory result, preparation included [%].
        degrees: degrees of freedom behind the first [-]; None for a cited figure.
        source: where the figures come from.
    """

    analyte: str
    core_cv_percent: float
    laboratory_cv_percent: float
    degrees: int | None
    source: str


@dataclass(frozen=True, slots=True)
class Precision:
    """What is wanted: the mean within so many per cent [%] of the true one, with so much confidence [-], say 0.9."""

    within_percent: float
    confidence: float


@dataclass(frozen=True, slots=True)
class CoreCount:
    """What a number of cores can tell about one analyte of one zone.

    Attributes:
        spread: what it rests on.
        wanted: the precision asked for.
        planned: cores planned [-].
        least: the protocol's least number [-].
        needed: cores needed for the wanted precision, never under `least` [-]; None where no number reaches it, because
            the laboratory's part alone is wider.
        reached_percent: half-width of the interval for the mean with the planned cores [% of the mean].
        change_percent: smallest difference between two such samplings that can be told from chance [% of the mean].
        ten_more_percent: half-width with ten cores more [% of the mean].
    """

    spread: Spread
    wanted: Precision
    planned: int
    least: int
    needed: int | None
    reached_percent: float
    change_percent: float
    ten_more_percent: float
