"""Which rule of lime holds where."""

from __future__ import annotations

import pytest

from soilrota.guidelines.acid_balance import produce_acids
from soilrota.guidelines.advice_regions import (
    acid_produce,
    alone_share,
    fineness_scheme,
    gypsum_dressing,
    lime_region,
    most_dressings,
    neighbours_of,
    sieve_opening,
    sieves_cited,
)
from soilrota.guidelines.cited import shipped_table
from soilrota.guidelines.lime_quality import carbonate_basis
from soilrota.guidelines.lime_rules import lime_nv, lime_rules
from soilrota.model.guideline import Status

_ROWS = shipped_table("advice_regions")["lime"]


def test_rules_by_place_and_land_use() -> None:
    """Each region that a rule was read for has it, and no other."""
    places = [
        ("GB", "ENG", "crop"), ("GB", "NIR", "pasture"), ("AU", "VIC", "orchard"), ("AU", "NSW", "crop"),
        ("AU", "SA", "crop"), ("AU", "WA", "crop"), ("AU", "QLD", "crop"), ("US", "OR", "hay"), ("US", "TX", "crop"),
        ("NZ", "", "pasture"), ("GB", "SCT", "orchard"),
    ]  # fmt: skip
    found = [lime_region(*place) for place in places]
    assert [one and one.rule for one in found] == [
        "uk-factor", "uk-factor", "south-west-victoria", "new-south-wales", "south-australia", "", None,
        "oregon-sikora", None, None, None,
    ]  # fmt: skip


@pytest.mark.parametrize("row", _ROWS, ids=lambda row: row["id"])
def test_every_row_is_whole(row: dict[str, object]) -> None:
    """Rules exist, aims are of the rule's own method, and whatever has a rule has a dressing."""
    uses, parts = row.get("land_uses", ["crop"]), row.get("subdivisions", [""])
    assert isinstance(uses, list)
    assert isinstance(parts, list)
    found = lime_region(str(row["country"]), parts[0], uses[0])
    assert found is not None
    assert found.id == row["id"]
    assert not found.rule or found.rule in lime_rules()
    assert {aim.method for aim in found.topsoil.values()} <= {found.method}
    assert found.below is None or found.below[2].method == found.method
    assert found.dressing("clay-loam") is not None or not found.rule
    assert not found.rule or lime_rules()[found.rule].cited.status is found.cited.status or found.rule == "uk-factor"
    assert found.over in {"split", "incorporate"}


def test_the_lime_of_the_united_kingdom_counts_as_oxide() -> None:
    """54 as CaO is 96 of pure calcium carbonate."""
    found = lime_region("GB", "ENG", "crop")
    assert found is not None
    assert found.pure_share == pytest.approx(carbonate_basis(lime_nv("uk-factor")) / 100, abs=5e-4)


def test_dressings_by_texture() -> None:
    """Sand holds less than clay loam in Victoria."""
    found = lime_region("AU", "VIC", "crop")
    assert found is not None
    most = {texture: found.dressing(texture) for texture in ("sand", "clay-loam", "heavy-clay")}
    assert {texture: one and one.most for texture, one in most.items()} == {
        "sand": 2,
        "clay-loam": 4,
        "heavy-clay": 4,
    }


def test_textures_between_others() -> None:
    """Loam lies between sandy loam and clay loam; sand lies at an end, and clay is named by every rule or by none."""
    assert neighbours_of("loam") == ("sandy-loam", "clay-loam")
    assert neighbours_of("sand") is None
    assert neighbours_of("heavy-clay") is None


def test_fineness_counts_in_two_places() -> None:
    """Western Australia and New York have schemes that were read; the openings of sieves are from memory."""
    assert fineness_scheme("AU", "WA") == "western-australia"
    assert fineness_scheme("US", "NY") == "new-york"
    assert fineness_scheme("AU", "NSW") == ""
    assert [sieve_opening(meshes) for meshes in (20, 60, 100)] == [0.85, 0.25, 0.15]
    assert sieves_cited().status is Status.UNVERIFIED


def test_house_figures() -> None:
    """Figures without a source say so."""
    assert most_dressings() == 2
    assert alone_share() == 0.25
    assert (gypsum_dressing().most, gypsum_dressing().dressings) == (5, 2)
    assert gypsum_dressing().cited.source.author == "common practice"


def test_produce_is_found_in_the_acid_balance() -> None:
    """Every row that a crop leads to is there."""
    rows = {row["row"] for row in shipped_table("advice_regions")["produce"]}
    assert rows == set(produce_acids())
    assert acid_produce("Lucerne", "hay") == "lucerne-hay"
    assert acid_produce("lucerne", "nothing") is None
