"""Advice as words: inputs, amounts with their range, steps of a working, maxima, what stands in the way of a mix.

A rule that has no words here is written by its own name, its hyphens taken out: nothing of a working is ever left out.
"""

from __future__ import annotations

from collections.abc import Mapping

from soilrota.documents.dates import joined, long_day, number, span_words
from soilrota.documents.judgement_sentences import began, reason_words
from soilrota.model.advice import Cap, Closing, Input, Need, NoNeed, Step
from soilrota.model.findings import Fact
from soilrota.model.guideline import Source, Status
from soilrota.model.windows import Span

_TONNES = frozenset({Input.LIME, Input.GYPSUM})
_DECIMALS = 4
_INPUTS = {Input.LIME: "lime (pure calcium carbonate)", Input.GYPSUM: "gypsum (pure)"}
_RULES = {
    "build-up": "To lift the soil to its target",
    "removal": "To replace what the harvest takes away",
    "already-applied": "Spread since the sampling",
    "planned": "Planned to be spread",
    "capped": "Held back by a maximum",
    "target-ph": "To reach the target pH",
    "acid-balance": "To make up for acid from fertiliser and produce",
    "demand": "What the crop takes up",
    "mineral-nitrogen": "Mineral nitrogen in the soil",
    "mineralisation": "Nitrogen that the soil will set free",
    "legume-credit": "Left by legumes",
}


def input_name(what: Input) -> str:
    """Return what an input is called, in a sentence."""
    return _INPUTS.get(what, str(what))


def unit_of_need(what: Input) -> str:
    """Return the unit of an input's needs."""
    return "t/ha" if what in _TONNES else "kg/ha"


def figure_words(amount: float, what: Input, language: str) -> str:
    """Return an amount of an input without its unit: tonnes to a tenth, kilograms whole.

    >>> figure_words(2.46, Input.LIME, "en-AU"), figure_words(18.4, Input.PHOSPHORUS, "en-AU")
    ('2.5', '18')
    """
    return number(amount, language, 1 if what in _TONNES else 0)


def amount_words(need: Need, language: str) -> str:
    """Return an amount with its unit and its range."""
    low, value, high = (figure_words(one, need.input, language) for one in (need.low, need.amount, need.high))
    return f"{value} {unit_of_need(need.input)} ({low} to {high})"


def no_need_sentence(missing: NoNeed, language: str) -> str:
    """Return why nothing can be advised of an input."""
    return f"Nothing is advised of {input_name(missing.input)}: {reason_words(missing.refused, language)}."


def step_words(step: Step, language: str) -> str:
    """Return what a step of a working is, with the figures that went in."""
    return f"{_rule(step.rule)}{_figures(step.facts, language)}"


def cap_sentence(cap: Cap, what: Input, language: str) -> str:
    """Return a maximum that was looked at."""
    amount = f"{figure_words(cap.amount, what, language)} {unit_of_need(what)}"
    status = " The figure is unverified." if cap.status is not Status.VERIFIED else ""
    return f"Never more than {amount}: {_rule(cap.rule).lower()}{_figures(cap.facts, language)}.{status}"


def citation(source: Source, status: Status) -> str:
    """Return the citation of a source, with the word where it was not read there."""
    year = f" ({source.year})" if source.year else ""
    where = f", {source.where}" if source.where else ""
    title = source.title if source.author else began(source.title)
    author = f"{source.author}{year}: " if source.author else ""
    return f"{author}{title}{where}" + ("" if status is Status.VERIFIED else " [unverified]")


def closing_sentences(closing: Closing, product: str, language: str) -> tuple[str, ...]:
    """Return what spreading a product does to sampling, and the order that is proposed."""
    days = span_words(Span(closing.spread_from, closing.spread_to), language)
    said = f"Spreading {product} on {days} closes sampling until "
    said += f"{long_day(closing.closes_until, language)}."
    order = "Sample first, then spread." if closing.sample_first else "Spread first; the next sampling can wait."
    if closing.window_first is None or closing.window_last is None:
        return said, order, "Followed, it leaves no day of that season for sampling."
    window = span_words(Span(closing.window_first, closing.window_last), language)
    return said, order, f"Followed, it leaves {window} for the next sampling."


def _rule(rule: str) -> str:
    """Return a rule of a working in words."""
    plain = rule.replace("-", " ")
    return _RULES.get(rule) or f"{plain[:1].upper()}{plain[1:]}"


def _figures(facts: Mapping[str, Fact], language: str) -> str:
    """Return the figures of a step in brackets; empty without any."""
    said = [f"{name.replace('_', ' ')} {_fact(value, language)}" for name, value in sorted(facts.items())]
    return f" ({', '.join(said)})" if said else ""


def _fact(value: Fact, language: str) -> str:
    """Return a fact as it is read."""
    if isinstance(value, tuple):
        return joined([str(one).replace("-", " ") for one in value])
    if isinstance(value, int | float) and not isinstance(value, bool):
        return number(value, language, _DECIMALS)
    return value.replace("-", " ") if isinstance(value, str) else str(value)
