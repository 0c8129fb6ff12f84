"""What was advised, as it is remembered, and what came of it: what was spread, and what the next results say."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from soilrota.model.advice import Input
from soilrota.model.results import Result


@dataclass(frozen=True, slots=True)
class AdvisedTest:
    """The soil test that a need followed from, and what was said to lift it.

    Attributes:
        analyte, method, unit, top_cm, bottom_cm, sampled: which result.
        value: as it was on the day of the advice [unit].
        lift_low, lift_high: what lifts it by one unit [unit of the need]; None where no source said.
        taken_off: by one harvest [unit of the need]; None where it was not counted.
    """

    analyte: str
    method: str
    unit: str
    top_cm: float
    bottom_cm: float
    sampled: date
    value: float
    lift_low: float | None
    lift_high: float | None
    taken_off: float | None


@dataclass(frozen=True, slots=True)
class AdvisedNeed:
    """A need as it was advised.

    Attributes:
        farm, zone, input: of what.
        amount, low, high: the need and its range [kg/ha of the element; t/ha of pure lime or gypsum].
        planned: what was planned to be spread, and taken off the need [same unit].
        test: the soil test that it followed from; None where none did.
    """

    farm: str
    zone: str
    input: Input
    amount: float
    low: float
    high: float
    planned: float
    test: AdvisedTest | None


@dataclass(frozen=True, slots=True)
class AdvisedRate:
    """One product on one zone as it was advised: ids, what people called it, all dressings together [kg/ha]."""

    farm: str
    zone: str
    product: str
    name: str
    rate_kg_ha: float
    passes: int


@dataclass(frozen=True, slots=True)
class AdviceRecord:
    """What a client was advised when its report was signed.

    Attributes:
        client: id.
        day: day of signing.
        digest: of the signature.
        currency: ISO 4217 code of the prices that chose the products; empty without any.
        needs, rates: what was advised.
    """

    client: str
    day: date
    digest: str
    currency: str
    needs: tuple[AdvisedNeed, ...]
    rates: tuple[AdvisedRate, ...]


class Done(StrEnum):
    """What was spread, against what was advised."""

    NOTHING = "nothing"
    #: Less than the range of the need.
    LESS = "less"
    WITHIN = "within"
    #: More than the range of the need.
    MORE = "more"
    #: Something was spread of which product, rate or day is not known.
    NOT_KNOWN = "not-known"


class Moved(StrEnum):
    """What the next result says of the soil test that a need followed from."""

    AS_EXPECTED = "as-expected"
    LESS = "less"
    MORE = "more"
    #: Neither what was to be expected nor what came can be told from chance.
    TOO_SMALL_TO_TELL = "too-small-to-tell"
    #: No source said what lifts the test.
    NO_FACTOR = "no-factor"
    #: One of the two values is known only as beyond a limit.
    CENSORED = "censored"
    #: The next result is by another method, of another layer or season, or the zone was redrawn.
    NOT_COMPARABLE = "not-comparable"


@dataclass(frozen=True, slots=True)
class NextResult:
    """The next result of the soil test that a need followed from.

    Attributes:
        before, after: the two results.
        change: how far the value moved [unit]; None where it cannot be said.
        detectable: least change that can be told from chance [unit]; None where it cannot be said.
        expected_low, expected_high: by what was spread and taken off in between [unit]; None without a factor.
        brought: what was spread between the two samplings [unit of the need].
        harvests: harvests between them [-].
        verdict: what it says.
    """

    before: Result
    after: Result
    change: float | None
    detectable: float | None
    expected_low: float | None
    expected_high: float | None
    brought: float
    harvests: int
    verdict: Moved


@dataclass(frozen=True, slots=True)
class FollowUp:
    """What came of one need.

    Attributes:
        advised_on: day of the advice.
        need: as it was advised.
        rates: products that were advised for its zone.
        spread: what was spread of it since, as far as it is known [unit of the need].
        spread_until: last day of that spreading; None where there was none.
        cautions: ids of what is to be minded of it.
        done: what was spread, against what was advised.
        next_result: what the next result says; None where there is none yet.
    """

    advised_on: date
    need: AdvisedNeed
    rates: tuple[AdvisedRate, ...]
    spread: float
    spread_until: date | None
    cautions: tuple[str, ...]
    done: Done
    next_result: NextResult | None
