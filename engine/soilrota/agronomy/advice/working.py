"""Workings: steps with what each may be, and the need that they add up to.

A part is a step with its interval of 95 %. Parts that err on their own add in quadrature; where they share a doubt (one
factor for two layers), the caller works the whole out by `derived.intervals.propagate` and hands it in as `whole`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import fsum

from soilrota.agronomy.advice.caps import binding_first, within
from soilrota.agronomy.derived.intervals import Doubtful, exact, propagate
from soilrota.guidelines.cited import Cited
from soilrota.model.advice import Cap, Input, Need, Step
from soilrota.model.findings import Fact
from soilrota.model.guideline import Status
from soilrota.model.judgement import Quantity, Rating


@dataclass(frozen=True, slots=True)
class Part:
    """A step of a working, and what its amount may be [unit of the need]."""

    step: Step
    amount: Doubtful


@dataclass(frozen=True, slots=True)
class Beside:
    """What stands beside a need: what it follows from, what goes with it.

    Attributes:
        rating: the rating that it follows from; None where none does.
        quantities: derived quantities that it follows from.
        cautions: ids of cautions; each is kept once.
        probability: that the zone's true mean lies under the line [-]; None without a line.
        split: amounts of the dressings; empty where it is spread at once.
    """

    rating: Rating | None = None
    quantities: tuple[Quantity, ...] = ()
    cautions: tuple[str, ...] = ()
    probability: float | None = None
    split: tuple[float, ...] = ()


def part(
    rule: str, amount: Doubtful | float, facts: Mapping[str, Fact] | None = None, cited: Cited | None = None
) -> Part:
    """Return a step with what it may be.

    Args:
        rule: id of the step.
        amount: what it adds, or takes off below nought [unit of the need]; a plain number is known exactly.
        facts: the figures that went in.
        cited: where the rule comes from; None for plain arithmetic.
    """
    what = amount if isinstance(amount, Doubtful) else exact(amount)
    source, status = (cited.source, cited.status) if cited else (None, Status.VERIFIED)
    return Part(Step(rule, what.value, facts or {}, source, status), what)


def total(parts: Iterable[Part]) -> Doubtful:
    """Return what parts that err on their own add up to; nought for none.

    >>> found = total([part("a", Doubtful(3, 0, 6)), part("b", Doubtful(5, 1, 9))])
    >>> found.low, found.value, found.high
    (3.0, 8.0, 13.0)
    """
    return propagate(lambda *amounts: fsum(amounts), [one.amount for one in parts])


def need_of(
    ground: tuple[str, str],
    input_: Input,
    parts: Sequence[Part],
    caps: Iterable[Cap] = (),
    beside: Beside | None = None,
    *,
    whole: Doubtful | None = None,
) -> Need:
    """Return the need that parts add up to, never below nought nor above a maximum.

    Args:
        ground: ids of farm and zone.
        input_: of what.
        parts: the working.
        caps: maxima that were looked at.
        beside: what stands beside it.
        whole: what the parts add up to, with its interval, where they do not err on their own.
    """
    along, looked_at = beside or Beside(), binding_first(caps)
    amount = within(whole or total(parts), looked_at)
    return Need(
        farm=ground[0],
        zone=ground[1],
        input=input_,
        amount=amount.value,
        low=amount.low,
        high=amount.high,
        steps=tuple(one.step for one in parts),
        caps=looked_at,
        split=along.split,
        rating=along.rating,
        quantities=along.quantities,
        cautions=tuple(dict.fromkeys(along.cautions)),
        probability=along.probability,
    )
