"""Which guideline sets hold for a zone."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from soilrota.guidelines.choosing import chosen_set, default_set, goal_of, known_sets, rows_for, sets_for
from soilrota.guidelines.sets import guideline_sets, laid_over
from soilrota.model.client import Client
from soilrota.model.guideline import GuidelineSet
from tests.book.small_book import small_book
from tests.guidelines.a_set import guideline, row

PASTURE = "southern-australia-pasture"


@pytest.fixture
def client(tmp_path: Path) -> Client:
    """Return the client of the small book, in Victoria."""
    client, problems = small_book(tmp_path).client()
    assert client is not None, problems
    return replace(client, subdivision="VIC")


def _chosen(client: Client) -> str:
    """Return the id of the set of the client's first zone; empty for none."""
    found = chosen_set(client, client.farms[0].zones[0])
    return found.id if found else ""


def _all(client: Client) -> list[str]:
    """Return the ids of all sets that hold for the client's first zone."""
    return [one.id for one in sets_for(client, client.farms[0].zones[0])]


def _with(client: Client, *own: GuidelineSet) -> Client:
    """Return the client with a practice that has own sets."""
    return replace(client, practice=replace(client.practice, guidelines={one.id: one for one in own}))


def _on(client: Client, **changes: str) -> Client:
    """Return the client with its first zone changed."""
    farm = client.farms[0]
    return replace(client, farms=(replace(farm, zones=(replace(farm.zones[0], **changes), *farm.zones[1:])),))


def test_the_default_follows_region_and_land_use(client: Client) -> None:
    """Pasture and crops of Victoria have their sets; an orchard has none, nor has another country."""
    assert _chosen(client) == PASTURE
    assert _chosen(_on(client, land_use="crop")) == "southern-australia-cropping"
    assert _chosen(_on(client, land_use="orchard")) == ""
    assert _chosen(replace(client, country="XX")) == ""
    assert _chosen(replace(client, subdivision="QLD")) == ""
    assert _chosen(replace(client, subdivision="")) == "", "southern sets are not for the whole country"


def test_the_nearest_choice_holds(client: Client) -> None:
    """The zone before its farm before the client; a choice that does not exist gives none, not the default."""
    by_client = replace(client, guideline="southern-australia-cropping")
    by_farm = replace(by_client, farms=(replace(client.farms[0], guideline="western-australia-cropping"),))
    by_zone = _on(by_farm, guideline="new-south-wales-cropping")
    assert _chosen(by_client) == "southern-australia-cropping"
    assert _chosen(by_farm) == "western-australia-cropping"
    assert _chosen(by_zone) == "new-south-wales-cropping"
    assert chosen_set(by_zone, by_zone.farms[0].zones[1]) is guideline_sets()["western-australia-cropping"]
    assert _chosen(replace(client, guideline="nowhere")) == ""


def test_own_sets_come_first(client: Client) -> None:
    """An own set for the country is the default before a shipped, nearer one; without a country it is none."""
    own = guideline(countries=["AU"])
    assert _chosen(_with(client, own)) == "trial"
    assert _chosen(_with(client, replace(own, land_uses=("crop",)))) == PASTURE
    assert _chosen(_with(client, replace(own, countries=()))) == PASTURE
    named = replace(_with(client, replace(own, countries=())), guideline="trial")
    assert _chosen(named) == "trial"
    two = _with(client, guideline(name="b", countries=["AU"]), guideline(name="a", countries=["AU"]))
    assert _chosen(two) == "a"
    near = _with(client, guideline(name="b", countries=["AU-VIC"]), guideline(name="a", countries=["AU"]))
    assert _chosen(near) == "b"


def test_an_own_set_takes_the_place_of_what_it_overrides(client: Client) -> None:
    """The shipped set is the default no more, and holds always no more; by name it may still be chosen."""
    over_pasture = laid_over(guideline(row(), overrides=PASTURE), guideline_sets()[PASTURE])
    over_constraints = laid_over(
        guideline(row(), name="ours", overrides="constraints-australia"), guideline_sets()["constraints-australia"]
    )
    with_own = _with(client, over_pasture, over_constraints)
    assert _chosen(with_own) == "trial"
    assert "ours" in _all(with_own)
    assert "constraints-australia" not in _all(with_own)
    assert _chosen(replace(with_own, guideline=PASTURE)) == PASTURE
    namesake = replace(over_pasture, id=PASTURE, overrides=PASTURE)
    assert known_sets(_with(client, namesake).practice)[PASTURE] is namesake
    assert chosen_set(_with(client, namesake), client.farms[0].zones[0]) is namesake


def test_constraints_hold_besides_the_chosen_set(client: Client) -> None:
    """The chosen set first, then what always holds, the nearest region first; without a chosen set they still hold."""
    constraints = ["constraints-victoria", "constraints-australia", "constraints-everywhere"]
    assert _all(client) == [PASTURE, *constraints]
    assert _all(_on(client, land_use="orchard")) == constraints
    assert _all(replace(client, country="XX", subdivision="")) == ["constraints-everywhere"]
    own = guideline(always=True, land_uses=["pasture"])
    assert _all(_with(client, own)) == [PASTURE, "trial", *constraints]
    assert _all(_on(_with(client, own), land_use="orchard")) == constraints


def test_sets_that_hold_always_are_no_default(client: Client) -> None:
    """However near its region is."""
    own = guideline(always=True, countries=["AU-VIC"])
    assert default_set(_with(client, own).practice, "AU", "VIC", "pasture") is guideline_sets()[PASTURE]


def test_the_goal_is_the_nearest_that_the_set_serves(client: Client) -> None:
    """The zone's before the farm's before the client's; one that the set does not serve gives way to the set's own."""
    pasture = guideline_sets()[PASTURE]
    zone = client.farms[0].zones[0]
    assert goal_of(client, zone, pasture) == "95"
    by_client = replace(client, yield_goal="80-90")
    assert goal_of(by_client, zone, pasture) == "80-90"
    by_farm = replace(by_client, farms=(replace(client.farms[0], yield_goal="90-95"),))
    assert goal_of(by_farm, zone, pasture) == "90-95"
    assert goal_of(by_farm, replace(zone, yield_goal="80-90"), pasture) == "80-90"
    assert goal_of(by_client, zone, guideline_sets()["southern-australia-cropping"]) == "90"
    assert goal_of(by_client, zone, guideline_sets()["constraints-australia"]) == ""


def test_rows_of_an_analysis() -> None:
    """By analyte and method, in the order of the set."""
    made = guideline(row(), row(id="bray", method="bray-1"), row(id="olsen-crop", land_uses=["crop"]))
    assert [one.id for one in rows_for(made, "phosphorus", "olsen")] == ["olsen-p", "olsen-crop"]
    assert rows_for(made, "phosphorus", "colwell") == ()
