"""What dressings may hold, and how a need is divided."""

from __future__ import annotations

from math import fsum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soilrota.agronomy.advice.lime_dressings import Dressings, dressings_of
from soilrota.agronomy.derived.intervals import Doubtful
from soilrota.guidelines.advice_regions import lime_region
from soilrota.model.guideline import Status


def _dressings(country: str, subdivision: str, texture: str, land_use: str) -> Dressings:
    """Return dressings that must be there."""
    region = lime_region(country, subdivision, land_use)
    assert region is not None
    found = dressings_of(region, texture, land_use)
    assert found is not None
    return found


def test_published_dressings() -> None:
    """United Kingdom: 10 t/ha arable, 7 on grass, of lime that is 0.964 pure; Victoria: 2 on sand."""
    arable, grass = (_dressings("GB", "ENG", "clay-loam", use) for use in ("crop", "pasture"))
    assert (arable.one, grass.one) == pytest.approx((9.64, 6.748))
    assert arable.least == grass.least == pytest.approx(1.928)
    assert (arable.cap.status, arable.cap.amount) == (Status.VERIFIED, pytest.approx(19.28))
    sand = _dressings("AU", "VIC", "sand", "crop")
    assert (sand.one, sand.least, sand.is_worked_in) == (2, 0, True)
    assert not _dressings("AU", "VIC", "sand", "pasture").is_worked_in


def test_a_neighbours_figures_are_not_verified_here() -> None:
    """Those of the United Kingdom stand in for Oregon; its least is not taken."""
    found = _dressings("US", "OR", "", "crop")
    assert (found.cap.facts["borrowed"], found.cap.status, found.least) == ("GB", Status.UNVERIFIED, 0)


def test_a_region_without_any() -> None:
    """Western Australia's were not read."""
    region = lime_region("AU", "WA", "crop")
    assert region is not None
    assert dressings_of(region, "sand", "crop") is None


def test_too_little_is_nothing() -> None:
    """Each end by itself; what is just enough is kept, whatever its last digit."""
    found = _dressings("GB", "ENG", "sand", "crop")
    assert found.worth_spreading(Doubtful(1.9, 0.5, 3.0)) == Doubtful(0, 0, 3.0)
    assert found.worth_spreading(Doubtful(2 * 0.964, 0, 3)).value == 2 * 0.964


@given(st.floats(0, 19.28))
def test_dressings_add_up_and_none_is_too_large(amount: float) -> None:
    """As few as will do."""
    found = _dressings("GB", "ENG", "sand", "crop")
    split = found.split(amount)
    assert bool(split) == (amount > found.one)
    assert all(one <= found.one + 1e-9 for one in split)
    assert not split or fsum(split) == pytest.approx(amount)
