"""Makes a quantity of a formula and its inputs, or says why there is none."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import isfinite

from soilrota.agronomy.derived.inputs import Bag, Reading
from soilrota.agronomy.derived.intervals import Doubtful, Formula, Scale, propagate
from soilrota.guidelines.cited_tables import weakest
from soilrota.model.findings import Fact
from soilrota.model.guideline import Source, Status
from soilrota.model.judgement import NoQuantity, Quantity, Refused, WhyNot

#: A quantity, or why there is none.
Outcome = Quantity | NoQuantity


@dataclass(frozen=True, slots=True)
class Working:
    """How a quantity is reckoned.

    Attributes:
        code: its id.
        unit: its unit.
        formula: takes the readings' amounts, then the figures.
        readings: what was measured.
        figures: what else goes into the formula, with its doubt.
        scale: on which the doubt adds up.
        cited: where the formula comes from, and whether it was read there.
        statuses: of the figures.
        facts: of the working, for words.
        cautions: ids of cautions.
    """

    code: str
    unit: str
    formula: Formula
    readings: Sequence[Reading]
    cited: tuple[Source, Status]
    figures: Sequence[Doubtful] = ()
    scale: Scale = Scale.LOG
    statuses: Iterable[Status] = ()
    facts: Mapping[str, Fact] = field(default_factory=dict)
    cautions: Iterable[str] = ()


def reckoned(top_cm: float, bottom_cm: float, working: Working) -> Outcome:
    """Return the quantity of a layer [cm].

    Besides the facts of the working it has `censored`, the analyses that are known only as below a limit, where there
    are any: its value then takes each at the middle of what it may be, and its interval holds all that it may be.
    """
    amounts = [one.amount for one in working.readings]
    found = propagate(working.formula, [*amounts, *working.figures], working.scale)
    censored = [one for one in working.readings if one.amount.is_censored]
    if not all(isfinite(end) for end in (found.value, found.low, found.high)):
        return NoQuantity(working.code, top_cm, bottom_cm, _without_end(censored))
    facts = dict(working.facts)
    if censored:
        facts["censored"] = tuple(one.code for one in censored)
    source, status = working.cited
    return Quantity(
        code=working.code,
        value=found.value,
        low=min(found.low, found.value),
        high=max(found.high, found.value),
        unit=working.unit,
        top_cm=top_cm,
        bottom_cm=bottom_cm,
        inputs=tuple(one.result for one in working.readings),
        facts=facts,
        source=source,
        status=weakest(status, *working.statuses),
        cautions=tuple(dict.fromkeys(working.cautions)),
    )


def refused(bag: Bag, code: str, why: Refused) -> NoQuantity:
    """Return that a quantity of a bag could not be reckoned."""
    return NoQuantity(code, bag.top_cm, bag.bottom_cm, why)


def _without_end(censored: Sequence[Reading]) -> Refused:
    """Return why a quantity has no end: it divides by what is, or may be, nought."""
    if not censored:
        return Refused(WhyNot.RULE_VOID, {"reason": "divided-by-nought"})
    one = censored[0]
    return Refused(WhyNot.CENSORED, {"analysis": one.code, "qualifier": "<", "value": one.result.value})
