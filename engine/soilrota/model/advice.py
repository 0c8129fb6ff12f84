"""What to do: needs with their working, products that meet them, priorities, the adviser's signature."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from soilrota.model.findings import Fact
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import Quantity, Rating, Refused


class Input(StrEnum):
    """What a need is a need of: an element [kg/ha], or lime and gypsum [t/ha of the pure substance]."""

    NITROGEN = "nitrogen"
    PHOSPHORUS = "phosphorus"
    POTASSIUM = "potassium"
    SULPHUR = "sulphur"
    MAGNESIUM = "magnesium"
    LIME = "lime"
    GYPSUM = "gypsum"


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a working: which rule, its figures, what it gives.

    Attributes:
        rule: id of the step, for instance `build-up`, `removal`, `already-applied`, `capped`; words are made of it.
        amount: what the step adds (or takes off, below nought) [unit of the need].
        facts: the figures that went in, by name.
        source: where the rule or figure comes from; None for plain arithmetic.
        status: whether it was read there.
    """

    rule: str
    amount: float
    facts: Mapping[str, Fact] = field(default_factory=dict)
    source: Source | None = None
    status: Status = Status.VERIFIED


@dataclass(frozen=True, slots=True)
class Cap:
    """A maximum that a need may never pass: the amount [unit of the need], why, and its source."""

    amount: float
    rule: str
    facts: Mapping[str, Fact] = field(default_factory=dict)
    source: Source | None = None
    status: Status = Status.VERIFIED


@dataclass(frozen=True, slots=True)
class Need:
    """How much of one input a zone needs, before any product is chosen.

    Attributes:
        farm, zone: ids.
        input: of what.
        amount: the need, nought or more, after all maxima [kg/ha of the element; t/ha of pure lime or gypsum].
        low, high: its range from the doubt in its inputs, 95 of 100, within nought and the maxima [same unit].
        steps: the working; their amounts add up to the need before maxima.
        caps: maxima that were looked at, the binding one first.
        split: amounts of the dressings where it is not to be spread at once [same unit]; empty otherwise.
        rating: the rating that it follows from; None where none does.
        quantities: derived quantities that it follows from.
        cautions: ids of cautions that belong beside it.
        probability: that the zone's true mean lies under the line, so that it responds [-]; None without a line.
    """

    farm: str
    zone: str
    input: Input
    amount: float
    low: float
    high: float
    steps: tuple[Step, ...]
    caps: tuple[Cap, ...] = ()
    split: tuple[float, ...] = ()
    rating: Rating | None = None
    quantities: tuple[Quantity, ...] = ()
    cautions: tuple[str, ...] = ()
    probability: float | None = None


@dataclass(frozen=True, slots=True)
class NoNeed:
    """An input of which nothing can be advised for a zone, and why."""

    farm: str
    zone: str
    input: Input
    refused: Refused


@dataclass(frozen=True, slots=True)
class Spreading:
    """One product on one zone.

    Attributes:
        farm, zone, product: ids.
        rate_kg_ha: all dressings together [kg/ha].
        area_ha: area [ha].
        cost: product, with its share of what whole packs leave over, and passes; calls are not in it [currency].
        passes: in how many equal dressings it is spread [-].
    """

    farm: str
    zone: str
    product: str
    rate_kg_ha: float
    area_ha: float
    cost: float
    passes: int = 1


@dataclass(frozen=True, slots=True)
class Supplied:
    """What a mix gives a zone of one input [unit of the need].

    Attributes:
        farm, zone, input: what.
        need: the need; 0 where there is none.
        amount: what counts towards it; below the need where a maximum and the steps of rates leave no more.
        whole: all there is of it, which maxima are held against.
    """

    farm: str
    zone: str
    input: Input
    need: float
    amount: float
    whole: float


@dataclass(frozen=True, slots=True)
class Requirement:
    """What one need of one zone adds to the bill: how much cheaper the mix were without it [currency]."""

    farm: str
    zone: str
    input: Input
    adds: float


@dataclass(frozen=True, slots=True)
class ProductMix:
    """The cheapest way to meet the needs of a farm.

    Attributes:
        farm: id.
        spreadings: by zone and product.
        packs: whole packs, or tonnes where loose, to buy by product [t].
        cost: product, passes and calls together [currency].
        products_cost, passes_cost, calls_cost: its parts [currency].
        requirements: what each need adds to the bill, the dearest first.
        runner_up: cost of the cheapest mix that does without at least one of these products [currency]; None where
            there is none, or none is proven.
        runner_up_products: its products.
        proven: whether no cheaper mix exists.
        supplied: what every zone gets of every input that it needs or that comes along.
        requirements_skipped: needs of which was not asked what they add [-].
    """

    farm: str
    spreadings: tuple[Spreading, ...]
    packs: Mapping[str, float]
    cost: float
    products_cost: float
    passes_cost: float
    calls_cost: float
    requirements: tuple[Requirement, ...] = ()
    runner_up: float | None = None
    runner_up_products: tuple[str, ...] = ()
    proven: bool = True
    supplied: tuple[Supplied, ...] = ()
    requirements_skipped: int = 0


@dataclass(frozen=True, slots=True)
class NoMix:
    """That no mix meets the needs of a farm: the fewest requirements that cannot be met together, and why in facts."""

    farm: str
    in_the_way: tuple[tuple[str, Input], ...]
    facts: Mapping[str, Fact] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Priority:
    """What one action is worth.

    Attributes:
        farm, zone, input: which action.
        probability: that it pays a response [-].
        at_stake: value of the response [currency/ha].
        cost: of the action [currency/ha].
        area_ha: [ha].
        worth: expected worth, `(probability * at_stake - cost) * area` [currency].
        rank: from 1.
        facts: the working.
    """

    farm: str
    zone: str
    input: Input
    probability: float
    at_stake: float
    cost: float
    area_ha: float
    worth: float
    rank: int
    facts: Mapping[str, Fact] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Closing:
    """What following the advice does to sampling: spread on such a day, sampling closed until such a day.

    Attributes:
        farm, zone, input: which action.
        spread_from, spread_to: days proposed for it.
        closes_until: last day on which the zone's next sampling then waits.
        sample_first: whether the next sampling is better done before.
        window_first, window_last: the next window as if the advice were followed; None where it closes the season.
    """

    farm: str
    zone: str
    input: Input
    spread_from: date
    spread_to: date
    closes_until: date
    sample_first: bool
    window_first: date | None
    window_last: date | None


@dataclass(frozen=True, slots=True)
class Signature:
    """That a named person signed what stands under a digest: a record, not a proof of identity.

    Attributes:
        client: id of the client.
        person: id of the person of the practice.
        name, qualification: as they stood on that day.
        day: day of signing.
        digest: of inputs, guidelines and results together.
        parts: digest of each part by its name, so that what changed afterwards can be named.
    """

    client: str
    person: str
    name: str
    qualification: str
    day: date
    digest: str
    parts: Mapping[str, str]
