"""Worth of liming products: edges. The figures are held in `published_values/test_lime_quality.py`."""

from __future__ import annotations

import pytest

from soilrota.guidelines.lime_quality import product_rate, quality_sources, western_australia_value
from soilrota.model.products import SizeFraction


def test_schemes_are_cited() -> None:
    """Each scheme has its source."""
    sources = quality_sources()
    assert set(sources) == {"pure", "cao_basis", "western_australia", "new_york", "ohio"}
    assert all(one.source.author and one.status == "verified" for one in sources.values())


def test_a_fraction_that_straddles() -> None:
    """Grain from 0.4 to 0.6 mm is of two worths, so there is no value; one that ends at the edge is of one."""
    assert western_australia_value([SizeFraction(0.4, 0.6, 100, 90)]) is None
    assert western_australia_value([SizeFraction(0.4, 0.5, 100, 90)]) == pytest.approx(90)
    assert western_australia_value([SizeFraction(0.1, 0.5, 100, 90)]) == pytest.approx(90)  # one worth on both sides
    assert western_australia_value([]) == 0


def test_a_poorer_product_is_spread_thicker() -> None:
    """What neutralises half takes twice as much."""
    assert product_rate(2.0, 100) == 2
    assert product_rate(2.0, 50) == 4
