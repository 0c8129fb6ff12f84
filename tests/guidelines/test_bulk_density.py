"""Bulk density: typical by texture, and by organic matter."""

from __future__ import annotations

import pytest

from soilrota.files.schemas import shipped_schemas
from soilrota.guidelines.bulk_density import (
    density_of_organic_matter,
    formula_densities,
    gravel_share,
    measured_density,
    stock_formula,
    typical_density,
)
from soilrota.model.guideline import Status

#: Typical bulk density by texture class, a general page that names no source; field clays stand beside its clay.
TYPICAL = {
    "sand": 1.69, "loamy-sand": 1.63, "sandy-loam": 1.51, "loam": 1.43, "silt-loam": 1.38, "sandy-clay-loam": 1.40,
    "clay-loam": 1.30, "light-clay": 1.25, "medium-clay": 1.25, "heavy-clay": 1.25,
}  # fmt: skip


@pytest.mark.parametrize("texture", TYPICAL)
def test_typical(texture: str) -> None:
    """A fifth either side, and never outside what mineral soils have, 0.9 to 1.8 (lecture notes on roots)."""
    found = typical_density(texture)
    assert found is not None
    assert found.value == TYPICAL[texture]
    assert (found.low, found.high) == pytest.approx((max(0.9, 0.8 * found.value), min(1.8, 1.2 * found.value)))
    assert "names no source" in found.source.where


def test_every_texture_has_one() -> None:
    """No zone of a book is left without; peat's range was read (0.1 to 0.6), the figure in it was not."""
    zone = ("farms", 0, "zones", 0)
    textures = set(shipped_schemas().at("client.schema.json", (*zone, "texture"))["enum"])
    assert textures == {*TYPICAL, "peat"}
    peat = typical_density("peat")
    assert peat is not None
    assert (peat.low, peat.high, peat.status) == (0.1, 0.6, Status.UNVERIFIED)
    assert typical_density("") is None


@pytest.mark.parametrize(
    ("carbon", "expected"),
    [
        (1.5, {"saini": 1.465, "drew": 1.389, "grigal": 1.475, "honeysett": 1.413}),
        (3.0, {"saini": 1.310, "drew": 1.229, "grigal": 1.359, "honeysett": 1.174}),
    ],
)
def test_by_organic_matter(carbon: float, expected: dict[str, float]) -> None:
    """FAO, Soil Organic Carbon Mapping Cookbook: four formulas, organic matter 1.724 x carbon."""
    assert formula_densities(carbon * 1.724) == pytest.approx(expected, abs=6e-4)
    found = density_of_organic_matter(carbon * 1.724)
    assert found is not None
    assert found.value == pytest.approx(sum(expected.values()) / 4, abs=6e-4)


def test_where_the_formulas_end() -> None:
    """Where one leaves the range of mineral soils: Saini's below 0.9 from 12 % on, Grigal's never above 1.8."""
    assert density_of_organic_matter(0) is not None
    assert density_of_organic_matter(8) is not None
    assert density_of_organic_matter(12.1) is None
    falling = [found.value for matter in range(9) if (found := density_of_organic_matter(matter)) is not None]
    assert falling == sorted(falling, reverse=True)


def test_measured_and_gravel() -> None:
    """Common practice, no source: 10 % either side, and half of a share of gravel."""
    measured = measured_density(1.3)
    assert (measured.low, measured.high) == pytest.approx((1.17, 1.43))
    gravel = gravel_share(15)
    assert (gravel.low, gravel.value, gravel.high) == pytest.approx((0.075, 0.15, 0.225))
    assert gravel_share(80).high == 1
    assert gravel.source.title == measured.source.title == "common practice, no source"
    assert stock_formula("nutrient-stock")[1] is stock_formula("mineral-nitrogen")[1] is Status.VERIFIED
