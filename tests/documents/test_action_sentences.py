"""Mixes, what stands in their way, priorities and sampling in words."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.documents.action_sentences import (
    Names,
    budget_sentence,
    closing_sentence,
    mix_sentences,
    names_of,
    no_mix_sentence,
    priority_sentence,
    spreading_sentence,
    supplied_sentence,
)
from soilrota.model.advice import (
    Closing,
    Input,
    NoMix,
    Priority,
    ProductMix,
    Requirement,
    Spreading,
    Supplied,
)
from tests.documents.advised import CLIENTS, advised
from tests.documents.shouting import shout, unsaid

NAMES = Names("Home", {"barn": "Barn"}, {"lime": "Ground lime", "urea": "Urea"}, "AUD", "en-AU", {"urea": 500.0})
LIMED = Spreading("home", "barn", "lime", 2500.0, 4.0, 812.4, 2)
MIX = ProductMix("home", (LIMED,), {"lime": 10.0, "urea": 1.5}, 1000.4, 700.0, 160.4, 140.0)


def test_a_mix_says_what_to_buy_and_what_it_costs() -> None:
    """Packs, rates, bill with its parts, whether it is proven, the runner-up, what each need adds."""
    adds = Requirement("home", "barn", Input.LIME, 612.0)
    mix = replace(MIX, requirements=(adds,), runner_up=1100.4, runner_up_products=("urea",), requirements_skipped=1)
    assert list(mix_sentences(mix, NAMES)) == [
        "Buy 10 t of Ground lime.",
        "Buy 1.5 t of Urea, 3 whole packs of 500 kg.",
        "Barn: 2,500 kg/ha of Ground lime in 2 equal passes, 10 t on 4 ha; it costs $812.",
        ("The bill for Home is $1,000: $700 for products, $160 for spreading passes, $140 for bringing the spreader."),
        "No cheaper mix of the listed products meets these needs.",
        "The next cheapest way, with Urea, costs $1,100, $100 more.",
        "Meeting the need of lime (pure calcium carbonate) in Barn adds $612 to the bill.",
        "What 1 further need would add was not asked.",
    ]
    assert "A cheaper mix may exist" in " ".join(mix_sentences(replace(MIX, proven=False), NAMES))
    assert list(mix_sentences(replace(MIX, spreadings=()), NAMES)) == ["Nothing is to be spread on Home."]
    assert " in 1" not in spreading_sentence(replace(LIMED, passes=1), NAMES)


def test_what_is_supplied_is_held_against_the_need() -> None:
    """Short of it, enough, and what comes along."""
    short = Supplied("home", "barn", Input.PHOSPHORUS, 20.0, 15.0, 15.0)
    assert supplied_sentence(short, NAMES) == (
        "Barn gets 15 kg/ha of phosphorus towards a need of 20; a maximum and the steps of rates leave no more."
    )
    assert supplied_sentence(replace(short, amount=21.0), NAMES).endswith("towards a need of 20.")
    assert "nobody asked for" in supplied_sentence(replace(short, need=0.0), NAMES)


def test_what_stands_in_the_way_is_said() -> None:
    """One need by its figures, several together, other zones of the like."""
    facts = {"because": "rates", "zones": ("barn", "ridge"), "lime_need": 4.0, "lime_reach": 2.5}
    assert no_mix_sentence(NoMix("home", (("barn", Input.LIME),), facts), NAMES) == (
        "No mix of the listed products meets the need of lime (pure calcium carbonate) in Barn: the most that products "
        "may be spread at is too little (lime (pure calcium carbonate) needed 4 t/ha, products could give 2.5 t/ha at "
        "most). The like is so in ridge."
    )
    both = NoMix("home", (("barn", Input.SULPHUR), ("barn", Input.NITROGEN)), {"because": "maxima"})
    assert no_mix_sentence(both, NAMES) == (
        "No mix of the listed products meets the need of sulphur in Barn and nitrogen in Barn together: the maxima of "
        "what else they bring leave no room."
    )


def test_priorities_show_their_working() -> None:
    """Worth more than it costs, or less; and what a small budget does first."""
    one = Priority("home", "barn", Input.PHOSPHORUS, 0.7, 120.0, 40.0, 5.0, 220.0, 1)
    assert priority_sentence(one, NAMES) == (
        "1. Phosphorus in Barn can be expected to bring $220 more than it costs: a response is worth $120/ha and comes "
        "70 times in 100, less $40/ha, on 5 ha."
    )
    assert "costs $50 more than it can be expected to bring" in priority_sentence(replace(one, worth=-50.0), NAMES)
    assert budget_sentence((one,), 300.0, NAMES) == "With $300, do phosphorus in Barn first: together $200."
    assert budget_sentence((), 10.0, NAMES).startswith("$10 pays for no action")


def test_what_spreading_does_to_sampling() -> None:
    """Order, days, and a season that it closes."""
    day = date(2027, 4, 1)
    closing = Closing(
        "home",
        "barn",
        "lime",
        day,
        day,
        date(2027, 10, 30),
        sample_first=True,
        window_first=date(2027, 11, 1),
        window_last=date(2027, 12, 1),
    )
    assert closing_sentence(closing, NAMES) == (
        "Sample first, then spread. Spreading Ground lime on 1 April 2027 closes sampling of Barn until "
        "30 October 2027; the next window is then 1 November to 1 December 2027."
    )
    none = replace(closing, sample_first=False, window_first=None, window_last=None)
    assert closing_sentence(none, NAMES).endswith("until 30 October 2027; no day of that season is left for it.")


@pytest.mark.parametrize("client_id", CLIENTS)
def test_the_example_book_is_said_by_names(client_id: str) -> None:
    """No id of a zone or product with a hyphen is left."""
    client, advice = advised(client_id)
    for mix in advice.mixes:
        names = names_of(client, mix.farm)
        said = list(mix_sentences(mix, names)) if isinstance(mix, ProductMix) else [no_mix_sentence(mix, names)]
        said += [priority_sentence(one, names) for one in advice.priorities if one.farm == mix.farm]
        said += [closing_sentence(one, names) for one in advice.closings if one.farm == mix.farm]
        ids = {one for one in (*names.zones, *names.products) if "-" in one}
        assert [text for text in said for one in ids if f" {one} " in text] == []


def test_nothing_is_left_in_english(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever is bought, spread, in the way, worth it or closed comes out of the catalogue."""
    shout(monkeypatch)
    names = Names("H", {"barn": "B"}, {"lime": "L", "urea": "U"}, "AUD", "ja", {"urea": 500.0})
    adds = Requirement("home", "barn", Input.LIME, 612.0)
    mix = replace(MIX, requirements=(adds,), runner_up=1100.4, runner_up_products=("urea",), requirements_skipped=2)
    said = [*mix_sentences(mix, names), *mix_sentences(replace(MIX, proven=False), names)]
    said += [*mix_sentences(replace(MIX, spreadings=()), names), spreading_sentence(replace(LIMED, passes=1), names)]
    short = Supplied("home", "barn", Input.PHOSPHORUS, 20.0, 15.0, 15.0)
    said += [supplied_sentence(one, names) for one in (short, replace(short, amount=21.0), replace(short, need=0.0))]
    facts = {"because": "rates", "zones": ("barn", "R"), "lime_need": 4.0, "lime_reach": 2.5}
    said.append(no_mix_sentence(NoMix("home", (("barn", Input.LIME),), facts), names))
    both = (("barn", Input.SULPHUR), ("barn", Input.NITROGEN))
    said += [no_mix_sentence(NoMix("home", both, {"because": why}), names) for why in ("maxima", "no-product", "")]
    one = Priority("home", "barn", Input.PHOSPHORUS, 0.7, 120.0, 40.0, 5.0, 220.0, 1)
    said += [priority_sentence(one, names), priority_sentence(replace(one, worth=-50.0), names)]
    said += [budget_sentence((one,), 300.0, names), budget_sentence((), 10.0, names)]
    day = date(2027, 4, 1)
    closing = Closing("home", "barn", "lime", day, day, day, sample_first=True, window_first=day, window_last=day)
    said += [closing_sentence(closing, names), closing_sentence(replace(closing, window_first=None), names)]
    assert [text for text in said if unsaid(text)] == []
