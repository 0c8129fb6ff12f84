"""What harvests take off: editions, units and silence. The figures are held in `published_values/test_offtake.py`."""

from __future__ import annotations

import pytest

from soilrota.guidelines.removal import Per, removal, removal_editions, removals, straw_per_grain


@pytest.mark.parametrize("edition", removal_editions())
def test_every_edition_is_whole(edition: str) -> None:
    """A name, products, and amounts above nought in order; oxides and elements are never mixed in one row."""
    assert removal_editions()[edition]
    for row in removals(edition).values():
        assert row.amounts
        assert all(0 < low <= high for low, high in row.amounts.values())
        oxides = set(row.amounts) & {"P2O5", "K2O", "MgO"}
        assert oxides in (set(), set(row.amounts))


def test_units_of_produce() -> None:
    """Tonnes, except milk and what is weighed in bushels."""
    others = {
        (row.edition, row.product): row.per
        for edition in removal_editions()
        for row in removals(edition).values()
        if row.per is not Per.TONNE
    }
    assert others.pop(("australia-audit-2001", "milk")) is Per.KILOLITRE
    assert set(others.values()) == {Per.BUSHEL}
    assert {edition for edition, _ in others} == {"iowa-2013", "tri-state-1995", "illinois-2022"}


def test_editions_never_fill_each_other() -> None:
    """A product or a nutrient that an edition does not print is not taken from another."""
    assert removal("united-kingdom-2010", "maize-silage") is None
    with pytest.raises(KeyError):
        removals("united-kingdom-2020")["wheat-winter-grain"].taken("P", 8)
    with pytest.raises(KeyError):
        removals("united-kingdom-1994")


def test_a_range_is_taken_by_its_middle() -> None:
    """2.7 to 3.6 kg P/t: 3.15, and the range stays with it."""
    row = removals("australia-phosphorus-2020")["wheat-grain"]
    assert row.taken("P", 4) == pytest.approx(12.6)
    assert row.amounts["P"] == (2.7, 3.6)


def test_straw() -> None:
    """Half a tonne of straw a tonne of grain is counted in the United Kingdom; others do not say."""
    assert straw_per_grain("united-kingdom-2010") == straw_per_grain("united-kingdom-2020") == 0.5
    assert straw_per_grain("iowa-2013") is None
