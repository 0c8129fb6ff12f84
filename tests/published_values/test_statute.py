"""The Northern Ireland statute on soil samples for phosphorus.

Nitrates Action Programme Regulations (Northern Ireland) 2006, SR 2006/488, Schedule 1: no sample sooner than three
months after the last phosphorus fertiliser, chemical or organic; at least 25 sub-samples; at most 4 hectares a sample;
75 mm under grass, 150 mm under arable crops.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from soilrota.book import load_shared
from soilrota.guidelines import gaps
from soilrota.timing.months import add_months

BOOK = Path(__file__).resolve().parents[2] / "example_clients"


@pytest.mark.parametrize("material_class", ["mineral-fertiliser", "manure"])
def test_three_months_after_phosphorus(material_class: str) -> None:
    """The engine's own table waits no less than the statute."""
    assert gaps()[material_class].months >= 3
    assert add_months(date(2026, 11, 30), 3) == date(2027, 2, 28)


def test_the_northern_protocols_keep_the_statute() -> None:
    """Twenty-five cores, four hectares, 75 mm of grassland and 150 mm of arable land."""
    shared, problems = load_shared(BOOK)
    assert problems == ()
    assert shared is not None
    for name, depth in (("grass-north", 7.5), ("arable-north", 15)):
        protocol = shared.protocols[name]
        assert protocol.layers[0].cores >= 25
        assert protocol.layers[0].bottom_cm == depth
        assert protocol.largest_area_ha <= 4
