"""Lime that makes good what acidifies."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.acid import NitrogenSpread, acid_made_good
from soilrota.model.cropping import CropYear
from soilrota.model.guideline import Status
from soilrota.problems import Place


def year(crop: str, target: float | None = 4.0, leaves: str = "", harvest: int = 2027) -> CropYear:
    """Return a row of the plan."""
    return CropYear("home", "hill", harvest, crop, target, None, leaves, Place("cropping.csv"))


def test_published_equivalents_of_produce() -> None:
    """Western Australia, Table 1: 9 kg of lime a tonne of wheat, 20 of lupin grain: 4 t and 2 t take 76 kg."""
    (step,) = acid_made_good([year("wheat"), year("lupins", 2.0)])
    assert step.step.rule == "acid-of-produce"
    assert step.amount.low == step.amount.value == step.amount.high == pytest.approx(0.076)
    assert step.step.status is Status.VERIFIED
    assert step.step.facts["produce"] == ("2027 wheat (wheat)", "2027 lupins (lupin-grain)")


def test_hay_has_a_range_from_memory() -> None:
    """60 to 70 kg a tonne of lucerne hay, unverified, also beside verified rows."""
    (step,) = acid_made_good([year("wheat", 1.0), year("lucerne", 10.0, "hay")])
    assert (step.amount.low, step.amount.high) == pytest.approx((0.609, 0.709))
    assert step.amount.value == pytest.approx(0.659)
    assert step.step.status is Status.UNVERIFIED
    assert step.step.source is not None
    assert step.step.source.author == "source not read"


def test_rows_without_a_figure_are_named() -> None:
    """A crop that no table knows, a yield that nobody set; alone they give no step."""
    (step,) = acid_made_good([year("wheat"), year("saffron"), year("barley", None)])
    assert step.step.facts["not_known"] == ("2027 saffron", "2027 barley")
    assert acid_made_good([year("saffron")]) == ()


def test_nitrogen_between_taken_up_and_leached() -> None:
    """Urea: nothing where all was taken up, 3.6 kg a kg where all was leached; nitrates act as lime."""
    (urea,) = acid_made_good([], [NitrogenSpread("urea", 100)])
    assert (urea.amount.low, urea.amount.value, urea.amount.high) == pytest.approx((0, 0.18, 0.36))
    assert urea.step.status is Status.UNVERIFIED
    (nitrate,) = acid_made_good([], [NitrogenSpread("nitrate", 100)])
    assert nitrate.amount.value == pytest.approx(-0.36)
    assert nitrate.step.status is Status.VERIFIED
    assert acid_made_good([], [NitrogenSpread("urea", 0)]) == ()


@given(st.floats(0.1, 12), st.floats(1, 4), st.floats(1, 200))
def test_more_of_it_acidifies_in_proportion(yields: float, times: float, nitrogen: float) -> None:
    """Steps scale with yield and nitrogen, and hold their range."""
    once = acid_made_good([year("wheat", yields)], [NitrogenSpread("ammonium-sulphate", nitrogen)])
    more = acid_made_good([year("wheat", yields * times)], [NitrogenSpread("ammonium-sulphate", nitrogen * times)])
    for one, other in zip(once, more, strict=True):
        assert other.amount.value == pytest.approx(times * one.amount.value)
        assert one.amount.low <= one.amount.value <= one.amount.high
        assert one.step.amount == one.amount.value
