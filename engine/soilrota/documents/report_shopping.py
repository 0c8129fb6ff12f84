"""What to buy, where it goes, what it costs, and what comes first for the money."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from soilrota.documents.action_sentences import Names, names_of, no_mix_sentence
from soilrota.documents.advice_sentences import input_name
from soilrota.documents.dates import joined, number
from soilrota.documents.dates import money as money_words
from soilrota.documents.judgement_sentences import began
from soilrota.documents.report_grounds import FarmGrounds
from soilrota.documents.report_views import ShoppingView
from soilrota.language import say
from soilrota.model.advice import Need, NoMix, Priority, ProductMix

#: Requirements that are named, the dearest first.
_MOST_REQUIREMENTS = 5


def shopping(grounds: FarmGrounds) -> ShoppingView | None:
    """Return the shopping list of a farm, with the needs that no mix meets; None where no mix was looked for."""
    mixes = [mix for mix in grounds.all.mixes if mix.farm == grounds.farm.id]
    if not mixes:
        return None
    names = _names(grounds)
    unmet = tuple(no_mix_sentence(mix, names) for mix in mixes if isinstance(mix, NoMix))
    found = next((mix for mix in mixes if isinstance(mix, ProductMix)), None)
    if found is None:
        return ShoppingView((), (), (), unmet)
    view = _view(grounds, found)
    return replace(view, notes=(*unmet, *view.notes))


def _names(grounds: FarmGrounds) -> Names:
    """Return what people call the farm's things, zones with their letters as on its map."""
    zones = {zone.id: grounds.named(zone.id) for zone in grounds.farm.zones}
    return replace(names_of(grounds.all.client, grounds.farm.id), zones=zones)


def priority_rows(grounds: FarmGrounds) -> tuple[tuple[str, str, str, str], ...]:
    """Return the actions of a farm, the one worth most first: zone, action, worth, working."""
    ranked = sorted((one for one in grounds.all.priorities if one.farm == grounds.farm.id), key=lambda one: one.rank)
    needs = {(one.zone, one.input) for one in grounds.all.needs if isinstance(one, Need)}
    return tuple(
        (
            grounds.named(one.zone),
            _action(one, is_worked_out=(one.zone, one.input) in needs),
            money(grounds, one.worth),
            _worked(grounds, one),
        )
        for one in ranked
    )


def _action(one: Priority, *, is_worked_out: bool) -> str:
    """Return what is to be done, and whether how much was not worked out."""
    action = began(input_name(one.input))
    return action if is_worked_out else say("{action}, not worked out here", action=action)


def _worked(grounds: FarmGrounds, one: Priority) -> str:
    """Return how the worth of an action is worked out."""
    chance, area = round(one.probability * 100), number(one.area_ha, grounds.language)
    stake, cost = money(grounds, one.at_stake), money(grounds, one.cost)
    return say(
        "({chance} in 100 of {stake}/ha, less {cost}/ha) on {area} ha", chance=chance, stake=stake, cost=cost, area=area
    )


def money(grounds: FarmGrounds, amount: float) -> str:
    """Return an amount of money in the client's form; without a currency as a plain number."""
    products = grounds.all.products
    return money_words(amount, products.currency if products else "", grounds.language)


def _view(grounds: FarmGrounds, mix: ProductMix) -> ShoppingView:
    """Return the list of a mix."""
    language = grounds.language
    return ShoppingView(
        products=tuple(
            (_product(grounds, one), f"{number(amount, language, 2)} t") for one, amount in sorted(mix.packs.items())
        ),
        spreadings=tuple(
            (
                grounds.named(one.zone),
                _product(grounds, one.product),
                f"{number(one.rate_kg_ha, language, 0)} kg/ha",
                say(
                    "{amount} t on {area} ha",
                    amount=number(one.rate_kg_ha * one.area_ha / 1000, language, 2),
                    area=number(one.area_ha, language),
                ),
                money(grounds, one.cost),
            )
            for one in sorted(mix.spreadings, key=lambda one: (list(grounds.zones).index(one.zone), one.product))
        ),
        bill=(
            (say("Products"), money(grounds, mix.products_cost)),
            (say("Spreading passes"), money(grounds, mix.passes_cost)),
            (say("Bringing the spreader"), money(grounds, mix.calls_cost)),
            (say("Together"), money(grounds, mix.cost)),
        ),
        notes=tuple(_notes(grounds, mix)),
    )


def _notes(grounds: FarmGrounds, mix: ProductMix) -> Iterator[str]:
    """Yield how good the mix is, what comes next, and what each requirement adds."""
    yield (
        say("No cheaper mix of these products meets the needs.")
        if mix.proven
        else say("A cheaper mix may exist: the search was ended before it was ruled out.")
    )
    if mix.runner_up is not None:
        names = joined([_product(grounds, one) for one in mix.runner_up_products])
        cost = money(grounds, mix.runner_up)
        yield say("The next cheapest way costs {cost}, with {products}.", cost=cost, products=names)
    for one in mix.requirements[:_MOST_REQUIREMENTS]:
        yield say(
            "Meeting the need of {input} in {zone} adds {cost} to the bill.",
            input=input_name(one.input),
            zone=grounds.named(one.zone),
            cost=money(grounds, one.adds),
        )


def _product(grounds: FarmGrounds, product: str) -> str:
    """Return what a product is called."""
    listed = grounds.all.products.products.get(product) if grounds.all.products else None
    return listed.name if listed else product.replace("-", " ")
