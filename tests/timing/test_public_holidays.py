"""Public holidays come from the library, and are empty where nothing is known."""

from __future__ import annotations

from datetime import date

from soilrota.timing.public_holidays import is_known, is_public_holiday, public_holidays


def test_england_2026() -> None:
    """England in 2026, known days: 1 Jan, Good Friday, Easter Monday, two in May, one in August, two at Christmas."""
    days = public_holidays("GB", "ENG", 2026)
    expected = [(1, 1), (4, 3), (4, 6), (5, 4), (5, 25), (8, 31), (12, 25), (12, 28)]
    assert {date(2026, month, day) for month, day in expected} <= days


def test_a_subdivision_has_days_of_its_own() -> None:
    """The twelfth of July is kept in Northern Ireland and not in England."""
    assert is_public_holiday("GB", "NIR", date(2027, 7, 12))
    assert not is_public_holiday("GB", "ENG", date(2027, 7, 12))


def test_no_country_and_unknown_country_have_none() -> None:
    """An empty or unknown country closes nothing."""
    assert public_holidays("", "", 2027) == frozenset()
    assert public_holidays("XX", "", 2027) == frozenset()
    assert public_holidays("AU", "NOWHERE", 2027) == frozenset()


def test_what_is_known() -> None:
    """The book can ask whether a country and subdivision are known."""
    assert is_known("AU", "VIC")
    assert is_known("GB", "")
    assert not is_known("AU", "TIPPERARY")
    assert not is_known("XX", "")
