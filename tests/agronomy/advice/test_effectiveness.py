"""What products are worth, against published figures and against slow sums."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.effectiveness import effectiveness_of, new_york_fineness, worth_of
from soilrota.model.guideline import Status
from soilrota.model.products import SizeFraction
from tests.agronomy.advice.made_products import gypsum, lime

_SIZES = (0.0, 0.125, 0.25, 0.5, 1.0, 4.0)


def test_western_australian_lime_quality() -> None:
    """WA: 1.7 t/ha of a lime of 60 % do what 1.1 t/ha of one of 90 % do (Lime quality); the source rounds by 4 %."""
    low, high = lime(neutralising_percent=60), lime(neutralising_percent=90)
    assert 1.7 * effectiveness_of(low, "AU-WA") == pytest.approx(1.1 * effectiveness_of(high, "AU-WA"), rel=0.04)


def test_penn_state_product() -> None:
    """Penn State: advice of 5 lb/100 ft2 at 100 %, product of 70 %: 7 lb, exactly 7.14."""
    assert 5 / effectiveness_of(lime(neutralising_percent=70), "US-PA") == pytest.approx(7.14, abs=0.005)


def test_coarse_lime_is_worth_less_in_western_australia() -> None:
    """Half of it between 0.5 and 1 mm, which counts half there and whole where no scheme was read."""
    coarse = lime(neutralising_percent=80, fractions=(_size(0.25, 0.5, 50, 80), _size(0.5, 1.0, 50, 80)))
    assert effectiveness_of(coarse, "AU-WA") == pytest.approx(0.60)
    assert effectiveness_of(coarse, "AU-NSW") == pytest.approx(0.80)
    assert worth_of(coarse, "AU-WA").scheme == "western-australia"
    assert worth_of(coarse, "AU-NSW").facts["fineness"] == "no-scheme"


@given(st.lists(st.tuples(st.floats(0, 20), st.floats(50, 110)), min_size=5, max_size=5), st.floats(0, 20))
def test_western_australia_against_a_slow_sum(drawn: list[tuple[float, float]], moisture: float) -> None:
    """Mass times value times what the size is worth, less water."""
    bounds = list(pairwise(_SIZES))
    found = lime(
        neutralising_percent=80,
        moisture_percent=moisture,
        fractions=tuple(_size(*ends, *one) for ends, one in zip(bounds, drawn, strict=True)),
    )
    slow = sum(mass * value * worth for (mass, value), worth in zip(drawn, (1, 1, 1, 0.5, 0.2), strict=True)) / 1e4
    assert effectiveness_of(found, "AU-WA") == pytest.approx(slow * (1 - moisture / 100))


def test_new_york_by_sieves() -> None:
    """100, 60 and 40 % through 20, 60 and 100 meshes at 90 %: 64.8 %, by sieves whose openings are from memory."""
    found = lime(
        neutralising_percent=90,
        fractions=(_size(0, 0.15, 40, 90), _size(0.15, 0.25, 20, 90), _size(0.25, 0.85, 40, 90)),
    )
    assert new_york_fineness(found.fractions) == (100, 60, 40)
    assert effectiveness_of(found, "US-NY") == pytest.approx(0.648)
    assert worth_of(found, "US-NY").cited.status is Status.UNVERIFIED


def test_fractions_across_a_size_do_not_count() -> None:
    """A fraction that cannot be split leaves the neutralising value alone, and that is said."""
    found = lime(neutralising_percent=90, fractions=(_size(0.1, 0.9, 100, 90),))
    for region in ("AU-WA", "US-NY"):
        assert worth_of(found, region).facts["fineness"] == "not-in-scheme"
        assert effectiveness_of(found, region) == pytest.approx(0.9)
    assert worth_of(lime(neutralising_percent=90), "AU-WA").facts["fineness"] == "not-known"


def test_gypsum_by_purity_and_water() -> None:
    """80 % pure with a tenth of water: 0.72 t of pure gypsum in a tonne."""
    assert effectiveness_of(gypsum(purity_percent=80, moisture_percent=10), "AU-VIC") == pytest.approx(0.72)
    assert worth_of(gypsum(), "AU-VIC").scheme == "purity"


def test_what_is_no_lime_is_worth_nothing() -> None:
    """A product without a neutralising value."""
    assert effectiveness_of(lime(neutralising_percent=None), "AU-VIC") == 0


def _size(low: float, high: float, mass: float, value: float) -> SizeFraction:
    """Return a size fraction."""
    return SizeFraction(low, high, mass, value)
