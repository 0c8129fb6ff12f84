"""What a client is advised: needs, mixes, priorities, and what spreading does to sampling."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from soilrota.batch.advising import ClientAdvice, advice_on, advise_client, available_of, client_needs, closing_of
from soilrota.batch.judging import judge_client
from soilrota.model.advice import Input, Need, NoMix, ProductMix
from soilrota.model.client import Client
from soilrota.timing import tasks_of, window_of
from tests.documents.made import BOOK, example

DAY = date(2027, 2, 15)


def advised(client: Client) -> ClientAdvice:
    """Return what a client is advised on the day."""
    return advise_client(client, judge_client(client, ()), (), DAY)


@pytest.fixture(scope="module")
def anvil() -> Client:
    """Return an example client whose practice lists products."""
    return example("anvil-creek")


def test_every_judged_zone_has_every_input(anvil: Client) -> None:
    """A need or the reason why there is none, once each; zones without results have none."""
    needs = client_needs(anvil, judge_client(anvil, ()), (), DAY)
    zones = {(one.farm, one.zone) for one in judge_client(anvil, ()).zones}
    assert sorted((one.farm, one.zone, one.input) for one in needs) == sorted(
        (*zone, one) for zone in zones for one in Input
    )
    assert client_needs(example("juniper-start"), judge_client(example("juniper-start"), ()), (), DAY) == ()


def test_mixes_meet_what_is_needed(anvil: Client) -> None:
    """One mix a farm; no zone without a need is spread on."""
    found = advised(anvil)
    mixes = [one for one in found.mixes if isinstance(one, ProductMix)]
    assert [mix.farm for mix in mixes] == ["home", "hill"]
    wanted = {(one.farm, one.zone) for one in found.needs if isinstance(one, Need) and one.amount > 0}
    assert {(one.farm, one.zone) for mix in mixes for one in mix.spreadings} <= wanted
    assert all(mix.proven for mix in mixes)
    assert found.of("home", "barn") == tuple(one for one in found.needs if (one.farm, one.zone) == ("home", "barn"))


def test_without_products_there_are_needs_alone(anvil: Client) -> None:
    """Nothing is priced that nobody listed."""
    without = replace(anvil, practice=replace(anvil.practice, products=None))
    found = advised(without)
    assert found.needs
    assert (found.mixes, found.priorities, found.closings) == ((), (), ())


def test_manure_counts_by_its_share_where_a_source_has_one(anvil: Client) -> None:
    """Nine tenths of its phosphorus and potassium in the United States; nothing is borrowed for Australia."""
    products = anvil.practice.products
    assert products is not None
    manures = {one.id for one in products.products.values() if one.material_class == "manure"}
    assert manures
    shares = available_of(products, "US")
    assert set(shares) == {(one, what) for one in manures for what in (Input.PHOSPHORUS, Input.POTASSIUM)}
    assert set(shares.values()) == {0.9}
    assert available_of(products, "AU") == {}


def test_what_cannot_be_met_is_said_and_the_rest_is_mixed(anvil: Client) -> None:
    """Without any lime the needs of lime stand in the way, and phosphorus is met all the same."""
    products = anvil.practice.products
    assert products is not None
    left = {name: one for name, one in products.products.items() if one.neutralising_percent is None}
    practice = replace(anvil.practice, products=replace(products, products=left))
    mixes = advised(replace(anvil, practice=practice)).mixes
    blocked = {input_ for mix in mixes if isinstance(mix, NoMix) for _, input_ in mix.in_the_way}
    assert blocked == {Input.LIME}
    assert any(isinstance(mix, ProductMix) and mix.spreadings for mix in mixes)


def test_priorities_rest_on_the_practices_own_values(anvil: Client) -> None:
    """Ranked where the practice says what a response is worth, and only there."""
    assert {one.input for one in advised(anvil).priorities} <= {one.input for one in anvil.practice.response_values}
    none = replace(anvil, practice=replace(anvil.practice, response_values=()))
    assert advised(none).priorities == ()


def test_spreading_that_would_take_the_preferred_day_waits_for_the_sampling(anvil: Client) -> None:
    """The day after the preferred one; the next window is that of the following season."""
    products = anvil.practice.products
    assert products is not None
    lime = products.products["fine-lime"]
    zone = next(one for one in anvil.farms[0].zones if one.id == "barn")
    before = [window_of(task, DAY) for task in tasks_of(anvil) if task.key.zone == "barn"]
    preferred = max(one.preferred for one in before if one.preferred)
    closing = closing_of(anvil, zone, lime, DAY)
    assert closing is not None
    assert closing.sample_first
    assert closing.spread_from == preferred + timedelta(days=1)
    assert closing.closes_until > closing.spread_from
    assert closing.window_first is None or closing.window_first > closing.closes_until


def test_spreading_that_takes_no_day_goes_ahead(anvil: Client) -> None:
    """A class that closes no day says nothing of sampling."""
    products = anvil.practice.products
    assert products is not None
    gap = replace(anvil.practice.gaps["lime"], counts=False, months=0)
    free = replace(anvil, practice=replace(anvil.practice, gaps={**anvil.practice.gaps, "lime": gap}))
    assert closing_of(free, anvil.farms[0].zones[0], products.products["fine-lime"], DAY) is None


def test_advice_on_a_day_rests_on_the_book(anvil: Client) -> None:
    """Findings and crops of the book's own; the example has no findings that bar anything."""
    assert advice_on(BOOK, anvil, DAY).needs == advised(anvil).needs
    brolga = example("brolga-plains")
    with_crops = {one.input for one in advice_on(BOOK, brolga, DAY).needs if isinstance(one, Need)}
    assert Input.PHOSPHORUS in with_crops
