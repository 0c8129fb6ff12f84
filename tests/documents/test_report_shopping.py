"""Shopping list, bill, what comes first."""

from __future__ import annotations

from dataclasses import replace

from soilrota.documents.report_grounds import FarmGrounds
from soilrota.documents.report_shopping import money, priority_rows, shopping
from soilrota.model.advice import Input, NoMix
from tests.documents.reports import advised, farm_grounds


def home(**changes: object) -> FarmGrounds:
    """Return the advised farm."""
    of_client = replace(advised(), **changes)  # type: ignore[arg-type]
    return FarmGrounds(of_client, of_client.client.farms[0])


def test_the_bill_adds_up_in_the_currency_of_the_practice() -> None:
    """Products, where they go, what the next cheapest way costs, what each need adds."""
    view = shopping(home())
    assert view is not None
    assert view.products == (("ground lime", "31 t"),)
    assert view.spreadings == (("B Barn", "ground lime", "2,800 kg/ha", "30.8 t on 11 ha", "$2,100"),)
    amounts = [float(cost.replace("$", "").replace(",", "")) for _, cost in view.bill]
    assert sum(amounts[:-1]) == amounts[-1]
    assert view.notes == (
        "No cheaper mix of these products meets the needs.",
        "The next cheapest way costs $2,900, with fine lime.",
        "Meeting the need of lime (pure calcium carbonate) in B Barn adds $2,532 to the bill.",
    )


def test_priorities_show_their_working() -> None:
    """Chance, stake, cost, area."""
    assert priority_rows(home()) == (
        ("B Barn", "Lime (pure calcium carbonate)", "$594", "(80 in 100 of $180/ha, less $90/ha) on 11 ha"),
    )


def test_needs_that_no_mix_meets_stand_before_the_list() -> None:
    """By zone and input, with the reason; alone where nothing else is to be spread."""
    none = NoMix("home", (("barn", Input.LIME), ("lane", Input.PHOSPHORUS)), {"because": "no-product"})
    said = (
        "No mix of the listed products meets the need of lime (pure calcium carbonate) in B Barn and phosphorus in E "
        "Lane together: no listed product holds it and may go there."
    )
    alone = shopping(home(mixes=(none,)))
    assert alone is not None
    assert (alone.products, alone.notes) == ((), (said,))
    beside = shopping(home(mixes=(none, *advised().mixes)))
    assert beside is not None
    assert beside.products == (("ground lime", "31 t"),)
    assert beside.notes[:2] == (said, "No cheaper mix of these products meets the needs.")


def test_nothing_reckoned_nothing_said() -> None:
    """No list, no order; without a price list money is a plain number."""
    assert shopping(farm_grounds("anvil-creek")) is None
    assert priority_rows(farm_grounds("anvil-creek")) == ()
    assert money(farm_grounds("anvil-creek"), 1234.4) == "1,234"
