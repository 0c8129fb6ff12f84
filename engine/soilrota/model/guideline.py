"""Guideline sets: for each analysis, what its values mean, on which ground, by which source."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from soilrota.problems import Place


class Status(StrEnum):
    """Whether a figure was read in its source; an unverified one is printed with that word wherever it is used."""

    VERIFIED = "verified"
    UNVERIFIED = "unverified"


class Sense(StrEnum):
    """What is wrong with a value on the far side of a line: too little, too much, or nothing (a description)."""

    SUFFICIENCY = "sufficiency"
    EXCESS = "excess"
    DESCRIPTION = "description"


@dataclass(frozen=True, slots=True)
class Source:
    """Where figures come from.

    Attributes:
        id: its id in the set.
        author: author or body.
        year: year of publication; 0 where none is printed.
        title: title.
        where: table, page or section; may be empty.
    """

    id: str
    author: str
    year: int
    title: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class RatingClass:
    """One class of values: from `low` on, below `high`; an open end is None.

    Attributes:
        name: its id, for instance `marginal` or `index-2-minus`.
        words: what is printed, for instance `Index 2-`.
        low: lower edge, which belongs to the class [unit of the row].
        high: upper edge, which does not [unit of the row].
    """

    name: str
    words: str
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class Range:
    """Ground that a row holds for: a covariate from `low` on, below `high`; an open end is None.

    Attributes:
        covariate: code of an analysis (`phosphorus-buffering-index.colwell-adjusted`), or `clay-percent`,
            `exchange-capacity`, `organic-carbon` where any method of it will do.
        low, high: edges [unit of the covariate].
        decimals: the covariate is rounded to so many decimals, halves up, first; None for as it is.
    """

    covariate: str
    low: float | None
    high: float | None
    decimals: int | None = None


@dataclass(frozen=True, slots=True)
class PowerLine:
    """A critical value that follows a covariate x: `constant + factor * x ** exponent` [unit of the row]."""

    covariate: str
    constant: float
    factor: float
    exponent: float


@dataclass(frozen=True, slots=True)
class GuidelineRow:
    """What values of one analysis mean on some ground.

    A row speaks of a result only where analyte, method and unit are the same, its layer is the result's, and every
    condition that it names holds. Of several rows that do, the one with most conditions is taken (an exact layer counts
    as one), then the first.

    Attributes:
        id: unique in its set.
        analyte, method, unit: as in the glossary.
        top_cm, bottom_cm: the layer [cm].
        sense: what is wrong beyond the line.
        land_uses, crops, textures, rainfall_zones: ground that it holds for; empty for all.
        ranges: covariates that must lie within.
        goals: yield goals that it serves, for instance `95`; empty for any. The set names its default goal.
        critical: the line itself [unit]; None where classes alone are printed, or `line` gives it.
        line: the line as it follows a covariate; None otherwise.
        critical_low, critical_high: published interval of the line [unit]; None where none is printed.
        target: what to aim at where that is not the line [unit]; None otherwise.
        limit: above this nothing is to be added [unit]; None where none is printed.
        classes: from low to high, covering every value once; empty where a line alone is printed.
        decimals: values are rounded to so many decimals, halves up, before they are classed; None for as they are.
        basis: what the line stands for, for instance `95 % of maximum yield`.
        source: where it comes from.
        status: whether it was read there.
        note: where sources disagree, or what to mind; may be empty.
        place: where it is declared.
        any_layer_within: whether it speaks of every layer that lies between top and bottom, not of that one alone.
    """

    id: str
    analyte: str
    method: str
    unit: str
    top_cm: float
    bottom_cm: float
    sense: Sense
    land_uses: tuple[str, ...]
    crops: tuple[str, ...]
    textures: tuple[str, ...]
    rainfall_zones: tuple[str, ...]
    ranges: tuple[Range, ...]
    goals: tuple[str, ...]
    critical: float | None
    line: PowerLine | None
    critical_low: float | None
    critical_high: float | None
    target: float | None
    limit: float | None
    classes: tuple[RatingClass, ...]
    decimals: int | None
    basis: str
    source: Source
    status: Status
    note: str
    place: Place
    any_layer_within: bool = False


@dataclass(frozen=True, slots=True)
class GuidelineSet:
    """A set of rows for one region and kind of farming.

    Attributes:
        id, name: id and printed name.
        region: in words.
        countries: ISO 3166-1 codes, or ISO 3166-2 ones such as `GB-NIR`, that it is the default of; empty for none, or
            for all where it holds always.
        land_uses: land uses that it is the default of; empty for all.
        goal: the yield goal that is taken where nobody chose another; empty where rows name none.
        rows: in the order of the file.
        left_out: figures that are wanted and were not read anywhere, in words.
        is_own: whether it is the practice's own; the report says so.
        overrides: id of the set whose rows of the same ids its rows replace; empty for none.
        always: whether it holds besides the chosen set on every zone of its countries and land uses.
        sources: what the rows refer to, in the order of the file.
    """

    id: str
    name: str
    region: str
    countries: tuple[str, ...]
    land_uses: tuple[str, ...]
    goal: str
    rows: tuple[GuidelineRow, ...]
    left_out: tuple[str, ...] = ()
    is_own: bool = False
    overrides: str = ""
    always: bool = False
    sources: tuple[Source, ...] = ()
