"""What was found wrong or odd about a sample: data that follows it into results and reports."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from soilrota.problems import Place

#: A fact that a finding carries; words are made of it at the edge.
Fact = str | int | float | date | tuple[str, ...]


class SampleRule(StrEnum):
    """What a finding about a sample speaks of."""

    #: `cores` in the bag, `least` by the protocol.
    TOO_FEW_CORES = "too-few-cores"
    #: The number of cores was not written down; `least` by the protocol.
    CORES_NOT_WRITTEN = "cores-not-written"
    #: `top_cm`-`bottom_cm` is no layer of the protocol; `layers` are.
    OTHER_DEPTH = "other-depth"
    #: The layer `top_cm`-`bottom_cm` of the protocol was not taken on that day.
    LAYER_MISSING = "layer-missing"
    #: The day lies outside the protocol's season; `days` away from it.
    OUTSIDE_SEASON = "outside-season"
    #: Sampled within the waiting time after `material` on `spread`; `months` to wait, free from `free`.
    INSIDE_GAP = "inside-gap"
    #: The client had closed that day; `reason`.
    CLOSED_DAY = "closed-day"
    #: The soil was `state`; the protocol wants `wanted`.
    OTHER_MOISTURE = "other-moisture"
    #: No zone is planned under that protocol.
    NOT_PLANNED = "not-planned"
    #: The same bag id stands on `other` too.
    BAG_TWICE = "bag-twice"
    #: The check character of `bag` does not fit; `nearest` issued ids, where there are any.
    BAG_CHECK = "bag-check"
    #: The `bag` was never issued to this client.
    BAG_UNKNOWN = "bag-unknown"
    #: The `bag` was issued for `issued`, and holds something else by the notes.
    BAG_OTHER = "bag-other"


class Weight(StrEnum):
    """How much a finding matters: `note` explains, `doubt` weakens the result, `unusable` bars it from advice."""

    NOTE = "note"
    DOUBT = "doubt"
    UNUSABLE = "unusable"


@dataclass(frozen=True, slots=True)
class SampleKey:
    """Names a sample: what was taken, where, from which depth [cm], on which day."""

    farm: str
    zone: str
    protocol: str
    top_cm: float
    bottom_cm: float
    day: date


@dataclass(frozen=True, slots=True)
class SampleFinding:
    """One finding about one sample: the rule with its facts, how much it matters, the row it comes from."""

    sample: SampleKey
    rule: SampleRule
    weight: Weight
    facts: Mapping[str, Fact] = field(default_factory=dict)
    place: Place | None = None
