"""What is odd about results: data that follows them into reports, and what people said about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from soilrota.model.findings import Fact
from soilrota.model.results import Result
from soilrota.problems import Place


class ResultRule(StrEnum):
    """What a finding about results speaks of, and the facts that it carries.

    A value that the laboratory did not tell exactly stands as a text with its sign, `<0.5`; what is reckoned from it is
    the end that is certain, and `bound` says which one: `least` or `most`. `side` is `low` or `high`.
    """

    #: `analysis` `value` outside the hard limits `low`-`high`.
    HARD_LIMIT = "hard-limit"
    #: pH in water against pH in CaCl2; `water`, `cacl2`, `difference`, and `conductivity` where the soil is not salty.
    PH_PAIR = "ph-pair"
    #: Sum of cations against the exchange capacity; `sum`, `capacity`.
    CATION_SUM = "cation-sum"
    #: Sodium as a share of the exchange capacity; `share` [%], `sodium`, `capacity`.
    SODIUM_SHARE = "sodium-share"
    #: Conductivity lower than the chloride alone would give, `least`; `conductivity`, `chloride`.
    CHLORIDE_CONDUCTIVITY = "chloride-conductivity"
    #: An extractable amount above the total; `extractable`, `total`, `analysis`.
    ABOVE_TOTAL = "above-total"
    #: Carbon against nitrogen; `ratio`, `side`.
    CARBON_NITROGEN = "carbon-nitrogen"
    #: Exchangeable aluminium in soil that is not acid; `aluminium`, `ph`.
    ALUMINIUM_PH = "aluminium-ph"
    #: Carbon outside what soils mostly hold; `analysis`, `value`, `side`.
    CARBON_RANGE = "carbon-range"
    #: Organic matter against organic carbon; `ratio`, `side`.
    CARBON_MATTER = "carbon-matter"
    #: Far from the zone's own history; `analysis`, `value`, `usual`, `spread` [unit], `years` with earlier samplings.
    HISTORY = "history"
    #: Looks swapped with another zone; `other` (`farm/zone`), `odds` to 1, `analyses`.
    SWAPPED = "swapped"
    #: The laboratory's check samples of that time were off; `analysis`, `material`, `day` of the report that showed it,
    #: `z` [sd], above nought where the laboratory measured too high.
    CHECK_SAMPLE = "check-sample"


class Grade(StrEnum):
    """How much a finding matters: `note` explains, `doubt` weakens, `set-aside` waits until a person accepts it."""

    NOTE = "note"
    DOUBT = "doubt"
    SET_ASIDE = "set-aside"


@dataclass(frozen=True, slots=True)
class ResultKey:
    """Names the results of one bag in one report: ids, layer [cm], day of sampling."""

    laboratory: str
    report: str
    bag: str
    farm: str
    zone: str
    protocol: str
    top_cm: float
    bottom_cm: float
    sampled: date

    @classmethod
    def of(cls, result: Result) -> ResultKey:
        """Return which bag of which report a result belongs to."""
        return cls(
            laboratory=result.laboratory,
            report=result.report,
            bag=result.bag,
            farm=result.farm,
            zone=result.zone,
            protocol=result.protocol,
            top_cm=result.top_cm,
            bottom_cm=result.bottom_cm,
            sampled=result.sampled,
        )


@dataclass(frozen=True, slots=True)
class Acceptance:
    """A person's word that a finding is known and the values stand.

    Attributes:
        report: number of the laboratory's report; empty for any.
        bag: bag id, or else empty and `zone` (`farm/zone`) with `sampled` names the sample.
        zone: `farm/zone`; may be empty.
        sampled: day of sampling; None where the bag names the sample.
        rule: which finding.
        analyses: codes that it holds for; empty for all.
        reason: why the values stand; printed.
        by: id of the person of the practice who says so.
        place: where it is declared.
    """

    report: str
    bag: str
    zone: str
    sampled: date | None
    rule: ResultRule
    analyses: tuple[str, ...]
    reason: str
    by: str
    place: Place


@dataclass(frozen=True, slots=True)
class ResultFinding:
    """One finding about the results of one bag.

    Attributes:
        key: which results.
        rule: the rule.
        grade: how much it matters.
        analyses: codes of the analyses concerned, for instance `ph.water`.
        facts: what words are made of.
        place: the first row concerned.
        accepted: what a person said about it; None where nobody did.
    """

    key: ResultKey
    rule: ResultRule
    grade: Grade
    analyses: tuple[str, ...]
    facts: Mapping[str, Fact] = field(default_factory=dict)
    place: Place | None = None
    accepted: Acceptance | None = None

    @property
    def bars(self) -> bool:
        """Return whether the results wait for a person."""
        return self.grade is Grade.SET_ASIDE and self.accepted is None

    @property
    def doubts(self) -> bool:
        """Return whether values are not to be believed as they stand, because nobody accepted what was found."""
        return self.grade is not Grade.NOTE and self.accepted is None

    def speaks_of(self, result: Result) -> bool:
        """Return whether it is about a result: one of its bag, and its analysis where the finding names some."""
        code = f"{result.analyte}.{result.method}"
        return self.key == ResultKey.of(result) and (not self.analyses or code in self.analyses)
