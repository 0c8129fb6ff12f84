"""The mix against counting, greed, and what must hold whatever the farm."""

from __future__ import annotations

from dataclasses import replace
from math import inf
from random import Random

import pytest

from soilrota.agronomy.mix import Effort, product_mix
from soilrota.guidelines.mix import beyond_need
from soilrota.model.advice import Input, NoMix, ProductMix
from soilrota.model.products import ProductKind
from tests.agronomy.mix.counting import Counted
from tests.agronomy.mix.making import FARMS, Farm, listed, need, product, random_farm

CENT = 0.0101
SUPER = product("super", contents={"phosphorus": 8.8, "sulphur": 11.0}, price_per_t=430.0)
TRIPLE = product("triple", contents={"phosphorus": 20.0}, price_per_t=900.0)
AREAS = {"hill": 10.0, "flat": 20.0}
USES = {"hill": "pasture", "flat": "crop"}


def mixed(farm: Farm, effort: Effort | None = None) -> ProductMix | NoMix:
    """Return the mix of a farm."""
    return product_mix("home", farm.needs, farm.areas, farm.products, farm.land_uses, effort=effort)


@pytest.mark.parametrize("block", range(8))
def test_no_mix_is_cheaper_and_what_stands_in_the_way_is_the_least(block: int) -> None:
    """On random small farms cost, runner-up, what needs add, and needs in the way are those of counting every mix."""
    mixes = 0
    for seed in range(block, FARMS, 8):
        farm = random_farm(seed)
        counted, mix = Counted(farm), mixed(farm)
        if counted.in_the_way:
            assert isinstance(mix, NoMix), seed
            smallest = min(map(len, counted.in_the_way.values()))
            zone, inputs = next(item for item in counted.in_the_way.items() if len(item[1]) == smallest)
            assert mix.in_the_way == tuple((zone, input_) for input_ in inputs), seed
            assert mix.facts["zones"] == tuple(counted.in_the_way)
            continue
        mixes += 1
        assert isinstance(mix, ProductMix), (seed, mix)
        assert mix.proven
        assert mix.cost == pytest.approx(counted.cheapest(), abs=CENT), seed
        if mix.packs:
            second = counted.cheapest(lacking=tuple(mix.packs))
            assert mix.runner_up == (None if second is None else pytest.approx(second, abs=CENT)), seed
        for one in mix.requirements[:2]:
            without = counted.cheapest(without=(one.zone, one.input))
            assert without is not None
            assert one.adds == pytest.approx(mix.cost - without, abs=2 * CENT), seed
    assert mixes > FARMS // 20


def test_the_bill_adds_up_and_no_limit_is_passed() -> None:
    """Costs, masses and supplies are those of the spreadings, reckoned anew."""
    for seed in range(FARMS):
        farm = random_farm(seed)
        mix = mixed(farm, Effort(requirements=0, runner_up=False))
        if isinstance(mix, NoMix):
            continue
        products = farm.products.products
        assert mix.cost == pytest.approx(mix.products_cost + mix.passes_cost + mix.calls_cost)
        assert sum(one.cost for one in mix.spreadings) + mix.calls_cost == pytest.approx(mix.cost)
        for one in mix.spreadings:
            kind = products[one.product]
            assert kind.least_kg_ha - 1e-9 <= one.rate_kg_ha <= kind.most_kg_ha + 1e-9
            assert one.rate_kg_ha / kind.step_kg_ha == pytest.approx(round(one.rate_kg_ha / kind.step_kg_ha))
            assert not kind.land_uses or farm.land_uses[one.zone] in kind.land_uses
        for id_, tonnes in mix.packs.items():
            spread = sum(one.rate_kg_ha * one.area_ha for one in mix.spreadings if one.product == id_)
            pack = products[id_].pack_kg
            assert -2e-3 <= tonnes * 1000 - spread < (pack or 1e-5)
            assert not pack or tonnes * 1000 / pack == pytest.approx(round(tonnes * 1000 / pack))
        for wanted in farm.needs:
            got = sum(
                one.rate_kg_ha * products[one.product].contents.get(wanted.input.value, 0.0) / 100
                for one in mix.spreadings
                if one.zone == wanted.zone
            )
            most = wanted.caps[0].amount if wanted.caps else wanted.amount + beyond_need().get(wanted.input, inf)
            assert wanted.low - 1e-5 <= got <= most + 1e-5, seed
            (said,) = [one.amount for one in mix.supplied if (one.zone, one.input) == (wanted.zone, wanted.input)] or [
                0.0
            ]
            assert said == pytest.approx(got)


def greedy(farm: Farm) -> float | None:
    """Return the bill of buying for each need in turn what is cheapest for it; None where a maximum is passed."""
    rates: dict[tuple[str, str], float] = {}
    products = farm.products.products
    for wanted in farm.needs:
        got = sum(
            rate * products[id_].contents.get(wanted.input.value, 0.0) / 100
            for (zone, id_), rate in rates.items()
            if zone == wanted.zone
        )
        sources = [
            one
            for one in products.values()
            if one.contents.get(wanted.input.value) and (wanted.zone, one.id) not in rates
        ]
        for one in sorted(sources, key=lambda one: one.price_per_t / one.contents[wanted.input.value]):
            rate = 0.0
            while got < wanted.amount - 1e-9 and rate + one.step_kg_ha <= one.most_kg_ha:
                step = one.step_kg_ha if rate else -(-one.least_kg_ha // one.step_kg_ha) * one.step_kg_ha
                rate, got = rate + step, got + step * one.contents[wanted.input.value] / 100
            if rate:
                rates[wanted.zone, one.id] = rate
        if got < wanted.amount - 1e-9:
            return None
    bill = sum(
        rate * farm.areas[zone] / 1000 * products[id_].price_per_t + farm.products.pass_price_ha * farm.areas[zone]
        for (zone, id_), rate in rates.items()
    )
    return bill + farm.products.call_price * len({id_ for _, id_ in rates})


def bigger_farm(seed: int) -> Farm:
    """Return a farm of several zones with products that hold one or two elements, nothing capped."""
    random = Random(seed)
    elements = (Input.NITROGEN, Input.PHOSPHORUS, Input.POTASSIUM, Input.SULPHUR)
    products = []
    for index in range(8):
        held = {elements[index % 4], random.choice(elements)}
        contents = {one.value: float(random.randrange(5, 40)) for one in sorted(held)}
        products.append(product(f"p{index}", contents=contents, price_per_t=float(random.randrange(300, 1200))))
    needs = tuple(
        need(input_, random.randrange(50, 400) / 10, f"z{zone}", cap=1000.0) for zone in range(5) for input_ in elements
    )
    areas = {f"z{zone}": random.randrange(30, 300) / 10 for zone in range(5)}
    return Farm(needs, areas, listed(*products), dict.fromkeys(areas, "crop"))


def test_it_is_never_dearer_than_greed() -> None:
    """Buying for each need what is cheapest for it costs as much or more."""
    held, saved = 0, 0.0
    for seed in range(FARMS // 20):
        farm = bigger_farm(seed)
        bill = greedy(farm)
        mix = mixed(farm, Effort(requirements=0, runner_up=False))
        if bill is not None:
            assert isinstance(mix, ProductMix)
            assert mix.cost <= bill + CENT
            held, saved = held + 1, saved + bill - mix.cost
    assert held > 10
    assert saved > 0


def test_the_order_of_needs_and_products_does_not_count() -> None:
    """Shuffled, the same farm gives the same mix to the last figure."""
    for seed in range(20):
        farm = bigger_farm(seed) if seed % 4 == 0 else random_farm(seed)
        random = Random(seed)
        needs, products = list(farm.needs), list(farm.products.products.items())
        random.shuffle(needs)
        random.shuffle(products)
        effort = Effort(requirements=2)
        other = replace(farm, needs=tuple(needs), products=replace(farm.products, products=dict(products)))
        assert mixed(other, effort) == mixed(farm, effort)


def test_twice_the_land_costs_twice_as_much() -> None:
    """Without packs, areas and calls doubled double the bill, at the same rates."""
    for seed in range(5):
        farm = bigger_farm(seed)
        double = replace(
            farm,
            areas={zone: 2 * area for zone, area in farm.areas.items()},
            products=replace(farm.products, call_price=2 * farm.products.call_price),
        )
        one, two = (mixed(item, Effort(requirements=0, runner_up=False)) for item in (farm, double))
        assert isinstance(one, ProductMix)
        assert isinstance(two, ProductMix)
        assert two.cost == pytest.approx(2 * one.cost)


def test_a_worked_mix() -> None:
    """20 kg/ha of phosphorus: 230 kg/ha of the one or 100 of the other; the cheaper one is bought, once for all."""
    needs = (need(Input.PHOSPHORUS, 20.0), need(Input.PHOSPHORUS, 20.0, "flat"))
    mix = product_mix("home", needs, AREAS, listed(SUPER, TRIPLE), USES)
    assert isinstance(mix, ProductMix)
    # 100 kg/ha x 30 ha at 900 a tonne, 30 ha of passes at 9, one call at 100.
    assert mix.cost == pytest.approx(2700 + 270 + 100)
    assert {one.product: one.rate_kg_ha for one in mix.spreadings} == {"triple": 100.0}
    assert (mix.runner_up, mix.runner_up_products) == (pytest.approx(230 * 30 / 1000 * 430 + 270 + 100), ("super",))
    # Without the smaller zone its product and pass are saved, and the call stays.
    assert {one.zone: one.adds for one in mix.requirements} == pytest.approx({"flat": 1980.0, "hill": 990.0})
    assert mix.requirements[0].zone == "flat"


def test_equal_mixes_fall_to_fewer_products_then_to_the_first_id() -> None:
    """Of two products alike in all but the id, the first by id is bought, on both zones."""
    twins = [replace(TRIPLE, id=id_) for id_ in ("b-triple", "a-triple", "c-triple")]
    needs = (need(Input.PHOSPHORUS, 20.0), need(Input.PHOSPHORUS, 20.0, "flat"))
    mix = product_mix("home", needs, AREAS, listed(*twins, call_price=0.0), USES)
    assert isinstance(mix, ProductMix)
    assert {one.product for one in mix.spreadings} == {"a-triple"}


def test_nothing_needed_costs_nothing() -> None:
    """Needs of nought, and no needs at all, give an empty mix."""
    for needs in ((), (need(Input.PHOSPHORUS, 0.0),)):
        mix = product_mix("home", needs, AREAS, listed(SUPER), USES)
        assert isinstance(mix, ProductMix)
        assert (mix.cost, mix.spreadings, mix.runner_up, mix.proven) == (0.0, (), None, True)


def test_lime_counts_by_what_works_of_it() -> None:
    """2 t/ha of pure lime: 90 % neutralising, 4 % wet, 80 % effective, in steps of 250 kg."""
    lime = product(
        "lime", ProductKind.LIME, neutralising_percent=90.0, moisture_percent=4.0, price_per_t=50.0,
        least_kg_ha=1000.0, most_kg_ha=5000.0, step_kg_ha=250.0,
    )  # fmt: skip
    mix = product_mix("home", [need(Input.LIME, 2.0)], AREAS, listed(lime), USES, effectiveness={"lime": 0.8})
    assert isinstance(mix, ProductMix)
    assert mix.spreadings[0].rate_kg_ha == 3000.0  # 2 / (0.9 * 0.96 * 0.8) = 2.89 t/ha
    assert mix.supplied[0].amount == pytest.approx(3 * 0.9 * 0.96 * 0.8)


def test_a_split_need_is_spread_in_dressings() -> None:
    """5.7 t/ha in two dressings of at most 5 t/ha, each in whole steps: two passes are paid; at once it cannot be."""
    lime = product(
        "lime", ProductKind.LIME, neutralising_percent=100.0, least_kg_ha=1000.0, most_kg_ha=5000.0, step_kg_ha=250.0
    )
    once = product_mix("home", [need(Input.LIME, 5.7)], AREAS, listed(lime), USES)
    assert isinstance(once, NoMix)
    assert once.facts["because"] == "rates"
    twice = product_mix("home", [need(Input.LIME, 5.7, dressings=2)], AREAS, listed(lime), USES)
    assert isinstance(twice, ProductMix)
    assert (twice.spreadings[0].rate_kg_ha, twice.passes_cost) == (6000.0, 180.0)


def test_manure_counts_for_what_is_available_and_is_held_to_all_of_it() -> None:
    """Half of the nitrogen counts; the maximum is held against all of it."""
    manure = product("litter", ProductKind.MANURE, contents={"nitrogen": 4.0}, most_kg_ha=5000.0)
    given = {("litter", Input.NITROGEN): 0.5}
    wanted = [need(Input.NITROGEN, 20.0, low=10.0, cap=40.0)]
    mix = product_mix("home", wanted, AREAS, listed(manure), USES, available=given)
    assert isinstance(mix, ProductMix)
    assert (mix.supplied[0].amount, mix.supplied[0].whole) == pytest.approx((20.0, 40.0))
    wanted = [need(Input.NITROGEN, 20.0, low=10.0, cap=30.0)]
    short = product_mix("home", wanted, AREAS, listed(manure), USES, available=given)
    assert isinstance(short, ProductMix)
    assert short.supplied[0].whole <= 30.0
    assert short.supplied[0].amount == pytest.approx(15.0)


def test_what_stands_in_the_way_is_named() -> None:
    """Phosphorus comes only with nitrogen, of which there may be next to none."""
    both = product("both", contents={"nitrogen": 18.0, "phosphorus": 20.0})
    wanted = [need(Input.PHOSPHORUS, 20.0), need(Input.NITROGEN, 0.0, cap=2.0), need(Input.PHOSPHORUS, 5.0, "flat")]
    mix = product_mix("home", wanted, AREAS, listed(both), USES)
    assert isinstance(mix, NoMix)
    assert mix.in_the_way == (("hill", Input.PHOSPHORUS),)
    assert mix.facts["because"] == "maxima"
    assert (mix.facts["phosphorus_need"], mix.facts["zones"]) == (20.0, ("hill",))
    forbidden = product_mix("home", wanted[2:], AREAS, listed(replace(both, land_uses=("hay",))), USES)
    assert isinstance(forbidden, NoMix)
    assert (forbidden.in_the_way, forbidden.facts["because"]) == ((("flat", Input.PHOSPHORUS),), "no-product")


def test_a_search_that_is_stopped_says_that_nothing_is_proven() -> None:
    """With no node allowed, a mix comes back all the same: at worst each zone's own cheapest."""
    farm = bigger_farm(3)
    best = mixed(farm, Effort(requirements=0, runner_up=False))
    stopped = mixed(farm, Effort(requirements=0, nodes=0, runner_up=False))
    assert isinstance(best, ProductMix)
    assert isinstance(stopped, ProductMix)
    assert not stopped.proven
    assert stopped.cost >= best.cost - CENT


def test_requirements_beyond_the_limit_are_counted() -> None:
    """Of twenty needs two are asked; the rest are said to be skipped."""
    mix = mixed(bigger_farm(1), Effort(requirements=2, runner_up=False))
    assert isinstance(mix, ProductMix)
    assert (len(mix.requirements), mix.requirements_skipped) == (2, 18)


def test_needs_that_nobody_can_mean() -> None:
    """Two needs of one input for a zone, and a zone without land, are faults of the program."""
    with pytest.raises(ValueError, match="two needs of phosphorus"):
        product_mix("home", [need(Input.PHOSPHORUS, 5.0), need(Input.PHOSPHORUS, 6.0)], AREAS, listed(SUPER), USES)
    with pytest.raises(ValueError, match="has no area"):
        product_mix("home", [need(Input.PHOSPHORUS, 5.0)], {"hill": 0.0}, listed(SUPER), USES)
