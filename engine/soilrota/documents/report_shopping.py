"""What to buy, where it goes, what it costs, and what comes first for the money."""

from __future__ import annotations

from collections.abc import Iterator

from babel.numbers import format_currency, format_decimal

from soilrota.documents.advice_sentences import input_name
from soilrota.documents.dates import joined, locale_of, number
from soilrota.documents.judgement_sentences import began
from soilrota.documents.report_grounds import FarmGrounds
from soilrota.documents.report_views import ShoppingView
from soilrota.model.advice import Need, NoMix, Priority, ProductMix
from soilrota.model.findings import Fact

#: Requirements that are named, the dearest first.
_MOST_REQUIREMENTS = 5


def shopping(grounds: FarmGrounds) -> ShoppingView | None:
    """Return the shopping list of a farm; None where no mix was looked for."""
    for mix in grounds.all.mixes:
        if mix.farm == grounds.farm.id:
            return _none(grounds, mix) if isinstance(mix, NoMix) else _view(grounds, mix)
    return None


def priority_rows(grounds: FarmGrounds) -> tuple[tuple[str, str, str, str], ...]:
    """Return the actions of a farm, the one worth most first: zone, action, worth, working."""
    ranked = sorted((one for one in grounds.all.priorities if one.farm == grounds.farm.id), key=lambda one: one.rank)
    needs = {(one.zone, one.input) for one in grounds.all.needs if isinstance(one, Need)}
    return tuple(
        (
            grounds.named(one.zone),
            began(input_name(one.input)) + ("" if (one.zone, one.input) in needs else ", not worked out here"),
            money(grounds, one.worth),
            _worked(grounds, one),
        )
        for one in ranked
    )


def _worked(grounds: FarmGrounds, one: Priority) -> str:
    """Return how the worth of an action is worked out."""
    chance, area = round(one.probability * 100), number(one.area_ha, grounds.language)
    stake, cost = money(grounds, one.at_stake), money(grounds, one.cost)
    return f"({chance} in 100 of {stake}/ha, less {cost}/ha) on {area} ha"


def money(grounds: FarmGrounds, amount: float) -> str:
    """Return an amount of money in the client's form; without a currency as a plain number."""
    locale = locale_of(grounds.language)
    products = grounds.all.products
    if products is None:
        return str(format_decimal(round(amount), locale=locale))
    return str(format_currency(round(amount), products.currency, locale=locale, format="¤#,##0", currency_digits=False))


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
                f"{number(one.rate_kg_ha * one.area_ha / 1000, language, 2)} t on {number(one.area_ha, language)} ha",
                money(grounds, one.cost),
            )
            for one in sorted(mix.spreadings, key=lambda one: (list(grounds.zones).index(one.zone), one.product))
        ),
        bill=(
            ("Products", money(grounds, mix.products_cost)),
            ("Spreading passes", money(grounds, mix.passes_cost)),
            ("Bringing the spreader", money(grounds, mix.calls_cost)),
            ("Together", money(grounds, mix.cost)),
        ),
        notes=tuple(_notes(grounds, mix)),
    )


def _notes(grounds: FarmGrounds, mix: ProductMix) -> Iterator[str]:
    """Yield how good the mix is, what comes next, and what each requirement adds."""
    yield (
        "No cheaper mix of these products meets the needs."
        if mix.proven
        else "A cheaper mix may exist: the search was ended before it was ruled out."
    )
    if mix.runner_up is not None:
        names = joined([_product(grounds, one) for one in mix.runner_up_products])
        yield f"The next cheapest way costs {money(grounds, mix.runner_up)}, with {names}."
    for one in mix.requirements[:_MOST_REQUIREMENTS]:
        what = f"{input_name(one.input)} in {grounds.named(one.zone)}"
        yield f"Meeting the need of {what} adds {money(grounds, one.adds)} to the bill."


def _none(grounds: FarmGrounds, mix: NoMix) -> ShoppingView:
    """Return that no mix meets the needs, and what stands in the way."""
    met = joined([f"{input_name(what)} in {grounds.named(zone)}" for zone, what in mix.in_the_way])
    facts = "; ".join(f"{name.replace('_', ' ')}: {_fact(value)}" for name, value in sorted(mix.facts.items()))
    said = f"No mix of the products on the practice’s list meets all needs: {met} cannot be met together."
    return ShoppingView((), (), (), (said, *((f"{facts}.",) if facts else ())))


def _fact(value: Fact) -> str:
    """Return a fact as it is read."""
    return joined([str(one) for one in value]) if isinstance(value, tuple) else str(value).replace("-", " ")


def _product(grounds: FarmGrounds, product: str) -> str:
    """Return what a product is called."""
    listed = grounds.all.products.products.get(product) if grounds.all.products else None
    return listed.name if listed else product.replace("-", " ")
