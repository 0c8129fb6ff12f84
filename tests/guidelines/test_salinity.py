"""Salinity tables."""

from __future__ import annotations

from statistics import median

import pytest

from soilrota.files.schemas import shipped_schemas
from soilrota.guidelines.salinity import (
    factor_by_clay,
    factor_by_texture,
    gypsum_extract,
    gypsum_possible_from,
    regressions,
    salinity_formula,
    salt_tolerance,
    salt_tolerances,
)
from soilrota.model.guideline import Status

#: Tolmie and Biggs (2000) after Shaw, in Rayment and Lyons (2011), table 3.1: EC 1:5 [dS/m] at the class edges of ECse.
EDGES = (0.95, 1.9, 4.5, 7.7, 12.2)
PRINTED = {
    (10, 20): (0.07, 0.15, 0.34, 0.63, 0.93),
    (20, 40): (0.09, 0.19, 0.45, 0.76, 1.21),
    (40, 60): (0.12, 0.24, 0.56, 0.96, 1.53),
    (60, 80): (0.15, 0.3, 0.7, 1.18, 1.87),
}
#: What the table implies, worked out to a decimal: least, greatest, all five together.
IMPLIED = {
    (10, 20): (12.2, 13.6, 12.9),
    (20, 40): (10.0, 10.6, 10.1),
    (40, 60): (7.9, 8.0, 8.0),
    (60, 80): (6.3, 6.5, 6.5),
}

#: Crops read in their source: threshold, slope.
READ = {
    "barley-grain": (8.0, 5.0), "barley-forage": (6.0, 7.1), "wheat-grain": (6.0, 7.1), "durum": (5.9, 3.8),
    "wheat-forage": (4.5, 2.6), "rye-grain": (11.4, 10.8), "sorghum": (6.8, 16), "maize-grain": (1.7, 12),
    "maize-forage": (1.8, 7.4), "soybean": (5.0, 20), "sunflower": (4.8, 5.0), "lucerne": (2.0, 7.3),
    "perennial-ryegrass": (5.6, 7.6), "white-clover": (1.5, 12), "cotton": (7.7, 5.2), "sugar-beet": (7.0, 5.9),
    "potato": (1.7, 12), "bean": (1.0, 19), "onion": (1.2, 16), "carrot": (1.0, 14), "tomato": (2.5, 9.9),
    "broccoli": (2.8, 9.2), "cabbage": (1.8, 9.7), "lettuce": (1.3, 13), "spinach": (2.0, 7.6), "zucchini": (4.7, 9.4),
}  # fmt: skip
#: Crops from memory.
REMEMBERED = {
    "canola": (11.0, 13), "turnip-rape": (9.7, 14), "wheat-semi-dwarf": (8.6, 3.0), "red-clover": (1.5, 12),
    "alsike-clover": (1.5, 12), "strawberry-clover": (1.5, 12), "berseem-clover": (1.5, 5.7), "tall-fescue": (3.9, 5.3),
    "cocksfoot": (1.5, 6.2), "phalaris": (4.6, 7.6), "tall-wheatgrass": (7.5, 4.2), "faba-bean": (1.6, 9.6),
    "field-pea": (3.4, 10.6),
}  # fmt: skip
VEGETABLES = ("potato", "bean", "onion", "carrot", "tomato", "broccoli", "cabbage", "lettuce", "spinach", "zucchini")


@pytest.mark.parametrize(("clay", "extracts"), PRINTED.items())
def test_the_printed_table(clay: tuple[int, int], extracts: tuple[float, ...]) -> None:
    """Every printed edge lies within the factor's range; the factor is what all edges of the class give together."""
    least, greatest, pooled = IMPLIED[clay]
    for percent in (clay[0], clay[0] + 5, clay[1] - 0.001):
        found = factor_by_clay(percent)
        assert found is not None
        assert found.status is Status.VERIFIED
        assert found.value == pytest.approx(pooled, abs=0.051)
        assert found.low <= least
        assert found.high >= greatest
        for edge, extract in zip(EDGES, extracts, strict=True):
            assert found.low * extract <= edge <= found.high * extract
            assert found.value * extract == pytest.approx(edge, rel=0.06)


def test_below_and_beyond_the_table() -> None:
    """Below 10 % the sets for sand, 13 to 22.7; at 80 % and beyond nothing."""
    sandy = factor_by_clay(9.99)
    assert sandy is not None
    assert (sandy.low, sandy.value, sandy.high, sandy.status) == (13, 17, 22.7, Status.UNVERIFIED)
    assert factor_by_clay(80) is None


@pytest.mark.parametrize(
    ("texture", "sets"),
    [
        ("sand", (13, 22.7, 17)), ("loamy-sand", (13, 22.7)), ("sandy-loam", (11, 13.8, 14)), ("loam", (10, 9.5, 10)),
        ("silt-loam", (10, 9.5)), ("sandy-clay-loam", (10, 9.5)), ("clay-loam", (9, 8.6, 9)),
        ("light-clay", (9, 8.6, 8.5)), ("medium-clay", (7, 7.5, 7)), ("heavy-clay", (6, 5.8, 6)), ("peat", (4.9,)),
    ],
)  # fmt: skip
def test_sets_by_texture(texture: str, sets: tuple[float, ...]) -> None:
    """From memory: Soil Essentials' groups, Slavich and Petterson 1993, rounded factors of New South Wales."""
    found = factor_by_texture(texture)
    assert found is not None
    assert (found.value, found.status) == (median(sets), Status.UNVERIFIED)
    assert found.low <= min(*sets, 0.85 * found.value)
    assert found.high >= max(*sets, 1.15 * found.value)


def test_every_texture_has_a_factor() -> None:
    """Of those that a zone may have; and a clay's range reaches to what the table by clay prints for its grade."""
    zone = ("farms", 0, "zones", 0)
    for texture in shipped_schemas().at("client.schema.json", (*zone, "texture"))["enum"]:
        assert factor_by_texture(texture) is not None
    assert factor_by_texture("") is None
    clay = factor_by_texture("heavy-clay")
    assert clay is not None
    assert clay.high == pytest.approx(4.5 / 0.56)


def test_regressions() -> None:
    """Method 14B1: Talsma 1968, Loveday 1972, Murray 1980, Shaw 1981, Lyons 2003; not below 0.2 dS/m."""
    assert regressions(1.0) == pytest.approx(
        {"talsma": 6.4, "loveday": 6.5, "murray": 6.338, "shaw": 5.143, "lyons": 6.02}
    )
    assert regressions(0.199) == {}
    assert min(regressions(0.2).values()) > 0


def test_regressions_suit_clay() -> None:
    """A cross-check: they bracket the factor of heavy clay, and halve that of a sandy loam."""
    clay, sandy = factor_by_clay(70), factor_by_clay(15)
    assert clay is not None
    assert sandy is not None
    assert min(regressions(1.0).values()) < clay.value < max(regressions(1.0).values())
    assert max(regressions(1.0).values()) / sandy.value == pytest.approx(0.5, abs=0.05)


def test_gypsum() -> None:
    """Method 3A1: gypsum holds a 1:5 extract near 2.2 dS/m."""
    assert (gypsum_extract().value, gypsum_extract().source.where) == (2.2, "method 3A1")
    assert gypsum_possible_from().value < gypsum_extract().value


def test_every_crop() -> None:
    """FAO 29, the review of 2018, Maas 1990; the rest from memory, and so marked."""
    found = {crop.id: (crop.threshold, crop.slope) for crop in salt_tolerances()}
    assert found == {**READ, **REMEMBERED}
    for crop in salt_tolerances():
        assert crop.status is (Status.VERIFIED if crop.id in READ else Status.UNVERIFIED)
        author = {"sunflower": ""}.get(crop.id, "Maas" if crop.id in VEGETABLES else "Ayers and Westcot")
        assert crop.source.author == (author if crop.id in READ else "")
    maize = salt_tolerance("maize forage")
    assert maize is not None
    assert maize.threshold_source.year == 2018


def test_names_of_crops() -> None:
    """As people write them, in any case; each name is of one crop."""
    for name, id_ in (("Corn", "maize-grain"), ("white  clover", "white-clover"), ("oilseed rape", "canola")):
        found = salt_tolerance(name)
        assert found is not None
        assert found.id == id_
    assert salt_tolerance("lupin") is None
    from soilrota.guidelines.cited_tables import cited_table

    names = [
        name
        for row in cited_table("salinity").content["crops"]
        for name in {row["id"].replace("-", " "), *row["names"]}
    ]
    assert len(set(names)) == len(names)


def test_formulas() -> None:
    """The table by clay, and FAO 61, annex 1."""
    assert salinity_formula("ece")[0].where == "table 3.1"
    assert salinity_formula("relative-yield")[0].title == "Irrigation and Drainage Paper 61"
