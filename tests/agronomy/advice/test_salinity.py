"""What will still grow well, by published tolerances."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.salinity import crops_not_known, salinity_cautions, what_will_grow
from soilrota.guidelines.salinity import salt_tolerances
from soilrota.model.guideline import Status
from soilrota.model.judgement import Quantity
from tests.agronomy.derived.bags import derived, zone


def ece(value: float, low: float | None = None, high: float | None = None) -> Quantity:
    """Return a conductivity of the saturation extract."""
    found, _ = derived({"conductivity.ec-1-5": 0.5})
    return replace(found["ece"], value=value, low=value if low is None else low, high=value if high is None else high)


@pytest.mark.parametrize(
    ("crop", "at"),
    [
        ("maize-grain", (2.5, 3.8, 5.9, 10.0)),
        ("bean", (1.5, 2.3, 3.6, 6.3)),
        ("zucchini", (5.8, 7.4, 10.0, 15.0)),
        ("sunflower", (6.8, 9.8, 14.8, 24.8)),
    ],
)
def test_published_yields(crop: str, at: tuple[float, ...]) -> None:
    """Review of salinity in PLOS ONE 2018, table 3: ECe for 90, 75, 50 and 0 % of yield, printed to one decimal."""
    for value, percent in zip(at, (90, 75, 50, 0), strict=True):
        found = {one.crop: one for one in what_will_grow(zone(), ece(value))}[crop]
        assert found.relative_yield == pytest.approx(percent, abs=found.slope * 0.051 + (4 if value >= 15 else 0))


def test_crops_of_the_plan_are_marked_and_go_first_among_equals() -> None:
    """As the plan writes them; the whole table is there."""
    found = what_will_grow(zone(), ece(1.0), ["Winter wheat", "lucerne", "saffron"])
    assert len(found) == len(salt_tolerances())
    assert [one.asked for one in found[:2]] == ["lucerne", "Winter wheat"]
    assert not any(one.is_planned for one in found[2:])
    assert crops_not_known(["Winter wheat", "saffron", "saffron"]) == ("saffron",)


def test_what_was_not_read_says_so() -> None:
    """Canola's tolerance is from memory."""
    found = {one.crop: one for one in what_will_grow(zone(), ece(4.0))}
    assert found["canola"].status is Status.UNVERIFIED
    assert found["barley-grain"].status is Status.VERIFIED


def test_leaching_is_a_caution_and_never_an_amount() -> None:
    """Only where salt may take something; what hangs on the conductivity itself always stands."""
    fresh, salty = ece(0.2), replace(ece(8.0), cautions=("gypsum-possible",))
    assert salinity_cautions(fresh, what_will_grow(zone(), fresh)) == fresh.cautions
    found = salinity_cautions(salty, what_will_grow(zone(), salty))
    assert {"drainage-first", "leaching-needs-licensed-advice", "gypsum-possible"} <= set(found)


def test_another_quantity_is_a_fault() -> None:
    """Only the saturation extract has tolerances."""
    with pytest.raises(ValueError, match="saturation extract"):
        what_will_grow(zone(), replace(ece(1.0), code="sodium-share"))


@given(st.floats(0, 40), st.floats(0, 10), st.floats(0, 10))
def test_yields_fall_and_stay_in_their_range(value: float, down: float, up: float) -> None:
    """Best first, none outside 0 to 100, each within its interval, none better where it is saltier."""
    found = what_will_grow(zone(), ece(value, max(0.0, value - down), value + up))
    yields = [one.relative_yield for one in found]
    assert yields == sorted(yields, reverse=True)
    assert all(0 <= one.low <= one.relative_yield <= one.high <= 100 for one in found)
    saltier = {one.crop: one.relative_yield for one in what_will_grow(zone(), ece(value + up))}
    assert all(saltier[one.crop] <= one.relative_yield for one in found)
