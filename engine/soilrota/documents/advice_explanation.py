"""Advice traced in text: from the amount back through every step, its figures and its source, to what it follows from.

Amounts of steps are printed so fine that they add up to what is printed as their sum.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from math import fsum

from soilrota.documents.action_sentences import (
    Names,
    closing_sentence,
    names_of,
    no_mix_sentence,
    priority_sentence,
    spreading_sentence,
    supplied_sentence,
)
from soilrota.documents.advice_facts import fact_lines
from soilrota.documents.advice_sentences import (
    cap_sentence,
    citation,
    input_name,
    need_sentence,
    no_need_sentence,
    step_sentence,
    unit_of_need,
    working_words,
)
from soilrota.documents.caution_words import caution_sentences
from soilrota.documents.dates import counted, long_day
from soilrota.documents.follow_up_sentences import follow_up_sentences
from soilrota.documents.judgement_sentences import quantity_sentence, rating_sentence
from soilrota.documents.value_words import began
from soilrota.language import marked, say
from soilrota.model.advice import Cap, Closing, Input, Need, NoMix, NoNeed, Priority, ProductMix, Step
from soilrota.model.client import Client, Zone
from soilrota.model.findings import Fact
from soilrota.model.follow_up import FollowUp
from soilrota.model.products import Product, ProductKind

_KINDS = {Input.LIME: ProductKind.LIME, Input.GYPSUM: ProductKind.GYPSUM}


@dataclass(frozen=True, slots=True)
class Advised:
    """What is advised of one input on one zone.

    Attributes:
        day: day of the advice.
        need: the need, or why there is none.
        mixes: of the zone's farm.
        priorities, closings: of any zone.
        came_of_it: what came of earlier advice on this input and zone.
    """

    day: date
    need: Need | NoNeed
    mixes: tuple[ProductMix | NoMix, ...] = ()
    priorities: tuple[Priority, ...] = ()
    closings: tuple[Closing, ...] = ()
    came_of_it: tuple[FollowUp, ...] = ()


def advice_explanation(client: Client, zone: Zone, found: Advised) -> tuple[str, ...]:
    """Return the lines that trace what is advised of one input on a zone: need, working, maxima, product, sampling."""
    need, language = found.need, client.language
    day = long_day(found.day, language)
    lines = [say("What is advised of {input} on {day}", input=input_name(need.input), day=day)]
    if isinstance(need, NoNeed):
        return (*lines, f"  {no_need_sentence(need, language)}", *_afterwards(zone, found, language))
    lines.append(f"  {need_sentence(need, zone.name, language)}")
    lines += [f"  {line}" for line in (*_follows(need, language), *_working(need, language), *_maxima(need, language))]
    lines += [f"  {line}" for line in (*_result(need, language), *_actions(client, found))]
    cautions = caution_sentences(need.cautions)
    lines += [f"  {say(_MIND)}", *(f"    - {one}" for one in cautions)] if cautions else []
    return (*lines, *_afterwards(zone, found, language))


_MIND = marked("Mind:")


def _afterwards(zone: Zone, found: Advised, language: str) -> Iterator[str]:
    """Yield what came of earlier advice."""
    if found.came_of_it:
        yield "  " + say("What came of earlier advice:")
    for one in found.came_of_it:
        yield f"    - {' '.join(follow_up_sentences(one, zone.name, language))}"


def _follows(need: Need, language: str) -> Iterator[str]:
    """Yield what a need follows from."""
    if need.rating is not None:
        said = rating_sentence(need.rating, language)
        yield say("It follows from: {judgement} ({place})", judgement=said, place=need.rating.result.place)
    for quantity in need.quantities:
        yield say("It follows from: {judgement}", judgement=quantity_sentence(quantity))


def _working(need: Need, language: str) -> Iterator[str]:
    """Yield every step with its figures and its source, and what they add up to."""
    yield say("Working:")
    for count, step in enumerate(need.steps, 1):
        yield f"{count:>4}. {step_sentence(step, need.input, language)}"
        yield from _behind(step, step.facts, language)
    total = fsum(step.amount for step in need.steps)
    yield "      " + say("Together: {amount}.", amount=working_words(total, need.input, language))


def _maxima(need: Need, language: str) -> Iterator[str]:
    """Yield every maximum that was looked at, the binding one first."""
    if need.caps:
        yield say("Maxima:")
    for cap in need.caps:
        yield f"    - {cap_sentence(cap, need.input, language)}"
        yield from _behind(cap, cap.facts, language)


def _behind(one: Step | Cap, facts: Mapping[str, Fact], language: str) -> Iterator[str]:
    """Yield the figures and the source of a step or a maximum."""
    for line in fact_lines(one.rule, facts, language):
        yield f"        {line}"
    if one.source is not None:
        yield "        " + say("source: {source}", source=citation(one.source, one.status))


def _result(need: Need, language: str) -> Iterator[str]:
    """Yield what comes out after all maxima, its range and its dressings."""
    low, value, high = (working_words(one, need.input, language) for one in (need.low, need.amount, need.high))
    if low == high:
        yield say("Advised: {amount}; no figure in it has a range.", amount=value)
    else:
        lowest = low.removesuffix(f" {unit_of_need(need.input)}")
        yield say("Advised: {amount}; it may be {low} to {high}, 95 times of 100.", amount=value, low=lowest, high=high)
    if need.split:
        dressings = counted(len(need.split), "dressing", "dressings")
        each = working_words(need.split[0], need.input, language)
        yield say("In {dressings} of {amount} each.", dressings=dressings, amount=each)
    if need.probability is not None:
        if need.input is Input.GYPSUM:
            words = marked(
                "The chance that the zone's true mean lies over the line, so that it responds: {chance} in 100."
            )
        else:
            words = marked(
                "The chance that the zone's true mean lies under the line, so that it responds: {chance} in 100."
            )
        yield say(words, chance=round(need.probability * 100))


def _actions(client: Client, found: Advised) -> Iterator[str]:
    """Yield the products that bring an input to a zone, what that is worth, and what it closes."""
    need = found.need
    names = names_of(client, need.farm)
    products = client.practice.products.products if client.practice.products else {}
    chosen: list[str] = []
    for mix in (one for one in found.mixes if one.farm == need.farm):
        if isinstance(mix, NoMix):
            if (need.zone, need.input) in mix.in_the_way:
                yield say(_PRODUCT, spreading=no_mix_sentence(mix, names))
            continue
        for one in mix.spreadings:
            if one.zone == need.zone and _brings(products[one.product], need.input):
                chosen.append(one.product)
                yield say(_PRODUCT, spreading=spreading_sentence(one, names))
        yield from (
            say("Supplied: {supplied}", supplied=supplied_sentence(one, names))
            for one in mix.supplied
            if (one.zone, one.input) == (need.zone, need.input) and chosen
        )
    yield from _worth_and_sampling(need, found, names, chosen)


_PRODUCT = marked("Product: {spreading}")


def _worth_and_sampling(need: Need | NoNeed, found: Advised, names: Names, chosen: Iterable[str]) -> Iterator[str]:
    """Yield what an action is worth, and what its products do to sampling."""
    for priority in found.priorities:
        if (priority.farm, priority.zone, priority.input) == (need.farm, need.zone, need.input):
            yield say("Order: {action}", action=began(priority_sentence(priority, names)))
    for closing in found.closings:
        if (closing.farm, closing.zone) == (need.farm, need.zone) and closing.product in set(chosen):
            yield say("Sampling: {sampling}", sampling=closing_sentence(closing, names))


def _brings(product: Product, what: Input) -> bool:
    """Return whether a product is spread for, or holds, an input."""
    kind = _KINDS.get(what)
    return product.kind is kind if kind else product.contents.get(what.value, 0.0) > 0
