"""What to buy, spread and do first, as sentences: product mixes, what stands in their way, priorities, sampling."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from babel.numbers import format_currency

from soilrota.documents.advice_sentences import figure_words, input_name, unit_of_need
from soilrota.documents.dates import counted, joined, locale_of, long_day, number, span_words
from soilrota.documents.judgement_sentences import began
from soilrota.model.advice import Closing, Input, NoMix, Priority, ProductMix, Spreading, Supplied
from soilrota.model.client import Client
from soilrota.model.windows import Span

_KG_A_TONNE = 1000


@dataclass(frozen=True, slots=True)
class Names:
    """What people call things on one farm, and how they count money.

    Attributes:
        farm: the farm.
        zones, products: names by id.
        currency: ISO 4217 code.
        language: of the client.
        pack_kg: packs of the products by id [kg]; 0 for loose.
    """

    farm: str
    zones: Mapping[str, str]
    products: Mapping[str, str]
    currency: str
    language: str
    pack_kg: Mapping[str, float] = field(default_factory=dict)

    def money(self, amount: float) -> str:
        """Return an amount of money in whole units, in the client's form."""
        locale = locale_of(self.language)
        return str(format_currency(round(amount), self.currency, format="¤#,##0", locale=locale, currency_digits=False))

    def zone(self, zone: str) -> str:
        """Return what people call a zone."""
        return self.zones.get(zone, zone)

    def product(self, product: str) -> str:
        """Return what people call a product."""
        return self.products.get(product, product)


def names_of(client: Client, farm: str) -> Names:
    """Return the names of a farm of a client, whose practice lists products or not."""
    found = next(one for one in client.farms if one.id == farm)
    listed = client.practice.products
    products = listed.products if listed else {}
    return Names(
        farm=found.name,
        zones={zone.id: zone.name for zone in found.zones},
        products={id_: one.name for id_, one in products.items()},
        currency=listed.currency if listed else "",
        language=client.language,
        pack_kg={id_: one.pack_kg for id_, one in products.items()},
    )


def spreading_sentence(one: Spreading, names: Names) -> str:
    """Return how much of a product goes on a zone, in how many passes, and what that costs."""
    language = names.language
    rate = f"{number(one.rate_kg_ha, language)} kg/ha of {names.product(one.product)}"
    passes = f" in {counted(one.passes, 'equal pass', 'equal passes')}" if one.passes > 1 else ""
    tonnes = number(one.rate_kg_ha * one.area_ha / _KG_A_TONNE, language, 2)
    area = number(one.area_ha, language, 2)
    return f"{names.zone(one.zone)}: {rate}{passes}, {tonnes} t on {area} ha; it costs {names.money(one.cost)}."


def supplied_sentence(one: Supplied, names: Names) -> str:
    """Return what a mix gives a zone of an input, against what it needs."""
    gives = f"{figure_words(one.amount, one.input, names.language)} {unit_of_need(one.input)}"
    what = input_name(one.input)
    if one.need <= 0:
        return f"{names.zone(one.zone)} also gets {gives} of {what}, which nobody asked for."
    need = figure_words(one.need, one.input, names.language)
    short = "; a maximum and the steps of rates leave no more" if one.amount < one.need * (1 - 1e-6) else ""
    return f"{names.zone(one.zone)} gets {gives} of {what} towards a need of {need}{short}."


def mix_sentences(mix: ProductMix, names: Names) -> Iterator[str]:
    """Yield what to buy, what goes where, the bill and its parts, the runner-up, and what each requirement adds."""
    if not mix.spreadings:
        yield f"Nothing is to be spread on {names.farm}."
        return
    for product, tonnes in sorted(mix.packs.items()):
        yield f"Buy {number(tonnes, names.language, 3)} t of {names.product(product)}{_packs(product, tonnes, names)}."
    yield from (spreading_sentence(one, names) for one in mix.spreadings)
    yield (
        f"The bill for {names.farm} is {names.money(mix.cost)}: {names.money(mix.products_cost)} for products, "
        f"{names.money(mix.passes_cost)} for spreading passes, {names.money(mix.calls_cost)} for bringing the spreader."
    )
    if mix.proven:
        yield "No cheaper mix of the listed products meets these needs."
    else:
        yield "A cheaper mix may exist: the search ended before that was ruled out."
    if mix.runner_up is not None:
        others = joined([names.product(one) for one in mix.runner_up_products])
        more = names.money(mix.runner_up - mix.cost)
        yield f"The next cheapest way, with {others}, costs {names.money(mix.runner_up)}, {more} more."
    for one in mix.requirements:
        what = f"{input_name(one.input)} in {names.zone(one.zone)}"
        yield f"Meeting the need of {what} adds {names.money(one.adds)} to the bill."
    if mix.requirements_skipped:
        skipped = counted(mix.requirements_skipped, "further need", "further needs")
        yield f"What {skipped} would add was not asked."


def _packs(product: str, tonnes: float, names: Names) -> str:
    """Return in how many packs a product is bought; empty where loose."""
    pack = names.pack_kg.get(product, 0.0)
    if not pack:
        return ""
    count = counted(round(tonnes * _KG_A_TONNE / pack), "whole pack", "whole packs")
    return f", {count} of {number(pack, names.language)} kg"


def no_mix_sentence(missing: NoMix, names: Names) -> str:
    """Return that no mix meets the needs, what stands in the way, and why."""
    what = joined([f"{input_name(input_)} in {names.zone(zone)}" for zone, input_ in missing.in_the_way])
    together = " together" if len(missing.in_the_way) > 1 else ""
    because = _BECAUSE.get(str(missing.facts.get("because", "")), "no rates of the listed products meet them")
    figures = [_short(missing, input_, names) for _, input_ in missing.in_the_way]
    zones = missing.facts.get("zones", ())
    named = {zone for zone, _ in missing.in_the_way}
    others = [names.zone(one) for one in zones if one not in named] if isinstance(zones, tuple) else []
    also = f" The like is so in {joined(others)}." if others else ""
    said = f"No mix of the listed products meets the need of {what}{together}: {because}"
    return f"{said} ({'; '.join(filter(None, figures))}).{also}" if any(figures) else f"{said}.{also}"


_BECAUSE = {
    "no-product": "no listed product holds it and may go there",
    "rates": "the most that products may be spread at is too little",
    "maxima": "the maxima of what else they bring leave no room",
}


def _short(missing: NoMix, input_: Input, names: Names) -> str:
    """Return the need of an input and what products could give at most; empty where that is not told."""
    need, reach = missing.facts.get(f"{input_}_need"), missing.facts.get(f"{input_}_reach")
    if not isinstance(need, int | float) or not isinstance(reach, int | float):
        return ""
    unit = unit_of_need(input_)
    need_words, most = (figure_words(one, input_, names.language) for one in (need, reach))
    return f"{input_name(input_)} needed {need_words} {unit}, products could give {most} {unit} at most"


def priority_sentence(one: Priority, names: Names) -> str:
    """Return what an action is worth, with the working."""
    chance, area = round(one.probability * 100), number(one.area_ha, names.language, 2)
    action = f"{began(input_name(one.input))} in {names.zone(one.zone)}"
    working = (
        f"a response is worth {names.money(one.at_stake)}/ha and comes {chance} times in 100, "
        f"less {names.money(one.cost)}/ha, on {area} ha"
    )
    if one.worth < 0:
        return f"{one.rank}. {action} costs {names.money(-one.worth)} more than it can be expected to bring: {working}."
    return f"{one.rank}. {action} can be expected to bring {names.money(one.worth)} more than it costs: {working}."


def budget_sentence(chosen: tuple[Priority, ...], budget: float, names: Names) -> str:
    """Return what a small budget should pay for first.

    Args:
        chosen: of `agronomy.priorities.within_budget`.
        budget: what may be spent.
        names: of the farm.
    """
    if not chosen:
        return f"{names.money(budget)} pays for no action that can be expected to bring more than it costs."
    what = joined([f"{input_name(one.input)} in {names.zone(one.zone)}" for one in chosen])
    cost = names.money(sum(one.cost * one.area_ha for one in chosen))
    return f"With {names.money(budget)}, do {what} first: together {cost}."


def closing_sentence(closing: Closing, names: Names) -> str:
    """Return what following the advice does to sampling, the order that is proposed, and the window that is left."""
    language = names.language
    days = span_words(Span(closing.spread_from, closing.spread_to), language)
    until = long_day(closing.closes_until, language)
    order = "Sample first, then spread. " if closing.sample_first else ""
    said = f"Spreading {names.product(closing.product)} on {days} closes sampling of {names.zone(closing.zone)}"
    if closing.window_first is None or closing.window_last is None:
        left = "no day of that season is left for it"
    else:
        window = span_words(Span(closing.window_first, closing.window_last), language)
        left = f"the next window is then {window}"
    return f"{order}{said} until {until}; {left}."
