"""What to buy, spread and do first, as sentences: product mixes, what stands in their way, priorities, sampling."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from soilrota.documents.advice_sentences import figure_words, input_name, unit_of_need
from soilrota.documents.dates import counted, joined, long_day, money, number, span_words
from soilrota.documents.value_words import began
from soilrota.language import marked, say
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
        return money(amount, self.currency, self.language)

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
    rate, product = f"{number(one.rate_kg_ha, language)} kg/ha", names.product(one.product)
    tonnes = number(one.rate_kg_ha * one.area_ha / _KG_A_TONNE, language, 2)
    area = number(one.area_ha, language, 2)
    if one.passes > 1:
        passes = counted(one.passes, "equal pass", "equal passes")
        spread = say("{rate} of {product} in {passes}", rate=rate, product=product, passes=passes)
    else:
        spread = say("{rate} of {product}", rate=rate, product=product)
    return say(
        "{zone}: {spread}, {tonnes} t on {area} ha; it costs {cost}.",
        zone=names.zone(one.zone), spread=spread, tonnes=tonnes, area=area, cost=names.money(one.cost),
    )  # fmt: skip


def supplied_sentence(one: Supplied, names: Names) -> str:
    """Return what a mix gives a zone of an input, against what it needs."""
    zone, what = names.zone(one.zone), input_name(one.input)
    amount = f"{figure_words(one.amount, one.input, names.language)} {unit_of_need(one.input)}"
    if one.need <= 0:
        words = marked("{zone} also gets {amount} of {input}, which nobody asked for.")
        return say(words, zone=zone, amount=amount, input=what)
    need = figure_words(one.need, one.input, names.language)
    if one.amount < one.need * (1 - 1e-6):
        words = marked(
            "{zone} gets {amount} of {input} towards a need of {need}; a maximum and the steps of rates leave no more."
        )
    else:
        words = marked("{zone} gets {amount} of {input} towards a need of {need}.")
    return say(words, zone=zone, amount=amount, input=what, need=need)


def mix_sentences(mix: ProductMix, names: Names) -> Iterator[str]:
    """Yield what to buy, what goes where, the bill and its parts, the runner-up, and what each requirement adds."""
    if not mix.spreadings:
        yield say("Nothing is to be spread on {farm}.", farm=names.farm)
        return
    yield from (_purchase(product, tonnes, names) for product, tonnes in sorted(mix.packs.items()))
    yield from (spreading_sentence(one, names) for one in mix.spreadings)
    yield say(
        "The bill for {farm} is {cost}: {products} for products, {passes} for spreading passes, {calls} for bringing "
        "the spreader.",
        farm=names.farm,
        cost=names.money(mix.cost),
        products=names.money(mix.products_cost),
        passes=names.money(mix.passes_cost),
        calls=names.money(mix.calls_cost),
    )
    if mix.proven:
        yield say("No cheaper mix of the listed products meets these needs.")
    else:
        yield say("A cheaper mix may exist: the search ended before that was ruled out.")
    if mix.runner_up is not None:
        yield say(
            "The next cheapest way, with {products}, costs {cost}, {more} more.",
            products=joined([names.product(one) for one in mix.runner_up_products]),
            cost=names.money(mix.runner_up),
            more=names.money(mix.runner_up - mix.cost),
        )
    for one in mix.requirements:
        what = need_words(one.input, one.zone, names)
        yield say("Meeting the need of {need} adds {cost} to the bill.", need=what, cost=names.money(one.adds))
    if mix.requirements_skipped:
        skipped = counted(mix.requirements_skipped, "further need", "further needs")
        yield say("What {needs} would add was not asked.", needs=skipped)


def need_words(what: Input, zone: str, names: Names) -> str:
    """Return an input and the zone that needs it, inside a sentence."""
    return say("{input} in {zone}", input=input_name(what), zone=names.zone(zone))


def _purchase(product: str, tonnes: float, names: Names) -> str:
    """Return how much of a product to buy, and in how many packs where it is not loose."""
    amount, name = f"{number(tonnes, names.language, 3)} t", names.product(product)
    pack = names.pack_kg.get(product, 0.0)
    if not pack:
        return say("Buy {amount} of {product}.", amount=amount, product=name)
    packs = counted(round(tonnes * _KG_A_TONNE / pack), "whole pack", "whole packs")
    one = f"{number(pack, names.language)} kg"
    return say("Buy {amount} of {product}, {packs} of {pack}.", amount=amount, product=name, packs=packs, pack=one)


def no_mix_sentence(missing: NoMix, names: Names) -> str:
    """Return that no mix meets the needs, what stands in the way, and why."""
    needs = joined([need_words(what, zone, names) for zone, what in missing.in_the_way])
    because = _BECAUSE.get(str(missing.facts.get("because", "")), _NO_RATES)
    figures = "; ".join(filter(None, (_short(missing, what, names) for _, what in missing.in_the_way)))
    if len(missing.in_the_way) > 1:
        words = marked("No mix of the listed products meets the need of {needs} together: {reason}")
    else:
        words = marked("No mix of the listed products meets the need of {needs}: {reason}")
    said = say(words, needs=needs, reason=say(because))
    said = f"{said} ({figures})." if figures else f"{said}."
    zones = missing.facts.get("zones", ())
    named = {zone for zone, _ in missing.in_the_way}
    others = [names.zone(one) for one in zones if one not in named] if isinstance(zones, tuple) else []
    if not others:
        return said
    also = say("The like is so in {zones}.", zones=joined(others))
    return f"{said} {also}"


_BECAUSE = {
    "no-product": marked("no listed product holds it and may go there"),
    "rates": marked("the most that products may be spread at is too little"),
    "maxima": marked("the maxima of what else they bring leave no room"),
}
_NO_RATES = marked("no rates of the listed products meet them")


def _short(missing: NoMix, what: Input, names: Names) -> str:
    """Return the need of an input and what products could give at most; empty where that is not told."""
    need, reach = missing.facts.get(f"{what}_need"), missing.facts.get(f"{what}_reach")
    if not isinstance(need, int | float) or not isinstance(reach, int | float):
        return ""
    unit = unit_of_need(what)
    needed, most = (f"{figure_words(one, what, names.language)} {unit}" for one in (need, reach))
    return say(
        "{input} needed {amount}, products could give {most} at most", input=input_name(what), amount=needed, most=most
    )


def priority_sentence(one: Priority, names: Names) -> str:
    """Return what an action is worth, with the working."""
    working = say(
        "a response is worth {stake}/ha and comes {chance} times in 100, less {cost}/ha, on {area} ha",
        stake=names.money(one.at_stake),
        chance=round(one.probability * 100),
        cost=names.money(one.cost),
        area=number(one.area_ha, names.language, 2),
    )
    if one.worth < 0:
        words = marked("{rank}. {action} costs {amount} more than it can be expected to bring: {working}.")
    else:
        words = marked("{rank}. {action} can be expected to bring {amount} more than it costs: {working}.")
    action = began(need_words(one.input, one.zone, names))
    return say(words, rank=one.rank, action=action, amount=names.money(abs(one.worth)), working=working)


def budget_sentence(chosen: tuple[Priority, ...], budget: float, names: Names) -> str:
    """Return what a small budget should pay for first.

    Args:
        chosen: of `agronomy.priorities.within_budget`.
        budget: what may be spent.
        names: of the farm.
    """
    money = names.money(budget)
    if not chosen:
        return say("{budget} pays for no action that can be expected to bring more than it costs.", budget=money)
    what = joined([need_words(one.input, one.zone, names) for one in chosen])
    cost = names.money(sum(one.cost * one.area_ha for one in chosen))
    return say("With {budget}, do {actions} first: together {cost}.", budget=money, actions=what, cost=cost)


def closing_sentence(closing: Closing, names: Names) -> str:
    """Return what following the advice does to sampling, the order that is proposed, and the window that is left."""
    language = names.language
    if closing.window_first is None or closing.window_last is None:
        left = say("no day of that season is left for it")
    else:
        window = span_words(Span(closing.window_first, closing.window_last), language)
        left = say("the next window is then {window}", window=window)
    said = say(
        "Spreading {product} on {days} closes sampling of {zone} until {day}; {left}.",
        product=names.product(closing.product),
        days=span_words(Span(closing.spread_from, closing.spread_to), language),
        zone=names.zone(closing.zone),
        day=long_day(closing.closes_until, language),
        left=left,
    )
    return " ".join([say("Sample first, then spread."), said]) if closing.sample_first else said
