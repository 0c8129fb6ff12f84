"""The sets of the United Kingdom, Northern Ireland and Ireland, against the publications that they come from.

- Nutrient Action Programme Regulations (Northern Ireland) 2019, S.R. 2019 No. 81, Schedules 3 and 5.
- Potash Development Association, Cereals: recommendations and correction of potassium deficiency.
- AHDB, Soil pH and liming recommendations for arable and grass systems.
- Fertilizer Association of Ireland, Soil index system.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from soilrota.guidelines.classes import class_of
from soilrota.guidelines.lime_rules import lime_targets
from soilrota.guidelines.phosphate_limits import most_phosphate, phosphate_limits
from soilrota.guidelines.rates import index_rates
from soilrota.guidelines.sets import guideline_sets
from soilrota.model.guideline import GuidelineRow, Status
from soilrota.problems import Place
from tests.published_values.figures import row_of

#: Lowest and highest value of each class as the source prints them; None for an open end.
PHOSPHORUS = {"0": (0, 9), "1": (10, 15), "2-": (16, 20), "2+": (21, 25), "3": (26, 45), "4": (46, 70)}
POTASSIUM = {"0": (0, 60), "1": (61, 120), "2-": (121, 180)}
IRELAND = {
    "phosphorus-grass": ("0 3.0", "3.1 5.0", "5.1 8.0", "8.1 99"),
    "phosphorus-tillage": ("0 3.0", "3.1 6.0", "6.1 10.0", "10.1 99"),
    "potassium": ("0 50", "51 100", "101 150", "151 999"),
    "magnesium": ("0 25", "26 50", "51 100", "101 999"),  # the source prints 50-100 for the third
}


def words_of(row: GuidelineRow, value: float) -> str:
    """Return what is printed of a value."""
    found = class_of(row, value)
    assert found is not None
    return found.words


@pytest.mark.parametrize("land", ["grass", "arable"])
@pytest.mark.parametrize(("index", "bounds"), PHOSPHORUS.items())
def test_phosphorus(land: str, index: str, bounds: tuple[int, int]) -> None:
    """Both bounds of each Index (Schedule 5); undivided, Index 2 is 16 to 25 outside Northern Ireland."""
    split, whole = (row_of(name, f"phosphorus-{land}") for name in ("northern-ireland", "united-kingdom"))
    for value in bounds:
        assert words_of(split, value) == f"Index {index}"
        assert words_of(whole, value) == f"Index {index.rstrip('+-')}"
    assert split.status is whole.status is Status.VERIFIED


@pytest.mark.parametrize("land", ["grass", "arable"])
@pytest.mark.parametrize(("index", "bounds"), POTASSIUM.items())
def test_potassium(land: str, index: str, bounds: tuple[int, int]) -> None:
    """Both bounds of Index 0 to 2- (Potash Development Association); the rest is unverified, and the row says so."""
    row = row_of("united-kingdom", f"potassium-{land}")
    for value in bounds:
        assert words_of(row, value) == f"Index {index}"
    assert row.status is Status.UNVERIFIED
    assert "2+ and above are from memory" in row.note


def test_halves_go_up() -> None:
    """Bounds are whole numbers, so 9.4 is Index 0 and 9.5 is Index 1; no value falls between 9 and 10."""
    row = row_of("united-kingdom", "phosphorus-arable")
    assert [words_of(row, value) for value in (9.4, 9.49, 9.5, 15.49, 15.5)] == [
        "Index 0",
        "Index 0",
        "Index 1",
        "Index 1",
        "Index 2",
    ]


def test_fields_of_the_farm_press() -> None:
    """P 23.2, 4 and 56.6 mg/l are Index 2, 0 and 4; K 154.7 is at its target, 2- (Agriland, soils still too acidic)."""
    phosphorus = row_of("united-kingdom", "phosphorus-arable")
    potassium = row_of("united-kingdom", "potassium-arable")
    assert [words_of(phosphorus, value) for value in (23.2, 4, 56.6)] == ["Index 2", "Index 0", "Index 4"]
    assert words_of(potassium, 154.7) == "Index 2-"
    assert potassium.critical is not None
    assert potassium.critical < 154.7


def test_targets_are_lower_edges_of_their_index() -> None:
    """P Index 2, K Index 2- (Defra, Fertiliser Manual): the line is where the target class begins."""
    for set_id, phosphorus in (("united-kingdom", "index-2"), ("northern-ireland", "index-2-minus")):
        for land in ("grass", "arable"):
            for row, target in (("phosphorus", phosphorus), ("potassium", "index-2-minus")):
                found = row_of(set_id, f"{row}-{land}")
                edges = {one.name: one.low for one in found.classes}
                assert found.critical == edges[target]
                assert found.limit is not None
                assert words_of(found, found.limit + 1) == "Index 3"  # nothing is spread from there on
    assert index_rates()["index-3"].is_nil


def test_layers_by_land() -> None:
    """Grass 0-7.5 cm, arable land 0-15 cm, as the law of Northern Ireland samples them."""
    for set_id in ("united-kingdom", "northern-ireland"):
        for row in guideline_sets()[set_id].rows:
            assert (row.top_cm, row.bottom_cm) == (0, 7.5 if "pasture" in row.land_uses else 15)
            assert row.unit == ("pH" if row.analyte == "ph" else "mg/l")


@pytest.mark.parametrize(
    ("row", "target"),
    [
        ("ph-grass", "uk-grass-mineral"),
        ("ph-grass-peat", "uk-grass-peaty"),
        ("ph-arable", "uk-arable-mineral"),
        ("ph-arable-peat", "uk-arable-peaty"),
    ],
)
def test_ph(row: str, target: str) -> None:
    """Optimum and target are those of the lime table, which is held against the source in test_lime_rules."""
    found, lime = row_of("united-kingdom", row), lime_targets()[target]
    assert (found.critical, found.target, found.status) == (lime.act_below, lime.target, Status.VERIFIED)
    assert (found.textures == ("peat",)) == target.endswith("peaty")
    below = found.critical - 0.1 if found.critical else 0.0
    assert words_of(found, below) == "below the optimum"


def test_northern_ireland_differs_in_phosphorus_alone() -> None:
    """Everything else is the same figure for figure."""

    def without_place(row: GuidelineRow) -> GuidelineRow:
        """Return a row as if it stood nowhere."""
        return replace(row, place=Place(""))

    both = [
        [without_place(row) for row in guideline_sets()[name].rows if row.analyte != "phosphorus"]
        for name in ("united-kingdom", "northern-ireland")
    ]
    assert both[0] == both[1]
    assert guideline_sets()["northern-ireland"].countries == ("GB-NIR",)


@pytest.mark.parametrize(("row", "classes"), IRELAND.items())
def test_ireland(row: str, classes: tuple[str, ...]) -> None:
    """Both bounds of Index 1 to 4 by Morgan's extract; target Index 3 (Fertilizer Association of Ireland)."""
    found = row_of("ireland", row)
    for index, bounds in enumerate(classes, 1):
        assert [words_of(found, float(value)) for value in bounds.split()] == [f"Index {index}"] * 2
    assert words_of(found, found.critical or 0) == "Index 3"
    assert (found.method, found.bottom_cm) == ("morgan-by-volume", 10)


@pytest.mark.parametrize(
    ("use", "holding", "limits"),
    [
        ("grass-establishment", "general", (120, 80, 65, 50, 30, 0)),
        ("grass-establishment", "extensive", (80, 65, 50, 30, 0, 0)),
        ("grazed-grass", "extensive", (50, 35, 20, 0, 0, 0)),
        ("first-cut-silage", "extensive", (70, 55, 40, 0, 0, 0)),
        ("first-cut-silage", "below-80-kg-chemical-nitrogen", (100, 70, 55, 40, 0, 0)),
    ],
)
def test_legal_maxima(use: str, holding: str, limits: tuple[int, ...]) -> None:
    """Schedule 3 [kg P2O5/ha] at Index 0, 1, 2-, 2+, 3 and 4; the split of the columns is ours, as it says."""
    classes = [one.name for one in row_of("northern-ireland", "phosphorus-grass").classes]
    for index, most in zip(classes, limits, strict=False):
        assert most_phosphate("GB", "NIR", use, holding, index) == most
    assert most_phosphate("GB", "NIR", use, holding, "above-index-4") is None
    assert all(limit.is_split_derived and "decide" in limit.caution for limit in phosphate_limits("GB", "NIR"))
