"""What results mean: ratings with their doubt, derived quantities, trends, zones against the whole farm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from soilrota.model.findings import Fact
from soilrota.model.guideline import GuidelineRow, Source, Status
from soilrota.model.results import Result


class WhyNot(StrEnum):
    """Why a result is not rated, or a quantity not reckoned. Facts stand beside it."""

    #: No guideline set was chosen for the zone, nor is one the default there.
    NO_SET = "no-set"
    #: The set says nothing of this analysis.
    NOT_IN_SET = "not-in-set"
    #: The set speaks of `methods`, not of the result's.
    OTHER_METHOD = "other-method"
    #: The set speaks of `layers`, not of the result's.
    OTHER_LAYER = "other-layer"
    #: The set speaks of other ground: `land_uses`, `textures`, `crops` or `rainfall_zones`.
    OTHER_GROUND = "other-ground"
    #: The row needs `covariate`, which is not known.
    COVARIATE_MISSING = "covariate-missing"
    #: `covariate` at `value` lies outside what the row was calibrated for.
    OUTSIDE_CALIBRATION = "outside-calibration"
    #: The sample bars its results from advice; `rules`.
    SAMPLE_UNUSABLE = "sample-unusable"
    #: The value is censored, and the line lies on the unknown side; `qualifier`, `value`.
    CENSORED = "censored"
    #: Something that the quantity needs was not measured; `needs`.
    NOT_MEASURED = "not-measured"
    #: The rule does not hold for this soil; `reason`.
    RULE_VOID = "rule-void"


@dataclass(frozen=True, slots=True)
class Refused:
    """Why there is no judgement, with its facts."""

    why: WhyNot
    facts: Mapping[str, Fact] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Doubt:
    """How sure a zone's mean is.

    Attributes:
        sd: standard deviation of the mean as one report gives it [unit of the value].
        on_log_scale: whether `sd` is of the natural logarithm of the value instead [-].
        sampling, laboratory: the parts of it, in the same scale.
        source: where the figures come from.
        own: whether they are the practice's own replicates.
    """

    sd: float
    on_log_scale: bool
    sampling: float
    laboratory: float
    source: str
    own: bool = False


@dataclass(frozen=True, slots=True)
class Covariate:
    """A value that a line follows: its code, its value, the result or the property of the zone it comes from."""

    code: str
    value: float
    result: Result | None = None


@dataclass(frozen=True, slots=True)
class Rating:
    """What one result means under one row.

    Attributes:
        result: the result.
        row: the row.
        set: id of the guideline set.
        name, words: the class, as id and as printed; empty where the row has a line alone.
        critical: the line for this zone [unit]; None where the row has classes alone.
        critical_low, critical_high: its published interval [unit]; None where none is printed.
        below: probability that the true mean of the zone lies under the line [-]; None without a line.
        near: whether that is neither clearly under nor clearly over: 'near the line'.
        doubt: how sure the value is.
        covariates: what the line or the row hung on.
    """

    result: Result
    row: GuidelineRow
    set: str
    name: str
    words: str
    critical: float | None
    critical_low: float | None
    critical_high: float | None
    below: float | None
    near: bool
    doubt: Doubt
    covariates: tuple[Covariate, ...] = ()


@dataclass(frozen=True, slots=True)
class Unrated:
    """A result that is not rated, and why."""

    result: Result
    refused: Refused


@dataclass(frozen=True, slots=True)
class Quantity:
    """A quantity that is reckoned from results of one bag, or of the layers of one profile.

    Attributes:
        code: its id, for instance `exchange-capacity`, `sodium-share`, `ece`, `carbon-stock`.
        value: the number [unit].
        low, high: what the doubt in its inputs leaves, 95 of 100 [unit].
        unit: its unit.
        top_cm, bottom_cm: the layer [cm].
        inputs: results that it was reckoned from.
        facts: further figures of the working, for words (factor, bulk density and whether it was measured).
        source: where the formula comes from.
        status: whether it was read there.
        cautions: ids of cautions that belong beside it, for instance `ratio-weak`.
    """

    code: str
    value: float
    low: float
    high: float
    unit: str
    top_cm: float
    bottom_cm: float
    inputs: tuple[Result, ...]
    facts: Mapping[str, Fact] = field(default_factory=dict)
    source: Source | None = None
    status: Status = Status.VERIFIED
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class NoQuantity:
    """A quantity that could not be reckoned, and why."""

    code: str
    top_cm: float
    bottom_cm: float
    refused: Refused


class TrendVerdict(StrEnum):
    """What a series says."""

    RISING = "rising"
    FALLING = "falling"
    NO_CHANGE_SHOWN = "no-change-shown"
    TOO_SHORT = "too-short"


@dataclass(frozen=True, slots=True)
class Trend:
    """How comparable values of one zone, layer and analysis moved.

    Attributes:
        analyte, method, unit, top_cm, bottom_cm: what.
        points: the values that compare, by day; a censored one carries its qualifier.
        slope, slope_low, slope_high: Theil-Sen slope with its 95 % interval [unit a year]; None where too short.
        p: two-sided p of the Mann-Kendall test [-]; None where too short.
        change: last value less the first [unit]; None with fewer than two.
        detectable: least change of two such values that can be told from chance [unit].
        verdict: what the series says.
        broken_by: why earlier values are left out: `method`, `layer`, `season`, `zone-redrawn`; empty where none is.
        left_out: how many earlier values are [-].
    """

    analyte: str
    method: str
    unit: str
    top_cm: float
    bottom_cm: float
    points: tuple[Result, ...]
    slope: float | None
    slope_low: float | None
    slope_high: float | None
    p: float | None
    change: float | None
    detectable: float
    verdict: TrendVerdict
    broken_by: tuple[str, ...] = ()
    left_out: int = 0


@dataclass(frozen=True, slots=True)
class FarmSpread:
    """What the farm's mean of one analysis would have hidden.

    Attributes:
        farm, analyte, method, unit, top_cm, bottom_cm: what.
        mean: area-weighted mean of the zones [unit]; None for pH, of which no mean is made silently.
        lowest, highest: zone ids and values [unit].
        below, above: zones whose rating lies under, and over, the line.
        mean_below: whether the mean lies under the line that the zones share; None where they share none.
    """

    farm: str
    analyte: str
    method: str
    unit: str
    top_cm: float
    bottom_cm: float
    mean: float | None
    lowest: tuple[str, float]
    highest: tuple[str, float]
    below: tuple[str, ...]
    above: tuple[str, ...]
    mean_below: bool | None


@dataclass(frozen=True, slots=True)
class ZoneJudgement:
    """Everything that is judged of one zone under one protocol on the day of its last results.

    Attributes:
        farm, zone, protocol: ids.
        sampled: day of the last sampling with results.
        set: id of the guideline set; empty where none applies.
        ratings, unrated: of the last results.
        quantities, missing: derived quantities, and those that could not be reckoned.
        trends: one an analysis and layer.
    """

    farm: str
    zone: str
    protocol: str
    sampled: date
    set: str
    ratings: tuple[Rating, ...]
    unrated: tuple[Unrated, ...]
    quantities: tuple[Quantity, ...]
    missing: tuple[NoQuantity, ...]
    trends: tuple[Trend, ...]
