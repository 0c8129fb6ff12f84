"""What is remembered of advice: amounts, products, the soil test with what lifts it."""

from __future__ import annotations

from datetime import date

import pytest

from soilrota.agronomy.remembering import remembered
from soilrota.model.advice import Input, Need, NoMix, ProductMix, Step
from soilrota.model.follow_up import AdvisedNeed
from tests.agronomy.follow_ups import client
from tests.documents.advised import CLIENTS, advised

DAY = date(2027, 4, 1)


def kept(need: Need) -> AdvisedNeed:
    """Return what is remembered of a need of the river flat."""
    (found,) = remembered(client(), DAY, "d" * 64, (need,)).needs
    return found


def need(input_: Input, *steps: Step, cautions: tuple[str, ...] = ()) -> Need:
    """Return a need of the river flat."""
    return Need("home", "river-flat", input_, 4.0, 2.0, 6.0, steps, cautions=cautions)


@pytest.mark.parametrize("client_id", CLIENTS)
def test_every_need_and_rate_is_remembered(client_id: str) -> None:
    """Amounts with ranges, rates with names; nothing of inputs without advice."""
    of, advice = advised(client_id)
    record = remembered(of, DAY, "d" * 64, advice.needs, advice.mixes)
    needs = [one for one in advice.needs if isinstance(one, Need)]
    assert [(one.farm, one.zone, one.input, one.amount, one.low, one.high) for one in record.needs] == [
        (one.farm, one.zone, one.input, one.amount, one.low, one.high) for one in needs
    ]
    spread = [one for mix in advice.mixes if isinstance(mix, ProductMix) for one in mix.spreadings]
    assert [(one.zone, one.product, one.rate_kg_ha) for one in record.rates] == [
        (one.zone, one.product, one.rate_kg_ha) for one in spread
    ]
    assert (record.client, record.day, record.currency) == (client_id, DAY, "AUD")
    for one, whole in zip(record.needs, needs, strict=True):
        if whole.rating is not None:
            assert one.test is not None
            assert one.test.value == whole.rating.result.value


def test_needs_of_lime_name_the_result_that_they_rest_on() -> None:
    """Rated or not, every one of the example; what lifts a unit is the need by what it was to lift."""
    of, advice = advised("anvil-creek")
    found = [one for one in remembered(of, DAY, "d" * 64, advice.needs).needs if one.input is Input.LIME]
    assert found
    assert all(one.test is not None and one.test.analyte == "ph" for one in found)
    ridge = next(one.test for one in found if one.zone == "ridge")
    assert ridge is not None
    assert ridge.lift_low == ridge.lift_high == pytest.approx(1.889 / 0.7, rel=1e-3)
    assert ridge.taken_off == 0.0


def test_what_was_planned_is_remembered_apart() -> None:
    """What is spread afterwards is held against both."""
    assert kept(need(Input.PHOSPHORUS, Step("build-up", 9.0), Step("planned", -5.0))).planned == 5.0
    assert kept(need(Input.PHOSPHORUS, Step("already-applied", -5.0))).planned == 0.0


def test_gypsum_has_no_test_and_a_failed_mix_no_rates() -> None:
    """No source says what the share of sodium moves by afterwards."""
    assert kept(need(Input.GYPSUM, Step("sodium-to-change", 4.0))).test is None
    assert remembered(client(), DAY, "d" * 64, (), (NoMix("home", ()),)).rates == ()


def test_removal_that_was_not_counted_stays_unknown() -> None:
    """And one that was is so much a harvest."""
    of, advice = advised("brolga-plains")
    found = {(one.zone, one.input): one for one in remembered(of, DAY, "d" * 64, advice.needs).needs}
    two = found["two", Input.PHOSPHORUS].test
    assert two is not None
    assert two.taken_off == pytest.approx((10.88 + 11.52) / 2)
    of, advice = advised("anvil-creek")
    for one in remembered(of, DAY, "d" * 64, advice.needs).needs:
        assert one.input is not Input.PHOSPHORUS or (one.test is not None and one.test.taken_off is None)
