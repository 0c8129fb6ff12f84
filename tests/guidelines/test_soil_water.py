"""Figures of the soil-water balance."""

from __future__ import annotations

from soilrota.files.schemas import shipped_schemas
from soilrota.guidelines import water_figures


def test_every_texture_and_land_use_has_its_figure() -> None:
    """No zone of a book is left without a figure, and each lies in what soils hold."""
    zone = ("farms", 0, "zones", 0)
    figures = water_figures()
    schemas = shipped_schemas()
    assert set(figures.available_mm_per_m) == set(schemas.at("client.schema.json", (*zone, "texture"))["enum"])
    assert set(figures.coefficients) == set(schemas.at("client.schema.json", (*zone, "land_use"))["enum"])
    assert all(50 <= held <= 300 for held in figures.available_mm_per_m.values())


def test_nrcs_ranges_in_inches_per_foot() -> None:
    """NRCS, by feel and appearance: fine sand 0.6-1.2, sandy loams 1.3-1.7, loams 1.5-2.1, clays 1.6-2.4 in/ft."""
    held = water_figures().available_mm_per_m
    inch_a_foot = 25.4 / 0.3048
    ranges = {"sand": (0.6, 1.2), "sandy-loam": (1.3, 1.7), "loam": (1.5, 2.1), "clay-loam": (1.6, 2.4)}
    for texture, (low, high) in ranges.items():
        assert low * inch_a_foot <= held[texture] <= high * inch_a_foot
