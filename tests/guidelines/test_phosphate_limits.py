"""Legal maxima of phosphate: what the table says, and that its silence is no permission."""

from __future__ import annotations

from itertools import pairwise

from soilrota.guidelines.phosphate_limits import is_extensive, most_phosphate, phosphate_limits
from soilrota.guidelines.sets import guideline_sets


def test_indices_are_classes_of_the_set() -> None:
    """The ids of the columns are ids of classes in the set of Northern Ireland."""
    row = next(row for row in guideline_sets()["northern-ireland"].rows if row.analyte == "phosphorus")
    for limit in phosphate_limits("GB", "NIR"):
        assert list(limit.most) == [one.name for one in row.classes][: len(limit.most)]


def test_more_in_the_soil_never_allows_more() -> None:
    """From one Index to the next the maximum falls or stays."""
    for limit in phosphate_limits("GB", "NIR"):
        assert all(poorer >= richer >= 0 for poorer, richer in pairwise(limit.most.values()))


def test_silence() -> None:
    """Other parts of the country, uses, holdings and Indices: no figure, never a guess."""
    assert phosphate_limits("GB", "ENG") == ()
    assert most_phosphate("GB", "ENG", "first-cut-silage", "extensive", "index-0") is None
    assert most_phosphate("GB", "NIR", "first-cut-silage", "general", "index-0") is None
    assert most_phosphate("GB", "NIR", "barley", "extensive", "index-0") is None
    assert most_phosphate("GB", "NIR", "first-cut-silage", "extensive", "index-5") is None
    assert is_extensive("IE", "", 10, 10) is None


def test_extensive_holdings() -> None:
    """Less than 60 kg of chemical nitrogen, or less than 120 of manure; the figure itself is not less."""
    cases = ((59.9, 200, True), (60, 119.9, True), (60, 120, False))
    for chemical, manure, extensive in cases:
        assert is_extensive("GB", "NIR", chemical, manure) is extensive


def test_every_limit_carries_its_caution() -> None:
    """That the statute in force decides, that the columns were split by hand, and which statute it was."""
    for limit in phosphate_limits("GB", "NIR"):
        assert "in force" in limit.caution
        assert "split by hand" in limit.caution
        assert limit.is_split_derived
        assert "2019 No. 81" in limit.cited.source.title
