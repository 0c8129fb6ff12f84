"""Reading a bag."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from soilrota.agronomy.derived.inputs import bag_of, between_laboratories
from soilrota.agronomy.derived.intervals import with_cv
from soilrota.model.judgement import Refused, WhyNot
from tests.agronomy.derived.bags import bag, result, results, zone


def test_a_value_comes_with_the_spread_between_laboratories() -> None:
    """Colwell P of 30: 30.685 x 30 ** -0.2061 per cent (method book, figure 9.2)."""
    read = bag({"phosphorus.colwell": 30}).read("phosphorus.colwell")
    assert not isinstance(read, Refused)
    assert read[0].amount == with_cv(30, 0.30685 * 30**-0.2061)
    assert read[0].code == "phosphorus.colwell"
    assert between_laboratories(result("ph.water", 6)) == pytest.approx(0.019)
    assert between_laboratories(result("potassium.colwell", 90)) == pytest.approx(0.128)


def test_another_unit_is_the_same_number() -> None:
    """The spread follows the value in the glossary's unit, whatever the laboratory wrote."""
    plain = bag({"potassium.exchangeable": 0.5}).read("potassium.exchangeable")
    written = bag_of([result("potassium.exchangeable", 195.4915, unit="mg/kg")], zone()).read("potassium.exchangeable")
    assert not isinstance(plain, Refused)
    assert not isinstance(written, Refused)
    assert written[0].amount.high == pytest.approx(plain[0].amount.high)
    asked = bag({"potassium.exchangeable": 0.5}).read("potassium.exchangeable", unit="mg/kg")
    assert not isinstance(asked, Refused)
    assert asked[0].amount.value == pytest.approx(195.4915)


def test_censored_values() -> None:
    """Below a limit is all down to nought; above one nothing is said."""
    below = bag({"aluminium.exchangeable": "<0.1"}).read("aluminium.exchangeable")
    assert not isinstance(below, Refused)
    amount = below[0].amount
    assert (amount.low, amount.value, amount.high, amount.is_censored) == (0, 0.05, 0.1, True)
    above = bag({"phosphorus.colwell": ">400"}).read("phosphorus.colwell")
    assert above == Refused(WhyNot.CENSORED, {"analysis": "phosphorus.colwell", "qualifier": ">", "value": 400.0})


def test_why_a_number_is_not_there() -> None:
    """Not measured, below nought, or in a unit that cannot be converted."""
    held = bag({"sodium.exchangeable": -0.1, "potassium.ammonium-nitrate-by-volume": 120})
    lacking = held.read("calcium.exchangeable", "sodium.exchangeable")
    assert lacking == Refused(WhyNot.NOT_MEASURED, {"needs": ("calcium.exchangeable",)})
    below = held.read("sodium.exchangeable")
    assert isinstance(below, Refused)
    assert (below.why, below.facts["reason"]) == (WhyNot.RULE_VOID, "below-nought")
    by_volume = held.read("potassium.ammonium-nitrate-by-volume", unit="mg/kg")
    assert isinstance(by_volume, Refused)
    assert by_volume.facts["reason"] == "unit"
    assert "density of the soil in the laboratory's scoop" in str(by_volume.facts["expected"])


def test_one_bag_at_a_time() -> None:
    """Two layers, two days or another zone are a fault of the program; of a code that comes twice the last stands."""
    two_layers = [*results({"ph.water": 6}), *results({"ph.water": 6}, (10, 30))]
    two_days = [result("ph.water", 6), replace(result("ph.water", 6), sampled=date(2027, 2, 11))]
    for wrong, of in ((two_layers, zone()), (two_days, zone()), (results({"ph.water": 6}), zone(id="flat"))):
        with pytest.raises(ValueError, match="not one layer"):
            bag_of(wrong, of)
    held = bag_of([result("ph.water", 6), result("ph.water", 7)], zone())
    assert held.results["ph.water"].value == 7
    assert (held.depth_cm, held.first("ph.cacl2", "ph.water"), held.first("ph.cacl2")) == (10, "ph.water", "")
