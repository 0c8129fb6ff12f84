"""Series of zones that were redrawn, split and merged."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from soilrota.model.client import Client, Forebear
from soilrota.problems import Place
from soilrota.results.series import Series, all_earlier_series, earlier_series, how_it_began, series_of
from tests.timing.test_tasks import client as plain_client

NOWHERE = Place("client.yaml")
REDRAWN, SPLIT, MERGED = date(2026, 7, 1), date(2025, 7, 1), date(2024, 7, 1)


def client() -> Client:
    """Return a client whose bank was redrawn after it was split from the river flat, itself merged from two."""
    plain = plain_client()
    (farm,) = plain.farms
    flat, bank = farm.zones
    flat = replace(flat, follows=(Forebear(("north", "south"), MERGED, "merged", NOWHERE),))
    split = Forebear(("river-flat",), SPLIT, "split", NOWHERE)
    bank = replace(bank, follows=(Forebear(("bank",), REDRAWN, "redrawn", NOWHERE), split))
    return replace(plain, farms=(replace(farm, zones=(flat, bank)),))


def test_the_series_of_a_day() -> None:
    """The day of the change belongs to the new series, the day before to the former one."""
    held = client()
    assert series_of(held, "home", "bank", date(2026, 7, 1)) == Series("home", "bank", "2026-07-01")
    assert series_of(held, "home", "bank", date(2026, 6, 30)) == Series("home", "bank", "2025-07-01")
    assert series_of(held, "home", "bank", date(2025, 6, 30)) == Series("home", "bank")
    assert series_of(held, "home", "north", date(2026, 1, 1)) == Series("home", "north")
    assert str(series_of(held, "home", "bank", date(2027, 1, 1))) == "bank since 2026-07-01"
    assert str(Series("home", "north")) == "north"


def test_series_are_linked_to_the_older_ones() -> None:
    """Step by step, and all the way back."""
    held = client()
    last = series_of(held, "home", "bank", date(2027, 1, 1))
    assert [str(one) for one in earlier_series(held, last)] == ["bank since 2025-07-01"]
    assert [str(one) for one in all_earlier_series(held, last)] == [
        "bank since 2025-07-01", "river-flat since 2024-07-01", "north", "south",
    ]  # fmt: skip
    assert earlier_series(held, Series("home", "north")) == ()
    assert [how_it_began(held, one) for one in (last, Series("home", "bank", "2025-07-01"), Series("home", "x"))] == [
        "redrawn", "split", "",
    ]  # fmt: skip
